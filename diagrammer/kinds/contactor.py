"""A contactor."""

from diagrammer.kinds.relay import kind

KIND = kind("contactor", "A switch for large currents worked by a coil.")
