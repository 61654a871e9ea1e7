"""The joint as a picture: pieces as solids, seen from one side, hidden lines left out."""
