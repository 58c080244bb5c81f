"""What turning a thing does to a boat: pure functions on rows of numbers."""
