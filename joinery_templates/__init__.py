"""Printable full-size templates for hand-cut woodworking joints."""

__version__ = "0.1.0"
