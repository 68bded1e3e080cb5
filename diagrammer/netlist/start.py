"""A first netlist to go on from: small, sound, with a remark at each step."""

from __future__ import annotations

from diagrammer.frozen import frozen


VOLTAGES = (12, 24, 48)
SOURCES = ("solar", "engine", "shore")
PRACTICES = ("abyc", "nec", "iso")

_SIZES = {"main": ("2/0 AWG", "70 mm²"), "heavy": ("6 AWG", "16 mm²"), "middle": ("10 AWG", "6 mm²"),
          "light": ("14 AWG", "2.5 mm²"), "sense": ("16 AWG", "1.5 mm²"), "bond": ("2 AWG", "35 mm²")}


@frozen
class Choice:
    """What the system is to be, with one source at least. Raises ValueError where one of it is unknown."""

    voltage: int = 12  # [V] of the bank
    sources: tuple[str, ...] = ("solar",)
    practice: str = "abyc"

    def __post_init__(self) -> None:
        known = self.voltage in VOLTAGES and self.practice in PRACTICES and set() < set(self.sources) <= set(SOURCES)
        if not known:
            raise ValueError(f"no such system: {self}")

    @property
    def load_voltage(self) -> int:
        """[V] lamps and pumps are made for 12 and 24 V."""
        return 12 if self.voltage == 48 else self.voltage

    def wire(self, size: str, *metres: float) -> str:
        """A wire of one of the sizes, with the length of each conductor, in the units of the practice."""
        metric = self.practice == "iso"
        lengths = [f"{one} m" if metric else f"{round(3.3 * one)} ft" for one in metres]
        lengths[0] = f"{_SIZES[size][metric]} {lengths[0]}"
        return lengths[0] if len(lengths) == 1 else f"[{', '.join(lengths)}]"


def start(choice: Choice) -> str:
    """The text of the netlist."""
    parts = [_house, *(_PARTS[source] for source in SOURCES if source in choice.sources)]
    nodes, circuits = zip(*(part(choice) for part in parts), strict=True)
    frame = [_frame(choice)] if {"engine", "shore"} & set(choice.sources) else []
    return "\n".join([_head(choice), "nodes:", *nodes, *(one[0] for one in frame), "", "circuits:", *circuits,
                      *(one[1] for one in frame), ""])


def _head(choice: Choice) -> str:
    return f"""\
# A first netlist: change it into your own system, then run `diagrammer check` and `diagrammer draw` on this file.
# The values are made up. Put in those of your parts, and the lengths as they run. Local codes and licensed \
practice decide.
title: My {choice.voltage} V system
practice: {choice.practice:5}                                 # {' | '.join(PRACTICES)}: which published \
tables, units and mains voltages apply
site: {{coldest: -10 °C, hottest: 40 °C, sun hours: 4, autonomy: 1 day}}
wire: {{insulation: 105 °C}}                       # holds for every circuit that says nothing else
"""


def _house(choice: Choice) -> tuple[str, str]:
    volts, capacity = choice.voltage, 2400 // choice.voltage
    nodes = f"""\
  # The bank, the shunt that measures it, and the two bars on which everything lands. `pair`: the bar for the returns.
  bank:           {{kind: bank, chemistry: lifepo4, voltage: {volts} V, capacity: {capacity} Ah, \
max charge: 100 A, max discharge: 150 A, short circuit: 5 kA, cold cutoff: yes, pair: return-bar}}
  meter:          {{kind: shunt, rating: 300 A}}
  feed-bar:       {{kind: bar, rating: 250 A, pair: return-bar}}
  return-bar:     {{kind: bar, rating: 250 A}}
{_panel_nodes(choice)}
  lights:         {{kind: load, voltage: {choice.load_voltage} V, power: 20 W, hours: 4, duty: light}}
  fridge:         {{kind: load, voltage: {choice.load_voltage} V, power: 50 W, hours: 8}}
  pump:           {{kind: load, voltage: {choice.load_voltage} V, power: 60 W, hours: 0.2, duty: motor}}"""
    circuits = f"""\
  # `->` is a conductor, `/` is bolted or plugged on. A list gives each conductor its length, the size carries on.
  - name:   main
    feed:   bank/fuse class-t 150 A 20 kA -> switch battery 200 A -> feed-bar
    return: bank -> meter -> return-bar           # all that leaves the bank passes the shunt
    wire:   {choice.wire('main', 1, 1)}
  - feed:   bank/fuse cartridge 1 A 250 V 20 kA -> meter.sense
    wire:   {choice.wire('sense', 1)}
{_panel_circuits(choice)}
  # A way of the panel, its breaker, the load. The return is derived: it runs beside the feed.
  - {{feed: panel@1/breaker hydraulic 5 A 5 kA -> lights, wire: {choice.wire('light', 3)}}}
  - {{feed: panel@2/breaker hydraulic 10 A 5 kA -> fridge, wire: {choice.wire('light', 3)}}}
  - {{feed: panel@3/breaker hydraulic 10 A 5 kA -> pump, wire: {choice.wire('light', 2)}}}"""
    return nodes, circuits


