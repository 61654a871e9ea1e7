"""Grooves and rebates along the boards of a joint: what is told, their wood, their steps."""
