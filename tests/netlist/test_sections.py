"""Sections of the file: nodes and their fields, parts, site, sheet, interlocks, states, circuits."""

from __future__ import annotations

import pytest

from diagrammer.netlist.read import read
from tests.netlist.reading import problems, said, system

CIRCUIT = "feed: lone-bar -> lamp, return: none"


@pytest.mark.parametrize(("fields", "name", "value"), [
    ("kind: bank, chemistry: agm, voltage: 24 V, capacity: 2.4 kWh", "capacity", 100.0),
    ("kind: bank, chemistry: agm, voltage: 24 V, capacity: 280 Ah", "capacity", 280.0),
    ("kind: bank, capacity: 2.4 kWh, chemistry: agm, voltage: 24 V", "capacity", 100.0),
    ("kind: pv, power: 100 W, voc: 20 V, isc: 6 A, voc drift: -0.28 %/°C", "voc drift", -0.28),
    ("kind: pv, power: 100 W, voc: 20 V, isc: 6 A, voc drift: -50 mV/°C", "voc drift", -0.25),
    ("kind: pv, power: 100 W, voc: 20 V, isc: 6 A, vmp: 16 V, vmp drift: -0.08 V/K", "vmp drift", -0.5),
    ("kind: load, voltage: 12 V, power: 60 W, start: 20 A", "start", 240.0),
    ("kind: ac load, power: 500 W, start: 20 A", "start", 2400.0),
    ("kind: load, voltage: 9 .. 33 V, power: 60 W", "voltage", (9.0, 33.0)),
    ("kind: load, voltage: 9 V..33 V, power: 60 W", "voltage", (9.0, 33.0)),
    ("kind: load, voltage: 12 V, current: 500 mA", "current", 0.5),
    ("kind: load, voltage: 12 V, power: 60 W, hours: 9", "hours", 9.0),
    ("kind: load, voltage: 12 V, power: 60 W, always on: yes, critical: no", "always on", True),
    ("kind: load, voltage: 12 V, power: 60 W, count: 4", "count", 4),
    ("kind: bank, chemistry: agm, voltage: 24 V, capacity: 100 Ah, charge above: 41 °F", "charge above", 5.0),
    ("kind: bar, rating: 100 A, stud: M8", "stud", "M8"),
    ("kind: bar, rating: 100 A, label: Feed bar", "label", "Feed bar"),
    ("kind: inverter, power: 2 kVA, neutral: bonded", "power", 2000.0),
    ("kind: converter, voltage: 12 V, output: 10 A, efficiency: 92 %", "efficiency", 92.0),
])
def test_fields(fields, name, value):
    found = system(CIRCUIT, nodes=f"thing: {{{fields}}}").nodes["thing"]
    assert found.get(name) == pytest.approx(value) if isinstance(value, float) else found.get(name) == value


