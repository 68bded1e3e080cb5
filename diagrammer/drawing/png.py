"""A PNG with its title and its size on paper (PNG specification, third edition, W3C 2025: 11.3.3.4 iTXt, 11.3.4.3 pHYs)."""

from __future__ import annotations

import struct
import zlib

SIGNATURE = b"\x89PNG\r\n\x1a\n"
HEADER = len(SIGNATURE) + 25  # [bytes] signature and the chunk IHDR, which stands first
KEYWORD = b"Title"
INCH = 0.0254  # [m]


def labelled(picture: bytes, title: str, dpi: int) -> bytes:
    """The picture with a title, and with its pixels a metre."""
    text = KEYWORD + b"\0\0\0\0\0" + title.encode("utf-8", "replace")
    size = struct.pack(">IIB", round(dpi / INCH), round(dpi / INCH), 1)
    return picture[:HEADER] + _chunk(b"pHYs", size) + _chunk(b"iTXt", text) + picture[HEADER:]


def title(picture: bytes) -> str:
    """The title that `labelled` wrote, "" where there is none before the picture's data."""
    at, found = HEADER, b""
    while picture.startswith(SIGNATURE) and at + 8 <= len(picture) and not found:
        length, sort = struct.unpack(">I4s", picture[at:at + 8])
        if sort == b"IDAT":
            break
        data = picture[at + 8:at + 8 + length]
        if sort == b"iTXt" and data.startswith(KEYWORD + b"\0\0\0\0\0"):
            found = data[len(KEYWORD) + 5:]
        at += length + 12
    return found.decode("utf-8", "replace")


def _chunk(sort: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + sort + data + struct.pack(">I", zlib.crc32(sort + data))
