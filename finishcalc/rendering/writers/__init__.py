"""Pages as text for a terminal, as Markdown, as HTML and as PDF."""
