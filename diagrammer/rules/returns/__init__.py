"""Rules on the way back to the source and on what measures it."""
