"""JSON documents."""
