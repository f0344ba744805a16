"""Turns values into sentences, writes them in the reader's units, and makes text safe to show."""
