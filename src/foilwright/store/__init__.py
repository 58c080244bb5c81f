"""What is kept: boats as parts with versions, sailors behind a number, days, cards, and the trail."""
