"""The finished top: its size, its outline, and how it hangs on what it covers."""
