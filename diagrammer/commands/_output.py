"""Writing a file so that an earlier one stays whole until the new one is."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

from diagrammer.pipeline import Unusable


def check_target(target: Path, source: Path) -> Path:
    """The target, if it may be written. Raises Unusable."""
    if target.is_dir():
        raise Unusable(f"{target}: is a folder; name a file")
    if target.exists() and source.exists() and target.samefile(source):
        raise Unusable(f"{target}: is the netlist itself; choose another output")
    if not target.resolve().parent.is_dir():
        raise Unusable(f"{target}: there is no folder {target.parent}")
    return target


def replace(target: Path, content: str | bytes) -> Path:
    """Write beside the target, then put it in its place in one step. Raises Unusable."""
    real = target.resolve()
    temporary = ""
    try:
        mode = real.stat().st_mode & 0o777 if real.exists() else 0o666 & ~_umask()
        descriptor, temporary = tempfile.mkstemp(prefix=f".{real.name}.", dir=real.parent)
        with os.fdopen(descriptor, "wb") as file:
            file.write(content.encode("utf-8") if isinstance(content, str) else content)
        os.chmod(temporary, mode)
        os.replace(temporary, real)
    except OSError as error:
        if temporary and os.path.exists(temporary):
            os.unlink(temporary)
        raise Unusable(f"{target}: can't be written: {error.strerror or error}") from error
    return target


def _umask() -> int:
    current = os.umask(0)
    os.umask(current)
    return current
