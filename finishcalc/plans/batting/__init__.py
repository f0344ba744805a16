"""The batting: bought or brought, in one piece or joined edge to edge."""
