"""The tables of the files, one class a table and one line a key, and the records that plans and pricing read."""
