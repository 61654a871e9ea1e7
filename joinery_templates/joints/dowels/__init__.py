"""Dowels: round pins glued into holes that are bored in both boards."""
