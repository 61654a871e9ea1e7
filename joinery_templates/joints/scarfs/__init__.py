"""Scarfs: boards and beams made longer, end on end."""
