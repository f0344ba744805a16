"""How the pieces of one cloth are laid on it and cut from it."""
