"""Corners of boards that lean, or that meet at another angle than a right one."""
