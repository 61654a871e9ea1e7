"""What every dovetailed corner shares: its wood, figures, checks, advice and order of work."""
