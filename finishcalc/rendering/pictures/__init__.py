"""Pictures, drawn in the terminal and as SVG."""
