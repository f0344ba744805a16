"""The counter: the quote as a page in the browser, served to this machine alone."""
