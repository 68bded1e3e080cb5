"""An earth rod."""

from diagrammer.kinds.earth import kind

KIND = kind("rod", "An earth electrode driven into the ground.")
