"""Flat drawings in millimetres: strokes and words with roles. No joint kind, no paper, no ink."""
