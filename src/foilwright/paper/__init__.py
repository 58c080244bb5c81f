"""Cards and drawings for paper."""
