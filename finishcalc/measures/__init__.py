"""Exact measures: lengths, areas, money and rates, and the named places where they are rounded."""
