"""Drops against the practice's limits, computed by its formula by hand."""

from __future__ import annotations

import re

import pytest

from diagrammer.circuit.survey import Survey
from diagrammer.netlist.read import read
from tests.rules.asked import found, van

RULE = "voltage-drop"
SAE_14, FOOT = 3702, 0.3048  # [circular mil] SAE J1127, [m]


def bank_of(volts: str = "12 V") -> str:
    return (f"{{kind: bank, chemistry: agm, voltage: {volts}, capacity: 2000 Ah, short circuit: 20 kA, "
            "pair: return-bar}")


def text(length: float, critical: str = "no", practice: str = "abyc", wire: str = "14 AWG", amps: float = 5.0,
    volts: str = "12 V") -> str:
    return van(f"{{feed: feed-bar/fuse class-t 10 A -> lamp, wire: {wire} {length:.4f} m}}", practice=practice,
        bank=bank_of(volts), volts=volts,
               nodes=f"  lamp: {{kind: load, voltage: {volts}, current: {amps} A, critical: {critical}}}")


def lost(text_: str, node: str = "lamp"):
    system, _ = read(text_, "case.yaml")
    return Survey(system).drops.all[node]


def test_the_formula_of_abyc_by_hand():
    """E = 10.75 I L / CM on the branch, 14 AWG as SAE 3702 circular mil, and on the main line, 2/0 as SAE 125100."""
    one = lost(text(6))
    branch = 10.75 * 5 * (12 / FOOT) / SAE_14
    main = 10.75 * 5 * (2.0 / FOOT) / 125100  # 0.5 m + 0.5 m there, the same back
    assert one.volts == pytest.approx(branch + main, rel=1e-6)
    assert one.length == pytest.approx(14.0) and one.share == 0.1 and one.base == 12


def test_the_formula_of_iso_by_hand():
    """E = 0.0164 I L / S."""
    one = lost(text(6, practice="iso", wire="2.5 mm²"))
    assert one.volts == pytest.approx(0.0164 * 5 * 12 / 2.5 + 0.0164 * 5 * 2 / 70, rel=1e-6)


@pytest.mark.parametrize(("practice", "wire", "critical", "share"), [
    ("abyc", "14 AWG", "no", 0.10), ("abyc", "14 AWG", "yes", 0.03), ("nec", "12 AWG", "no", 0.05),
    ("nec", "12 AWG", "yes", 0.03),
    ("iso", "2.5 mm²", "no", 0.10), ("iso", "2.5 mm²", "yes", 0.03),
])
def test_just_below_and_just_above(practice, wire, critical, share):
    probe = lost(text(1, critical, practice, wire))
    per_metre = lost(text(2, critical, practice, wire)).volts - probe.volts
    limit = 1 + (share * 12 - probe.volts) / per_metre
    assert found(RULE, text(limit - 0.01, critical, practice, wire)) == ()
    (one,) = found(RULE, text(limit + 0.01, critical, practice, wire))
    assert one.nodes == ("lamp",) and one.conductors == ("feed-bar to lamp:f0",)
    assert f"{100 * share:g} % is the most" in one.message


def test_twice_the_voltage_and_the_same_power_lose_a_quarter_of_the_share():
    low, high = lost(text(6)), lost(text(6, volts="24 V", amps=2.5))
    assert low.volts / low.base == pytest.approx(4 * high.volts / high.base, rel=1e-6)


def test_the_advice_holds():
    (one,) = found(RULE, text(12, "yes"))
    size = re.search(r"Take (\d+ AWG)", one.fix)[1]
    assert found(RULE, text(12, "yes", wire=size)) == ()
    sizes = [16, 14, 12, 10, 8, 6, 4]
    thinner = sizes[sizes.index(int(size.split()[0])) - 1]
    assert found(RULE, text(12, "yes", wire=f"{thinner} AWG"))


def test_starting_currents_are_not_counted():
    assert found(RULE, text(6).replace("critical: no", "critical: no, start: 100 A")) == ()


