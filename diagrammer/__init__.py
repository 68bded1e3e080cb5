"""Netlists of small off-grid electrical systems: read, checked, computed, drawn."""

__version__ = "0.1.0"
