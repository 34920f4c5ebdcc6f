"""Schema changes, in order."""
