"""Air and what it does."""
