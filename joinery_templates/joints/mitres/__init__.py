"""Mitred corners: the kinds, and the mitre that they share."""
