"""Symbols after IEEE 315, only where their shape really differs from IEC 60617."""
