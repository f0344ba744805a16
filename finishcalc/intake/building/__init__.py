"""Makes the project and the shop from the values of all layers."""
