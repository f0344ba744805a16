"""A page in the browser, live at the counter: a folder of projects served to the machine itself."""
