"""A PDF read back by its own drawing operators, and compared with what should be there.

This room shares no code with the rooms that draw, so that it can find their mistakes.
"""
