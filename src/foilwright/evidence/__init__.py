"""What the world says back: measurements turned into a better known boat. Pure: arrays in SI."""
