"""Rows."""
