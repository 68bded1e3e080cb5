"""The kinds of node, a file each, named as the kind. KINDS: all by name; DEVICES: those that a path may hold."""

from __future__ import annotations

from diagrammer.folder import Folder
from diagrammer.kinds.kind import Kind

KINDS: Folder[Kind] = Folder(__name__, __path__, "KIND")
DEVICES: Folder[Kind] = Folder(__name__, __path__, "KIND", lambda kind: kind.device)
