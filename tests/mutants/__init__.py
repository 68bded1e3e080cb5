"""Mutation tests: one small change of the program at a time, and whether a test notices."""
