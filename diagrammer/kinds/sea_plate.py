"""A plate in the water."""

from diagrammer.kinds.earth import kind

KIND = kind("sea plate", "A metal plate under water that earths a boat.")
