"""The counter: a folder of projects as pages in the browser, live while the customer stands there."""
