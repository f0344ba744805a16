"""The backing: every way to piece it, what each buys, and the one that is chosen."""
