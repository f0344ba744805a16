"""The edge: bound, bound from the backing's offcuts, faced or hemmed."""
