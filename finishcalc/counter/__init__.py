<<<<<<< HEAD
"""The counter: a folder of projects as pages in the browser, live while the customer stands there."""
=======
"""The counter: the quote as a page in the browser, served to this machine alone."""
>>>>>>> server
