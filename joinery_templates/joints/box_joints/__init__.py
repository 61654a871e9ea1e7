"""What joints with square fingers share: their spacing, advice and order of work."""
