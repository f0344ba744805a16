"""The cutting of each cloth: its pieces are laid on it, and it is bought once."""
