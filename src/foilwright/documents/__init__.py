"""What people write down and what the tool writes for them. No physics, no drawing, no printing."""
