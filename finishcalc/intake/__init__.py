"""The only part that reads: text becomes a resolved project with the origin of every value, or every problem."""