@pytest.mark.parametrize(("fields", "message"), [
    ("kind: bank, chemistry: agm, voltage: 24 V", "bank `thing` needs capacity"),
    ("kind: bank", "needs chemistry, voltage and capacity"),
    ("kind: load, voltage: 12 V", "load `thing` needs power or current"),
    ("kind: bar, rating: 100 V", "rating: `100 V` is a voltage; a current is wanted here, in A, mA, kA"),
    ("kind: bar, rating: 100", "`100` has no unit; a current is wanted here"),
    ("kind: bar, rating: lots", "`lots` does not begin with a number"),
    ("kind: bar, rating: 100 amps", "`amps` is no unit"),
    ("kind: bar, rating: 100 a", "did you mean `A`?"),
    ("kind: bar, rating: -5 A", "out of range: more than 0 A"),
    ("kind: bar, rating: 0 A", "rating: `0 A` is out of range: more than 0 A"),
    ("kind: bank, chemistry: agm, voltage: 12 V, capacity: 0 Ah", "`0 Ah` is out of range: more than 0 Ah"),
    ("kind: bank, chemistry: agm, voltage: 12 V, capacity: 0 kWh", "`0 kWh` is out of range: more than 0 Ah"),
    ("kind: fuse, voltage: 0 V", "`0 V` is out of range: more than 0 V"),
    ("kind: load, voltage: 12 V, power: 0 W", "more than 0 W"),
    ("kind: load, voltage: 12 V, power: 5 W, regen: -1 A", "at least 0 A"),
    ("kind: terminals, pins: 0", "a whole number from 1 to 500"),
    ("kind: terminals, pins: 501", "pins: `501`: a whole number from 1 to 500 is wanted"),
    ("kind: fuse, poles: 5", "a whole number from 1 to 4"),
    ("kind: panel, rating: 5 A, ways: 1001", "a whole number from 1 to 1000"),
    ("kind: bar, rating: [100 A]", "is one value, not a list"),
    ("kind: bar, rating: 1,200 A", "A number has a decimal point and no thousands mark"),
    ("kind: bar, rating: '1,200 A'", "a number has a decimal point and no thousands mark"),
    ("kind: bar, raitng: 100 A", "`raitng` is no field of bar Did you mean `rating`?"),
    ("kind: bar, watts: 100 W", "There are rating, pair, stud, label, note, part and accept."),
    ("kind: barr, rating: 100 A", "there is no kind `barr` Did you mean `bar`?"),
    ("kind: lamp", "Write `kind: load` or `kind: ac load`."),
    ("kind: Busbar", "Write `kind: bar`."),
    ("kind: flux", "There are ac charger"),
    ("rating: 5 A", "node `thing` has no kind"),
    ("kind: load, voltage: 33 .. 9 V, power: 5 W", "the range ends below its start"),
    ("kind: load, voltage: 1 .. 2 .. 3 V, power: 5 W", "a range is `LOW .. HIGH`"),
    ("kind: load, voltage: 9 V to 33 V, power: 5 W", "`9 V to 33 V`: a range is written `9 V .. 33 V`"),
    ("kind: load, voltage: 9-33 V, power: 5 W", "a range is written `9 .. 33 V`"),
    ("kind: generator, power: 4 kW", "generator `thing` needs neutral Neutral is bonded or floating."),
    ("kind: load, voltage: 12 V, power: 5 W, count: 1.5", "a whole number from 1"),
    ("kind: load, voltage: 12 V, power: 5 W, critical: true", "write yes or no"),
    ("kind: load, voltage: 12 V, power: 5 W, duty: mtor", "did you mean `motor`?"),
    ("kind: load, voltage: 12 V, power: 5 W, duty: x", "it is one of motor, heat, light or electronics"),
    ("kind: load, voltage: 12 V, power: 5 W, hours: 25", "out of range"),
    ("kind: load, voltage: 9 .. 33 V, power: 5 W, start: 20 A", "Write it in W."),
    ("kind: bar, rating: 5 A, pair: return-baz", "there is no node `return-baz`"),
    ("kind: bar, rating: 5 A, pair: lamp", ""),
    ("kind: bar, rating: 5 A, pair: isolator", "can't be a pair: no return lands there"),
    ("kind: bar, rating: 5 A, pair: thing", "can't be its own pair"),
    ("kind: other", "other `thing` needs ports"),
    ("kind: other, ports: {a: ad}", "port `a` is dc, lead or ac"),
    ("kind: other, ports: dc", "ports are `{name: dc, lead or ac}`"),
    ("kind: selector, rating: 5 A, positions: {on: a}", "joins nothing"),
    ("kind: selector, rating: 5 A, positions: [a]", "positions are"),
    ("kind: bar, rating: 5 A, accept: yes", "`accept` is {rule: reason}"),
    ("kind: bar, rating: 5 A, accept: {thin-return: [a]}", "needs a reason"),
    ("kind: bar, rating: ", "`rating` has no value"),
    ("kind: bar, rating: 5 A, rating: 6 A", "`rating` a second time"),
])
def test_what_a_node_cannot_be(fields, message):
    assert message in said(f"{CIRCUIT}\nfeed: lone-bar -> isolator.1", nodes=f"thing: {{{fields}}}")


