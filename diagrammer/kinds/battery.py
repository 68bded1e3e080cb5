"""A battery: one of a bank, a series stack, or of an engine."""

from diagrammer.kinds.bank import kind

KIND = kind("battery", "One battery: of a bank, of a series stack, or the one that starts an engine.")
