"""Double-tapered keys across a joint line, and rows of them."""
