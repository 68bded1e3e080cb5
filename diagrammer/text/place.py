"""Where something stands in a file."""

from __future__ import annotations

from diagrammer.frozen import frozen


@frozen(slots=True)
class Place:
    """A stretch of text. Lines and columns count from 1, in characters; the end is exclusive."""

    file: str
    line: int
    column: int
    end_line: int
    end_column: int

    def __lt__(self, other: Place) -> bool:
        """By file, and as they stand in it; of two that begin together the shorter."""
        return self._key < other._key

    @property
    def _key(self) -> tuple[str, int, int, int, int]:
        return self.file, self.line, self.column, self.end_line, self.end_column

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"

    def to(self, other: Place) -> Place:
        """The stretch from the start of this place to the end of `other`."""
        return Place(self.file, self.line, self.column, other.end_line, other.end_column)
