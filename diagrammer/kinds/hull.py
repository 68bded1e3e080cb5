"""A metal hull."""

from diagrammer.kinds.chassis import kind

KIND = kind("hull", "A boat's metal hull; it is bonded at one point and corrodes where it carries current.")
