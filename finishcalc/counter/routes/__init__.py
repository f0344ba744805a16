"""The routes of the counter, a module for each group of addresses."""
