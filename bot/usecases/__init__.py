"""One function for a thing that can be asked."""
