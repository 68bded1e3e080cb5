"""Every problem of a file, collected while reading goes on."""

from __future__ import annotations

from diagrammer.text.finding import Problem
from diagrammer.text.place import Place
from diagrammer.text.suggest import did_you_mean, listed, shortened

MOST = 200  # a file with more has one cause
FEW = 24  # names that are all told
GUESSES = 40  # words for which the nearest name is looked for: it takes time where there are many names


class Complaints:
    def __init__(self) -> None:
        self.problems: list[Problem] = []
        self.guesses = 0

    def __call__(self, at: Place, message: str, help: str = "") -> None:
        if not self.full:
            self.problems.append(Problem(at, message, help))

    def unknown(self, at: Place, what: str, word: str, names, otherwise: str = "") -> None:
        """`word` is no `what`: the nearest of `names`, or all of them where they are few, or `otherwise`."""
        if self.full:
            return
        names = list(names)
        self.guesses += 1
        advice = did_you_mean(word, names) if self.guesses <= GUESSES else ""
        if not advice and 0 < len(names) <= FEW:
            advice = f"There {'is' if len(names) == 1 else 'are'} {listed(names)}."
        shown = f"`{shortened(word)}`"
        self(at, f"{shown} is no {what}" if " " in what else f"there is no {what} {shown}", advice or otherwise)

    @property
    def full(self) -> bool:
        """Whether nothing more is taken: looking for advice would be for nothing."""
        return len(self.problems) >= MOST

    @property
    def sorted(self) -> tuple[Problem, ...]:
        return tuple(sorted(set(self.problems), key=lambda problem: (problem.at, problem.message)))
