"""Union of nodes, by index."""

from __future__ import annotations


class Groups:
    """`count` nodes, each a group of its own until joined; a group is named by its least node."""

    def __init__(self, count: int):
        self.parent = list(range(count))

    def copy(self) -> Groups:
        made = Groups(0)
        made.parent = list(self.parent)
        return made

    def find(self, i: int) -> int:
        parent = self.parent
        while parent[i] != i:
            parent[i] = parent[parent[i]]
            i = parent[i]
        return i

    def join(self, i: int, j: int) -> None:
        i, j = self.find(i), self.find(j)
        if i != j:
            self.parent[max(i, j)] = min(i, j)