def panel(feeder: float, branches: int = 3) -> str:
    lines = [f"{{feed: feed-bar/fuse class-t 20 A -> box, wire: 12 AWG {feeder} m}}"]
    lines += [f"{{feed: box/fuse class-t 5 A -> lamp-{n}, wire: 14 AWG 1 m}}" for n in range(branches)]
    nodes = "  box: {kind: panel, rating: 40 A, pair: return-bar}\n" + "\n".join(
        f"  lamp-{n}: {{kind: load, voltage: 12 V, current: 3 A, critical: yes}}" for n in range(branches))
    return van(*lines, nodes=nodes, bank=bank_of())


def test_a_feeder_that_loses_too_much_is_one_finding():
    assert found(RULE, panel(1.5)) == ()
    (one,) = found(RULE, panel(6))  # 2.76 % to the panel, 3.24 % to its lamps, most of it in the feeder
    assert one.nodes == ("lamp-0", "lamp-1", "lamp-2") and one.conductors == ("feed-bar to box:f0",)
    (one,) = found(RULE, panel(8))
    assert one.nodes[0] == "box" and one.conductors == ("feed-bar to box:f0",)


def test_a_converter_makes_a_new_beginning():
    nodes = ("  step: {kind: converter, voltage: 12 V, output: 20 A, input voltage: 24 V}\n"
             "  box: {kind: panel, rating: 40 A}\n"
             "  lamp: {kind: load, voltage: 12 V, current: 5 A, critical: yes}")
    text_ = van("{feed: feed-bar/fuse class-t 10 A -> step.in, wire: 14 AWG 5 m}",
        "{feed: step -> box, wire: 10 AWG 1 m}",
                "{feed: box/fuse class-t 10 A -> lamp, wire: 12 AWG 2 m}",
                nodes=nodes, bank=bank_of("24 V"), volts="24 V")
    one = lost(text_)
    assert set(one.lines) == {"step to box", "box to lamp"} and found(RULE, text_) == ()
    assert one.volts == pytest.approx(10.75 * 5 / FOOT * (2 / 9343 + 4 / 5833), rel=1e-6)


def test_ac_on_shore_and_inverting():
    nodes = ("  quay: {kind: shore, rating: 30 A}\n  combi: {kind: inverter charger, power: 3 kW, charge: 40 A}\n"
             "  kettle: {kind: ac load, power: 1.2 kW}")
    text_ = van("{ac: quay -> breaker 2-pole 30 A -> combi.in, wire: [10 AWG 0.1 m, 30 m]}",
        "{ac: combi -> breaker 20 A -> kettle, wire: [12 AWG 1 m, 5 m]}",
                "{feed: feed-bar/fuse class-t 200 A -> combi, wire: 3/0 AWG 1 m}",
                nodes=nodes, bank=bank_of(), practice="nec")
    one = lost(text_, "kettle")
    assert "quay to combi" in one.lines and one.base == 120
    assert one.lines["combi to kettle"] == pytest.approx(12.9 * 10.0 * (12 / FOOT) / 6530,
        rel=0.1)  # the pedestal and the long cable let it sag


def test_a_diagonal_take_off_and_a_stack():
    nodes = ("nodes:\n  one: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 900 Ah}\n"
             "  two: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 900 Ah}\n"
             "  lamp: {kind: load, voltage: 24 V, current: 5 A}\n")
    stack = nodes + ("circuits:\n  - {series: one -> two, wire: 2/0 AWG 0.2 m}\n"
                     "  - {feed: two/fuse class-t 10 A -> lamp, return: one -> lamp, "
                     "wire: {feed: 14 AWG 4 m, return: 14 AWG 4 m}}\n")
    assert lost(stack).volts == pytest.approx(10.75 * 5 * (8 / FOOT) / SAE_14, rel=1e-6)


