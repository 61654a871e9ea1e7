"""Mortise and tenon, one file a kind."""
