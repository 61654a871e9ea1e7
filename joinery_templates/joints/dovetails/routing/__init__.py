"""Layouts for a router with a dovetail cutter."""
