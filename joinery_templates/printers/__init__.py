"""Printer profiles: from what a person measured on a printed sheet to a correction."""
