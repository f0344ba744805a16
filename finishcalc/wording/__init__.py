"""How values become sentences: what is said, how it is written, and text made safe to show."""
