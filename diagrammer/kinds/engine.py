"""An engine block."""

from diagrammer.kinds.chassis import kind

KIND = kind("engine", "An engine's block, through which its starter and alternator return.")
