"""The routes around the page of a project: the list, a new project, papers, saving, and what went wrong."""