def test_without_lengths_nothing_is_said():
    assert found(RULE, text(6).replace("14 AWG 6.0000 m", "14 AWG")) == ()


@pytest.mark.parametrize(("length", "count"), [("1 m", 0), ("60 m", 1)])
def test_a_load_for_moments_whose_line_cannot_carry_it_at_all(length, count):
    """600 W over 60 m of 2 AWG find no voltage at which they flow; with them nothing else is at fault."""
    text = van(f"{{feed: feed-bar/fuse 80 A -> switch foot 150 A -> winch, wire: [2 AWG {length}, 1 m]}}",
               "{feed: feed-bar/fuse 5 A -> lamp, wire: 14 AWG 1 m}",
               nodes="  winch: {kind: load, voltage: 12 V, power: 600 W, hours: 0.05, duty: motor}\n"
                     "  lamp: {kind: load, voltage: 12 V, power: 10 W, hours: 4}")
    assert [one.nodes[0] for one in found(RULE, text)] == ["winch"] * count


@pytest.mark.parametrize(("count", "more"), [
    (1, ""), (2, ", and 1 more lose too much there"), (3, ", and 2 more lose too much there")])
def test_how_many_lose_too_much_by_one_line(count, more):
    nodes = "  tee: {kind: bar, rating: 30 A, pair: return-bar}\n" + "\n".join(
        f"  lamp-{n}: {{kind: load, voltage: 12 V, power: {40 + n} W}}" for n in range(count))
    lines = [f"{{feed: tee -> lamp-{n}, return: lamp-{n} -> return-bar, wire: 10 AWG 0.1 m}}" for n in range(count)]
    text = van("{feed: feed-bar/fuse 15 A -> tee, return: none, wire: 16 AWG 40 m}", *lines, nodes=nodes)
    (one,) = found("voltage-drop", text)
    assert one.message.endswith(f"is the most by abyc{more}")
    assert one.conductors == ("feed-bar to tee:f0",) and len(one.nodes) == count


@pytest.mark.parametrize(("practice", "light", "other"), [
    ("abyc", 0.03, 0.10), ("nec", 0.03, 0.05), ("iso", 0.06, 0.08)])  # iso: IEC 60364-5-52 Table G.52.1, a private supply
def test_what_ac_may_lose(practice, light, other):
    nodes = ("  set: {kind: generator, power: 3 kW, neutral: bonded}\n"
             "  lamp: {kind: ac load, power: 100 W, duty: light}\n  heater: {kind: ac load, power: 100 W, duty: heat}\n"
             "  box: {kind: ac panel, rating: 20 A}")
    text_ = van("{ac: set/breaker 15 A -> box, wire: 12 AWG 1 m}", "{ac: box/breaker 10 A -> lamp, wire: 12 AWG 1 m}",
                "{ac: box/breaker 10 A -> heater, wire: 12 AWG 1 m}", nodes=nodes, practice=practice)
    assert (lost(text_).share, lost(text_, "heater").share) == (light, other)


@pytest.mark.parametrize(("share", "count"), [(0.95e-9, 0), (1.05e-9, 1)])
def test_a_billionth_is_rounding(share, count):
    def line(metres: float) -> str:
        return text(1).replace("14 AWG 1.0000 m", f"14 AWG {metres!r} m")
    near, far = lost(line(10.0)), lost(line(20.0))
    a_metre = (far.volts - near.volts) / 10
    assert len(found(RULE, line(10 + (share * 12 - near.over) / a_metre))) == count


def behind_a_panel(feeder: float, critical: str, metres: float):
    """20 A to a panel over `feeder` [m] of 14 AWG, 0.55 % of 12 V each; half an ampere goes on to a lamp over `metres`
    [m] of 16 AWG, 0.11 % each."""
    return found(RULE, van(
        f"{{feed: feed-bar/fuse class-t 30 A -> box, wire: 14 AWG {feeder} m}}",
        f"{{feed: box/fuse class-t 5 A -> lamp, wire: 16 AWG {metres} m}}",
        "{feed: box/fuse class-t 20 A -> heater, wire: 2 AWG 0.1 m}", bank=bank_of(),
        nodes=f"  lamp: {{kind: load, voltage: 12 V, current: 0.5 A, critical: {critical}}}\n"
              "  box: {kind: panel, rating: 40 A, pair: return-bar}\n"
              "  heater: {kind: load, voltage: 12 V, current: 19.5 A}"))


