"""Rules on conductors: what they carry and lose, their sizes, and how they land."""
