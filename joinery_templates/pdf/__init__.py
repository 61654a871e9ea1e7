"""Ink: roles to pens, fonts, and the PDF file. It never hears the name of a joint."""
