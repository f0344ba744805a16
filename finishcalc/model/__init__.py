"""What the files may say, one class a table and one line a key, and what the plans read."""