def _panel_nodes(choice: Choice) -> str:
    if choice.voltage == choice.load_voltage:
        return "  panel:          {kind: panel, rating: 60 A, ways: 6, pair: return-bar}"
    return """\
  step-down:      {kind: converter, voltage: 12 V, output: 30 A, input voltage: 36 .. 60 V}
  panel:          {kind: panel, rating: 60 A, ways: 6}          # no pair: a return bar of its own"""


def _panel_circuits(choice: Choice) -> str:
    if choice.voltage == choice.load_voltage:
        return f"  - {{feed: feed-bar/fuse class-t 40 A 20 kA -> panel, wire: {choice.wire('heavy', 1)}}}"
    return f"""\
  - {{feed: feed-bar/fuse class-t 15 A 20 kA -> step-down.in, wire: {choice.wire('middle', 1)}}}
  - {{feed: step-down -> panel, wire: {choice.wire('heavy', 1)}}}"""


def _solar(choice: Choice) -> tuple[str, str]:
    series, parallel = (1, 2) if choice.voltage == 12 else (choice.voltage // 12, 1)
    output, fuse = (20, 30) if choice.voltage == 12 else (10, 20)
    nodes = f"""\
  # The sun. The module's own values are for 25 °C; the coldest day raises its voltage.
  roof:           {{kind: pv, series: {series}, parallel: {parallel}, power: 100 W, voc: 22 V, vmp: 18 V, \
isc: 6 A, imp: 5.6 A, voc drift: -0.29 %/°C}}
  sun:            {{kind: solar charger, type: mppt, max pv voltage: 150 V, output: {output} A}}"""
    circuits = f"""\
  - {{feed: roof -> breaker 2-pole dc 20 A 150 V -> sun.pv, \
wire: {choice.wire('middle', 3, 1)}}}    # the return passes the second pole
  - {{feed: sun -> fuse class-t {fuse} A 20 kA/feed-bar, wire: {choice.wire('middle', 1)}}}"""
    return nodes, circuits


def _engine(choice: Choice) -> tuple[str, str]:
    nodes = f"""\
  # The engine's own battery, and a charger from it that runs with the ignition.
  starter-battery: {{kind: battery, duty: starter, chemistry: flooded, voltage: 12 V, capacity: 70 Ah, \
short circuit: 2 kA, pair: frame}}
  alternator:     {{kind: alternator, voltage: 14.4 V, output: 90 A, continuous: 60 A}}
  dc-charger:     {{kind: dc charger, voltage: {choice.voltage} V, output: {240 // choice.voltage} A, \
input voltage: 11 .. 16 V, input current: 30 A}}"""
    circuits = f"""\
  - {{feed: alternator -> fuse class-t 110 A 20 kA/starter-battery, return: alternator/frame, \
wire: {choice.wire('main', 1)}}}
  - {{return: starter-battery -> frame, wire: {choice.wire('main', 1)}}}
  - {{feed: starter-battery/fuse class-t 40 A 20 kA -> dc-charger.in, wire: {choice.wire('heavy', 4)}}}
  - {{feed: starter-battery/fuse cartridge 1 A 250 V 20 kA -> switch ignition 5 A -> dc-charger.enable, \
wire: {choice.wire('sense', 1, 3)}}}
  - {{feed: dc-charger -> fuse class-t 30 A 20 kA/feed-bar, wire: {choice.wire('middle', 1)}}}"""
    return nodes, circuits


def _shore(choice: Choice) -> tuple[str, str]:
    nodes = f"""\
  # Shore power: a charger and an outlet. An ac cable has its line, neutral and earth by itself.
  pedestal:       {{kind: shore, rating: {16 if choice.practice == 'iso' else 30} A}}
  ac-panel:       {{kind: ac panel, rating: 30 A, ways: 4}}
  charger:        {{kind: ac charger, voltage: {choice.voltage} V, output: {240 // choice.voltage} A}}
  outlet:         {{kind: outlet, rating: 15 A}}"""
    inlet, rating = ("16 A", "10 A") if choice.practice == "iso" else ("30 A", "15 A")
    circuits = f"""\
  - {{ac: pedestal/plug inlet -> breaker 2-pole {inlet} 10 kA -> rcd 40 A 30 mA/ac-panel, \
wire: {choice.wire('middle', 0.3, 2)}}}
  - {{ac: ac-panel@1/breaker 2-pole {rating} 10 kA -> charger, wire: {choice.wire('light', 2)}}}
  - {{ac: ac-panel@2/breaker 2-pole {rating} 10 kA -> rcd 16 A 10 mA/outlet, wire: {choice.wire('light', 3)}}}
  - {{feed: charger -> fuse class-t 30 A 20 kA/feed-bar, wire: {choice.wire('middle', 1)}}}
  - {{bond: ac-panel -> charger -> frame, wire: {choice.wire('heavy', 2, 2)}}}"""
    return nodes, circuits


def _frame(choice: Choice) -> tuple[str, str]:
    return ("  frame:          {kind: chassis, strap: 0.5 m}   # the vehicle's metal; on a boat {kind: engine}",
            f"  - {{bond: return-bar -> frame, wire: {choice.wire('main', 1)}}}")


_PARTS = {"solar": _solar, "engine": _engine, "shore": _shore}
