"""A story of our own: invented people, blocks and script."""
