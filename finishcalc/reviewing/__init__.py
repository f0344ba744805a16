"""A careful look at a file before it is quoted: its samples and defaults, what is still to measure, whose figures."""
