"""What falls due."""
