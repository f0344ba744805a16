"""The studio's view of a project in the browser: who has it open, and what it shows."""
