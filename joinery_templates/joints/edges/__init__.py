"""Boards joined along their edges: the joint runs the whole length of both."""
