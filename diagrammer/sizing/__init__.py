"""Filling in what a netlist leaves out: conductor sizes and device ratings."""
