"""The page that `diagrammer explain --practices` prints: what differs between the practices, made from the tables
and from netlists that are judged under each."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from textwrap import fill

from diagrammer.electrics.ampacity import INSULATION, SOURCE, OutsideTable, ampacity, size_of
from diagrammer.electrics.fault import ac_usual
from diagrammer.electrics.protection import largest_device, rule_of, single
from diagrammer.kinds.field import Values
from diagrammer.netlist.sections import PRACTICES
from diagrammer.quantity import Size
from diagrammer.rules import rules
from diagrammer.rules.explain import CODES, WIDTH
from diagrammer.rules.protection.interrupt_rating_too_low import TABLED
from diagrammer.rules.protection.protection_too_small import CONTINUOUS
from diagrammer.rules.verdicts import Verdict, differing
from diagrammer.tables.load import Row, head, load, provenance

HIGH = 50.0  # [V] from here on 33 CFR 183.455(c) has another rule for devices
TABLE_TOO = ", or ABYC's table"
VERIFY = "*"  # marks a number from memory
TABLES = ("ac_faults", "ampacity_cfr", "ampacity_nec", "ampacity_iso", "ampacity_iec", "device_rules", "distances",
          "drop_constants", "drop_limits", "inlet_breakers", "interrupting_abyc_ac", "minimum_sizes",
          "small_conductors_nec", "terminals_nec", "terminals_per_stud")


def page(verdicts: Iterable[Verdict] = ()) -> str:
    """The page in Markdown; `verdicts` of netlists of the reader's own come before those of the rules' examples."""
    examples = [one for rule in rules().values() for one in differing(f"example of {rule.name}", rule.bad)]
    parts = (
        "# What differs between the practices",
        fill(f"One netlist, one word changed: `practice:`. {VERIFY} marks numbers from memory; verify them in the "
             f"standard. {CODES}", WIDTH),
        "## Limits", table(("", *PRACTICES), limits()),
        "## Conductors",
        fill(f"Ampacity / largest single device below {HIGH:g} V [A]: one copper conductor with the insulation that counts "
             "where nothing is said, 30 °C around it, nothing beside it. A dash: the table has no such conductor.", WIDTH),
        table(("size", *PRACTICES), conductors()),
        "## Verdicts",
        fill("How often a rule speaks of the same netlist under each practice, where that differs. A fault may also be "
             "silent because another explains it.", WIDTH),
        table(("netlist", "rule", *PRACTICES),
              [(one.netlist, one.rule, *map(str, one.counts)) for one in (*verdicts, *examples)]),
        "## Sources", "\n".join(f"- {name}: {head(name)['source']}. {head(name)['clause']}" for name in TABLES),
    )
    return "\n\n".join(parts)


def table(titles: tuple[str, ...], rows: list[tuple[str, ...]]) -> str:
    """A Markdown table whose columns stand under each other."""
    widths = [max(len(cell) for cell in column) for column in zip(titles, *rows)]
    lines = [titles, tuple("-" * width for width in widths), *rows]
    return "\n".join("| " + " | ".join(f"{cell:{width}}" for cell, width in zip(line, widths)) + " |"
                     for line in lines)


def sizes() -> tuple[Size, ...]:
    """Those that the tables for boats and vehicles list, AWG first."""
    return tuple(size_of(row) for name in ("ampacity_cfr", "ampacity_iso") for row in load(name))


def conductors() -> list[tuple[str, ...]]:
    """Each size, and what it carries under each practice."""
    return [(one.label, *(_carries(one, practice) for practice in PRACTICES)) for one in sizes()]


def _carries(size: Size, practice: str) -> str:
    try:
        found = ampacity(size, practice)
    except OutsideTable:
        return "-"
    mark = VERIFY if found.provenance == "memory" else ""
    return f"{found.amps:g}{mark} / {largest_device(found.amps, practice, volts=0, size=size):g}"


def _of(name: str, practice: str, column: str, unit: str = "", times: float = 1, **keys: str) -> str:
    """One number of a table, marked where it is from memory."""
    rows = [row for row in load(name) if row["practice"] == practice]
    row = next(row for row in rows if all(row[key] in ("any", value) for key, value in keys.items()))
    value = f"{float(row[column]) * times:g}" if times != 1 else row[column]
    return f"{value}{unit}{_mark(name, row, column)}"


def _mark(name: str, row: Row, column: str) -> str:
    return VERIFY if provenance(name, row, column) == "memory" else ""


def _column(name: str, column: str, unit: str = "", times: float = 1, **keys: str) -> Callable[[str], str]:
    return lambda practice: _of(name, practice, column, unit, times, **keys)


def _one_device(volts: float) -> Callable[[str], str]:
    """What one device may be beside the conductor's ampacity."""
    def cell(practice: str) -> str:
        rule = rule_of(practice, volts)
        mark = _mark("device_rules", rule, "of one")
        if rule["next"] == "no":
            return f"{float(rule['of one']) * 100:g} % of the ampacity{mark}"
        most = f"at most {float(rule['of one']) * 100:g} %" if rule["of one"] else f"up to {rule['upto']} A"
        return f"next larger rating, {most}{mark}"
    return cell


