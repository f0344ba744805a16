"""A pieced top: its pieces, the cloth they are cut from, and where they lie."""