@pytest.mark.parametrize("fields", [
    "kind: terminals, pins: 500", "kind: inverter charger, power: 3 kW, charge: 0 A", "kind: chassis, resistance: 0 Ω",
    "kind: load, voltage: 12 V, power: 5 W, hours: 0, regen: 0 A", "kind: rod, resistance: 0 Ω",
])
def test_bounds_themselves(fields):
    assert "thing" in system(CIRCUIT, nodes=f"thing: {{{fields}}}").nodes


def test_an_empty_field_is_not_missing_as_well():
    assert [one.message for one in problems(CIRCUIT, nodes="thing: {kind: bar, rating: }")] == ["`rating` has no value"]


@pytest.mark.parametrize(("name", "message"), [
    ("fuse", "is the word for a device"), ("a-", "can't be a name"), ("-a", "can't be a name"),
    ("a b", "can't be a name"), ("12:30", "can't be a name"),
    ("a.b", "can't be a name"), ("a@b", "can't be a name"), ("Lamp", "differ only in upper and lower case"),
    ("lamp", "`lamp` a second time"),
])
def test_names_that_cannot_be(name, message):
    assert message in said(CIRCUIT,
                           nodes=f"lone-bar: {{kind: bar, rating: 5 A}}\nlamp: {{kind: load, voltage: 12 V, power: 5 "
                                 f"W}}\n'{name}': {{kind: bar, rating: 5 A}}")


@pytest.mark.parametrize("name", ["no", "off", "1e3", "null", "12", "bar_2", "Lüfter", "照明", "K-1", "a-_"])
def test_names_that_look_like_something_else(name):
    assert name in system(CIRCUIT, nodes=f"{name}: {{kind: bar, rating: 5 A}}").nodes


@pytest.fixture
def folder(tmp_path):
    (tmp_path / "parts.yaml").write_text("big-fuse: {kind: fuse, type: class-t, rating: 200 A}\n"
                                         "battery-1: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 90 Ah}\n")
    (tmp_path / "more.yaml").write_text("big-fuse: {kind: fuse, type: class-t, rating: 300 A}\n"
                                        "nested: {part: big-fuse}\nodd: 3\n")
    (tmp_path / "list.yaml").write_text("- a\n")
    (tmp_path / "bad.yaml").write_bytes(b"a: \xff\n")
    return tmp_path


def of(nodes: str, parts: str, folder):
    bars = "  a: {kind: bar, rating: 5 A}\n  b: {kind: bar, rating: 5 A}\n"
    text = f"parts: {parts}\nnodes:\n{bars}  {nodes}\ncircuits:\n  - {{feed: a -> b}}\n"
    return read(text, "boats/one.yaml", folder)


def test_a_node_made_of_a_part(folder):
    found, wrong = of("c: {part: battery-1}", "[parts.yaml]", folder)
    assert not wrong and found.nodes["c"].get("capacity") == 90.0 and found.nodes["c"].kind.name == "bank"


def test_the_nodes_own_fields_win(folder):
    found, wrong = of("c: {part: battery-1, capacity: 100 Ah, label: House}", "[parts.yaml]", folder)
    assert not wrong and (found.nodes["c"].get("capacity"), found.nodes["c"].label) == (100.0, "House")


def test_a_later_file_wins(folder):
    (folder / "more.yaml").write_text("big-fuse: {kind: fuse, type: class-t, rating: 300 A}\n")
    found, wrong = of("c: {part: big-fuse}", "[parts.yaml, more.yaml]", folder)
    assert not wrong and found.nodes["c"].get("rating") == 300.0


