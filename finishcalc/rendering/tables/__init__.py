"""Tables for a spreadsheet, for Markdown and for pages."""
