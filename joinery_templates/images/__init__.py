"""Figures as small pictures for a screen: SVG and PNG."""
