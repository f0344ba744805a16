"""The questions from whose answers a project file or a shop file is written, for a terminal or any other page."""
