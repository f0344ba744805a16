"""The templates of the counter page, and in `static/` the files that it loads."""
