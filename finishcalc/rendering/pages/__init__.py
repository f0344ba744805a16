"""Pages of text."""
