"""JSON Schemas (2020-12) of the files that people write and of the document that programs read."""
