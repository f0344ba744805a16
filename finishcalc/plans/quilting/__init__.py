"""The quilting: what is stitched, its thread, and the passes on the frame."""