@pytest.mark.parametrize(("parts", "message"), [
    ("[../parts.yaml]", "leaves the netlist's own folder"), ("[/etc/passwd]", "leaves the netlist's own folder"),
    ("[sub/../../x.yaml]", "leaves the netlist's own folder"),
    ("[none.yaml]", "can't be read"), ("[list.yaml]", "holds no parts"), ("[bad.yaml]", "is not UTF-8"),
    ("parts.yaml", "`parts` is a list of files"),
    ("[[a]]", "`parts` is a list of files"), ("[more.yaml]", "is made of another part"),
    ("[more.yaml]", "part `odd` is written with its fields"), ("[.]", "can't be read"),
])
def test_parts_that_cannot_be(parts, message, folder):
    _, wrong = of("c: {kind: bar, rating: 5 A}", parts, folder)
    assert any(message in one.message for one in wrong)


def test_a_link_out_of_the_folder_is_refused(folder, tmp_path_factory):
    outside = tmp_path_factory.mktemp("outside") / "secret.yaml"
    outside.write_text("x: {kind: bar, rating: 1 A}\n")
    (folder / "link.yaml").symlink_to(outside)
    _, wrong = of("c: {part: x}", "[link.yaml]", folder)
    assert any("leaves the netlist's own folder" in one.message for one in wrong)


def test_an_unknown_part(folder):
    _, wrong = of("c: {part: big-fuze}", "[parts.yaml]", folder)
    assert [one.help for one in wrong if "no part" in one.message] == ["Did you mean `big-fuse`?"]


def test_the_place_of_a_problem_in_a_part(folder):
    (folder / "parts.yaml").write_text("x: {kind: bar, rating: 5 V}\n")
    _, wrong = of("c: {part: x}", "[parts.yaml]", folder)
    assert (wrong[0].at.file, wrong[0].at.line, wrong[0].at.column) == (str(folder / "parts.yaml"), 1, 24)


def test_a_netlist_without_a_folder_has_no_parts():
    assert "the netlist has no folder" in said(CIRCUIT, head="parts: [a.yaml]")


def test_site_and_sheet():
    found = system(CIRCUIT,
                   head="title: A van\npractice: iso\nsite: {coldest: -15 °C, hottest: 113 °F, sun hours: 3.8, "
                        "autonomy: 2 days}\n"
                   "sheet: {owner: Kim, number: D-1, revision: B, date: 2031-05-06, approved by: Sam}")
    site = found.site
    assert (site.coldest, site.hottest, site.sun_hours, site.autonomy) == (-15.0, pytest.approx(45.0), 3.8, 48.0)
    assert found.title == "A van" and found.practice == "iso"
    assert found.sheet == {"owner": "Kim", "number": "D-1", "revision": "B", "date": "2031-05-06", "approved by": "Sam"}


@pytest.mark.parametrize(("head", "message"), [
    ("site: {coldest: 20 °C, hottest: 10 °C}", "the coldest day is warmer than the hottest"),
    ("site: {rain: 3 mm}", "`rain` is no entry of the site"),
    ("site: cold", "`site` has entries"), ("site: {sun hours: 25}", "out of range"),
    ("sheet: {boss: Kim}", "`boss` is no entry of `sheet`"),
    ("sheet: {owner: [Kim]}", "`owner` is a text"), ("sheet: Kim", "`sheet` has entries"),
    ("practice: usa", "no practice `usa` There are abyc, nec and iso."),
    ("practice: [iso]", "no practice"), ("title: [a]", "`title` is a text"), ("colour: red", "no section `colour`"),
    ("node: {}", "Did you mean `nodes`?"),
    ("title:", "`title` has no value"), ("title: a\ntitle: b", "`title` a second time"),
])
def test_heads_that_cannot_be(head, message):
    assert message in said(CIRCUIT, head=head)


