"""Symbols after IEC 60617, in own proportions; shapes that it does not have say so in `source`."""