@pytest.mark.parametrize(("feeder", "critical", "metres", "nodes"), [
    (5.5, "no", 1, [("box",)]), (5.5, "no", 15, [("box",)]),  # above 10 % only since the panel is above 3 %
    (1.85, "yes", 15, [("box", "lamp")]),  # more than the panel, and by its own line too
    (1, "yes", 15, [("lamp",)]), (1, "yes", 8, []),
])
def test_what_follows_from_the_feeder_is_told_there(feeder, critical, metres, nodes):
    assert [one.nodes for one in behind_a_panel(feeder, critical, metres)] == nodes


def test_a_panel_is_judged_before_a_lamp_on_the_way_to_it():
    text_ = van("{feed: feed-bar/fuse class-t 30 A -> lamp -> box, wire: [14 AWG 2 m, 1 m]}",
                "{feed: box/fuse class-t 20 A -> heater, wire: 2 AWG 0.1 m}", bank=bank_of(),
                nodes="  lamp: {kind: load, voltage: 12 V, current: 0.5 A, critical: yes}\n"
                      "  box: {kind: panel, rating: 40 A, pair: return-bar}\n  heater: {kind: load, voltage: 12 V, current: 19.5 A}")
    assert lost(text_).over > 0 and [one.nodes for one in found(RULE, text_)] == [("box",)]


@pytest.mark.parametrize(("hops", "worst"), [("[14 AWG 1 m, 9 m]", 1), ("[14 AWG 9 m, 1 m]", 0)])
def test_the_conductor_that_loses_most_is_marked_and_the_way_told(hops, worst):
    nodes = "  lamp: {kind: load, voltage: 12 V, current: 10 A, critical: yes}"
    text_ = van(f"{{feed: feed-bar/fuse class-t 10 A -> switch 20 A -> lamp, wire: {{feed: {hops}, return: 8 AWG 2 m}}}}",
                nodes=nodes, bank=bank_of())
    (one,) = found(RULE, text_)
    assert one.conductors == (f"feed-bar to lamp:f{worst}",)
    assert one.path == ("F1", "Q1", "feed-bar", "F2", "Q2", "lamp", "bank", "meter", "return-bar")


def test_the_line_that_loses_most_counts_before_the_conductor_that_does():
    """10 m in two conductors, then 7 m in one."""
    nodes = ("  tee: {kind: bar, rating: 30 A, pair: return-bar}\n"
             "  lamp: {kind: load, voltage: 12 V, current: 10 A, critical: yes}")
    text_ = van("{name: near, feed: feed-bar/fuse class-t 10 A -> switch 20 A -> tee, return: none, wire: [14 AWG 5 m, 5 m]}",
                "{name: beyond, feed: tee -> lamp, wire: {feed: 14 AWG 7 m, return: 2 AWG 1 m}}", nodes=nodes, bank=bank_of())
    assert [one.conductors for one in found(RULE, text_)] == [("near:f0",)]


def test_of_unlike_voltages_the_larger_share_is_told():
    """The same 4 V, above 10 % of 12 V and of 12.8 V."""
    nodes = ("  step: {kind: converter, voltage: 5 V, output: 1 A, input voltage: 9 V .. 16 V}\n"
             "  tee: {kind: bar, rating: 30 A, pair: return-bar}\n  lamp: {kind: load, voltage: 12 V, current: 5 A}")
    text_ = van("{feed: feed-bar/fuse 10 A -> tee, return: none, wire: 16 AWG 60 m}",
                "{feed: tee -> lamp, wire: 16 AWG 0.1 m}", "{feed: tee -> step.in, wire: 16 AWG 0.1 m}",
                nodes=nodes, volts="12.8 V")
    (one,) = found(RULE, text_)
    assert one.nodes == ("lamp", "step")


