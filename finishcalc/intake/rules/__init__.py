"""The rules between keys, a module a subject."""
