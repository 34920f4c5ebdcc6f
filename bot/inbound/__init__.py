"""Updates in: fetched, kept as rows, turned into commands."""
