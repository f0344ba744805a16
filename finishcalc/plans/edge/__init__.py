"""The edge: bound, bound from offcuts, faced or hemmed."""
