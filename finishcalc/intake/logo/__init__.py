"""The studio's logo: the file that a shop names, and whether it is a picture that can be printed."""
