"""The routes of the counter: each reads what is asked, has it worked out, and fills in a page."""
