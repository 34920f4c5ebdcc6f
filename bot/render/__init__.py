"""Words and buttons."""
