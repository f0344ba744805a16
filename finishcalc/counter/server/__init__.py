"""The server of the counter page: one socket on this machine, guarded, and one thread that works quotes out."""
