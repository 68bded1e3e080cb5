"""Distances of the drawing [mm]."""

GAP = 4.0  # between blocks beside each other
BARE = 3.2  # line between two symbols with nothing written at it
BOLTED = 2.0  # where they are bolted together
WRITTEN = 5.4  # with a size written at it
TEXT = 1.2  # from a line or symbol to words
THICK = 1.6  # of the main bar and panels
ROW = 8.8  # least pitch of rows
TAP = 8.0  # least distance of taps on a bar
"""Bars reach this far past their last tap."""
OVER = 2.5
