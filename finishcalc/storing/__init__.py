"""Files put in their places whole or not at all, by the command line and by the page."""