def _continuous(practice: str) -> str:
    """What a device must be rated beside the current of a continuous load."""
    return f"{single('continuous') * 100:g} %" if practice == CONTINUOUS else "100 %"


def _terminals(practice: str) -> str:
    """What terminals bear, which holds the ampacity down under one practice only."""
    if practice != "nec":
        return "-"
    low, high = load("terminals_nec")
    return (f"{low['temperature']} °C{_mark('terminals_nec', low, 'temperature')} to {low['amps']} A, "
            f"{high['temperature']} °C{_mark('terminals_nec', high, 'temperature')} above")


def _shore(practice: str) -> str:
    """What is asked of devices on a supply that states nothing."""
    usual = ac_usual("shore", practice, "A")
    return f"what is stated, else {usual / 1000:g} kA{VERIFY}" if usual else f"what is stated{TABLE_TOO}"


def _aluminium(practice: str) -> str:
    """The thinnest conductor of aluminium; a dash where there may be none."""
    row = next(row for row in load("minimum_sizes") if row["practice"] == practice)
    return f"{row['aluminium']}{_mark('minimum_sizes', row, 'aluminium')}" if row["aluminium"] else "-"


def _lost(body: str) -> str:
    row = next(row for row in load("drop_constants") if row["practice"] == body)
    return f"{row['own']} {row['unit']}{_mark('drop_constants', row, 'own')}"


def limits() -> list[tuple[str, ...]]:
    """The name of each limit, and what it is under each practice."""
    return [(name, *map(cell, PRACTICES)) for name, cell in _limits()]


def _limits() -> tuple[tuple[str, Callable[[str], str]], ...]:
    return (
        ("mains, line to neutral", lambda practice: f"{Values({}, practice).grid:g} V"),
        ("insulation where nothing is said", lambda practice: f"{INSULATION[practice]:g} °C"),
        ("ampacity", lambda practice: SOURCE[practice]),
        ("ampacity, mains", lambda practice: SOURCE["iec" if practice == "iso" else practice]),
        ("terminals that are not marked", _terminals),
        ("smallest conductor, alone", _column("minimum_sizes", "single", current="dc")),
        ("smallest conductor, in a sheath", _column("minimum_sizes", "sheathed", current="dc")),
        ("smallest conductor, mains", _column("minimum_sizes", "sheathed", current="ac")),
        ("smallest conductor, aluminium", _aluminium),
        ("device from the source, bare [m]", _column("distances", "bare")),
        ("device from the source, sheathed [m]", _column("distances", "sheathed")),
        ("device from a battery, sheathed [m]", _column("distances", "battery")),
        ("main breaker from a shore inlet [m]", _column("inlet_breakers", "most")),
        (f"one device, below {HIGH:g} V", _one_device(0)),
        (f"one device, from {HIGH:g} V", _one_device(HIGH)),
        ("several devices together", _column("device_rules", "of several", " x the ampacity")),
        ("device of a continuous load, of its current", _continuous),
        ("breakers on dc break", lambda practice: f"what can flow{TABLE_TOO if practice == TABLED else ''}"),
        ("devices on shore power break", _shore),
        ("drop, critical", _column("drop_limits", "share", " %", 100, current="dc", use="critical")),
        ("drop, other", _column("drop_limits", "share", " %", 100, current="dc", use="other")),
        ("drop, mains, critical", _column("drop_limits", "share", " %", 100, current="ac", use="critical")),
        ("drop, mains, other", _column("drop_limits", "share", " %", 100, current="ac", use="other")),
        ("copper, for the drop", _lost),
        ("copper, for the drop, mains", lambda practice: _lost("iec" if practice == "iso" else practice)),
        ("terminals on a stud", _column("terminals_per_stud", "most")),
    )
