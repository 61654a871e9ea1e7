"""Halvings: their shape and order of work."""
