"""Changes that are tried on a project: sizes, values, and the file written anew."""