@pytest.mark.parametrize(("practice", "wire", "length", "larger"), [
    ("nec", "18 AWG", 3, "14 AWG"),  # NEC 310.3: none below 14 AWG (from memory); 16 AWG would lose little enough
    ("abyc", "2 parallel 14 AWG", 26, "2 parallel 12 AWG"),  # all of them: one 12 AWG loses more than two 14 AWG
])
def test_the_size_told_may_be_laid_and_loses_little_enough(practice, wire, length, larger):
    (one,) = found(RULE, text(length, practice=practice, wire=wire))
    assert one.fix == f"Take {larger} or thicker for the line `feed-bar to lamp`, or shorten it."
    assert found(RULE, text(length, practice=practice, wire=larger)) == ()


@pytest.mark.parametrize(("first", "second", "worst"), [(2, 2.000002, 0), (2, 2.00001, 1), (2.00001, 2, 0)])
def test_of_two_conductors_that_lose_the_same_the_first_is_marked(first, second, worst):
    """A metre of 16 AWG loses 0.14 V at 10 A (SAE J1127, 2336 circular mil): two micrometres are no difference."""
    nodes = "  lamp: {kind: load, voltage: 12 V, current: 10 A, critical: yes}"
    text_ = van(f"{{feed: feed-bar/fuse class-t 10 A -> switch 20 A -> lamp, "
                f"wire: {{feed: [16 AWG {first} m, {second} m], return: 8 AWG 2 m}}}}", nodes=nodes, bank=bank_of())
    assert [one.conductors for one in found(RULE, text_)] == [(f"feed-bar to lamp:f{worst}",)]


def test_of_two_panels_on_one_line_the_larger_excess_explains_what_else_hangs_there():
    """The second panel is hardly worse than the first; were that within 3 %, the lamp at it would be within 10 %."""
    text_ = van("{feed: feed-bar/fuse class-t 30 A -> box, wire: 14 AWG 5.5 m}",
                "{feed: box/fuse class-t 5 A -> lamp, wire: 16 AWG 12 m}",
                "{feed: box/fuse class-t 5 A -> second, wire: 10 AWG 0.2 m}",
                "{feed: second/fuse class-t 5 A -> clock, wire: 10 AWG 0.1 m}",
                "{feed: box/fuse class-t 20 A -> heater, wire: 2 AWG 0.1 m}", bank=bank_of(),
                nodes="  lamp: {kind: load, voltage: 12 V, current: 2 A}\n"
                      "  clock: {kind: load, voltage: 12 V, current: 0.5 A}\n"
                      "  heater: {kind: load, voltage: 12 V, current: 18 A}\n"
                      "  box: {kind: panel, rating: 40 A, pair: return-bar}\n"
                      "  second: {kind: panel, rating: 10 A, pair: return-bar}")
    assert lost(text_).over > 0 and [one.nodes for one in found(RULE, text_)] == [("box", "second")]


@pytest.mark.parametrize(("metres", "said"), [(24, "`inv` loses "), (60, "`inv` would lose at least ")])
def test_a_line_that_carries_nothing_is_told_with_what_it_would_lose(metres, said):
    text = van(f"{{feed: feed-bar/fuse class-t 150 A -> inv, wire: 1/0 AWG {metres} m}}",
               "{ac: inv/breaker 10 A -> kettle, wire: 14 AWG 1 m}",
               nodes="  inv: {kind: inverter, power: 1.5 kW, neutral: bonded}\n  kettle: {kind: ac load, power: 1.2 kW}")
    (one,) = found(RULE, text)
    assert one.message.startswith(said) and one.nodes == ("inv",)
