"""Arguments in, text out, exit codes; no arithmetic."""