def test_interlocks_and_states():
    circuits = """
  - {ac: pedestal -> breaker 30 A Q-shore -> transfer.1}
  - {ac: combi -> breaker 30 A Q-combi -> transfer.2}
  - {ac: transfer -> ac-panel}
  - {feed: lone-bar -> selector, return: none}
  - {feed: lone-bar -> lamp, return: none}
interlocks: [[Q-shore, Q-combi]]
states: {at anchor: {selector: 2, combi: inverting, lamp: off}, alongside: {transfer: 1, Q-combi: off}}
"""
    found = system(circuits, nodes="transfer: {kind: transfer, rating: 30 A}")
    assert found.interlocks == (("Q-shore", "Q-combi"),)
    assert found.states == {"at anchor": {"selector": "2", "combi": "inverting", "lamp": "off"},
                            "alongside": {"transfer": "1", "Q-combi": "off"}}


@pytest.mark.parametrize(("section", "message"), [
    ("interlocks: [[Q9, lamp]]", "there is no node `Q9`"), ("interlocks: [[lamp, lone-bar]]", "has no contact"),
    ("interlocks: [selector]", "is a list of lists"),
    ("interlocks: [[selector]]", "between two devices or more"),
    ("interlocks: [[selector, selector]]", "between two devices or more"),
    ("states: {a: {selector: 3}}", "`3` is no position of `selector` There are off, 1, 2, both and on."),
    ("states: {a: {selektor: 1}}", "Did you mean `selector`?"), ("states: [a]", "`states` has entries"),
    ("states: {a: b}", "state `a` names nodes"), ("states: {a: {selector: [1]}}", "no position"),
])
def test_interlocks_and_states_that_cannot_be(section, message):
    circuits = "feed: lone-bar -> selector, return: none\nfeed: lone-bar -> lamp, return: none"
    assert message in said(f"{circuits}\n{section}")


@pytest.mark.parametrize(("circuit", "message"), [
    ("wire: 2 m", "a circuit has one of feed, return, ac, series or bond"),
    ("feed: lone-bar -> lamp, ac: a -> b", "feed and ac in one circuit"),
    ("fed: lone-bar -> lamp", "Did you mean `feed`?"), ("return: none", "no circuit"),
    ("feed: [lone-bar, lamp]", "`feed` is a path"),
    ("feed: lone-bar -> lamp, note: [a]", "`note` is a text"),
    ("feed: lone-bar -> lamp, accept: {x: }", "`x` has no value"),
])
def test_circuits_that_cannot_be(circuit, message):
    assert message in said(circuit)


def test_accept_and_note():
    one = system("feed: lone-bar -> lamp, return: none, note: behind the galley, accept: {missing-protection: fused "
                 "at the pump}").circuits[0]
    assert one.note == "behind the galley" and one.accept["missing-protection"][0] == "fused at the pump"


@pytest.mark.parametrize(("text", "message"), [
    ("", "the file is empty"), ("# nothing\n", "the file is empty"), ("- a\n", "a netlist has sections"),
    ("hello\n", "a netlist has sections"),
    ("nodes:\n  a: {kind: bar, rating: 1 A}\n", "there are no `circuits`"), ("circuits: []\n", "there are no `nodes`"),
    ("nodes: [a]\ncircuits: []\n", "`nodes` has one entry a node"),
    ("nodes: {a: b}\ncircuits: {}\n", "node `a` is written with"),
    ("nodes: {a: {kind: bar, rating: 1 A}}\ncircuits: a\n", "`circuits` is a list"),
    ("nodes: {a: {kind: bar, rating: 1 A}}\ncircuits: [a]\n", "a circuit is written with"),
    ("nodes:\ncircuits:\n", "`nodes` has no value"),
])
def test_files_that_cannot_be(text, message):
    found, wrong = read(text)
    assert found is None and any(message in one.message for one in wrong)


def test_sections_without_a_value_are_said_once():
    _, wrong = read("nodes:\ncircuits:\n")
    assert [one.message for one in wrong] == ["`nodes` has no value", "`circuits` has no value"]
