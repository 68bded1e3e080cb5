"""Comparing quantities that were computed: what rounding makes is no difference."""

ROUNDING = 1e-9  # relative: the same quantity


def above(value: float, most: float, rounding: float = ROUNDING) -> bool:
    """Whether it is more, and not only by what rounding makes (relative)."""
    return value > most * (1 + rounding)
