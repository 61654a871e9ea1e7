"""The engine of every corner: square, or of boards that lean or meet at another angle."""
