"""The sliding dovetail: its parameters, checks and order of work."""
