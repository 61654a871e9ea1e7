"""Housings: plain, and the sliding dovetail with its parameters, checks and order of work."""
