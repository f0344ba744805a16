"""The form: what is asked of a project, in the order of talk, and what of it stands in the file."""
