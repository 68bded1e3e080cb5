"""A small drawing placed by hand, with everything a scene can hold: an invented cabin."""

from __future__ import annotations

from diagrammer.layout import sheet as sheets
from diagrammer.layout.legend import used, weights
from diagrammer.layout.scene import Bar, Box, Flag, Line, Scene, Shape, Sheet, Stub, Text
from diagrammer.lettering.width import SMALLEST
from diagrammer.symbols import find

TOP, BAR = 30.0, 90.0  # [mm] the sources, the main bar


def label(x, y, name, *lines, anchor="start", owner=""):
    """A designation in bold, the lines below it."""
    first = Text(x, y, name, SMALLEST, "designation", anchor, bold=True, owner=owner)
    rest = (Text(x, y + 3.6 * (n + 1), line, SMALLEST, "name", anchor, owner=owner) for n, line in enumerate(lines))
    return (first, *rest)


def wire(circuit, hop, points, weight="dc", **more):
    return Line(circuit, f"{circuit}:f{hop}", tuple(points), weight, f"circuit {circuit}", 12, **more)


def shapes():
    return (
        Shape("roof", find("pv"), 120, TOP, 0, "roof: photovoltaic array", 5),
        Shape("Q1", find("breaker"), 120, TOP + 17, 0, "Q1: circuit-breaker 32 A", 6),
        Shape("sun", find("solar-charger"), 120, TOP + 32, 0, "sun: charge controller", 7),
        Shape("F3", find("fuse"), 120, TOP + 48, 0, "F3: fuse 40 A", 8),
        Shape("Q2", find("battery-switch"), 60, BAR + 11, 0, "Q2: battery switch", 9),
        Shape("F1", find("fuse"), 60, BAR + 25, 0, "F1: fuse 250 A", 9),
        Shape("bank", find("battery"), 60, BAR + 43, 0, "bank: 24 V 280 Ah", 3),
        Shape("meter", find("shunt"), 60, BAR + 61, 0, "meter: shunt 500 A", 4),
        Shape("pedestal", find("shore"), 300, TOP + 2, 0, "pedestal: shore supply", 10),
        Shape("F9", find("rcbo"), 300, TOP + 25, 0, "F9: rcbo 16 A", 10),
        Shape("combi", find("inverter-charger"), 295, BAR + 40, 0, "combi: inverter and charger", 11),
        Shape("F2", find("fuse"), 290, BAR + 12, 0, "F2: fuse 200 A", 11),
        Shape("F4", find("fuse"), 150, BAR + 12, 0, "F4: fuse 30 A", 12),
        *(Shape(f"F{5 + n}", find("fuse"), 160, BAR + 33 + 11 * n, 270, "fuse 10 A", 13 + n) for n in range(3)),
        Shape("lamp", find("lamp"), 200, BAR + 33, 270, "lamp", 13),
        Shape("pump", find("motor"), 200, BAR + 44, 270, "pump", 14),
        Shape("fridge", find("load"), 200, BAR + 55, 270, "fridge", 15),
    )


def lines():
    return (
        wire("roof", 0, [(120, TOP + 4.5), (120, TOP + 13.5)]),
        wire("roof", 1, [(120, TOP + 20.5), (120, TOP + 27.5)], marks=(((120, TOP + 24), "2"),)),
        wire("sun", 0, [(120, TOP + 36.5), (120, TOP + 44.5)]),
        wire("sun", 1, [(120, TOP + 51.5), (120, BAR)]),
        wire("main", 0, [(60, BAR), (60, BAR + 7.5)]),
        wire("main", 1, [(60, BAR + 14.5), (60, BAR + 21.5)]),
        wire("main", 2, [(60, BAR + 28.5), (60, BAR + 39.5)]),
        wire("main", 3, [(60, BAR + 46.5), (60, BAR + 57)], "return"),
        wire("main", 4, [(60, BAR + 65), (60, BAR + 74)], "return"),
        wire("sense", 0, [(63, BAR + 59.5), (88, BAR + 59.5), (88, BAR + 34), (60, BAR + 34)], "signal",
             dots=((60, BAR + 34),)),
        wire("shore", 0, [(300, TOP + 7.5), (300, TOP + 20)], "ac"),
        wire("shore", 1, [(300, TOP + 30), (300, BAR + 35)], "ac"),
        wire("inverter", 0, [(290, BAR), (290, BAR + 8.5)]),
        wire("inverter", 1, [(290, BAR + 15.5), (290, BAR + 35)]),
        wire("outlets", 0, [(295, BAR + 45), (295, BAR + 56)], "ac"),
        wire("bond", 0, [(286, BAR + 42.5), (275, BAR + 42.5), (275, BAR + 52)], "earth"),
        wire("panel", 0, [(150, BAR), (150, BAR + 8.5)]),
        wire("panel", 1, [(150, BAR + 15.5), (150, BAR + 26)]),
        *(wire(f"way-{n}", 0, [(150, BAR + 33 + 11 * n), (156.5, BAR + 33 + 11 * n)]) for n in range(3)),
        wire("way-0", 1, [(163.5, BAR + 33), (197.5, BAR + 33)]),
        wire("way-1", 1, [(163.5, BAR + 44), (197, BAR + 44)], "fault", fault="danger"),
        wire("way-2", 1, [(163.5, BAR + 55), (197.5, BAR + 55)]),
    )


def texts():
    return (
        *label(126, TOP - 2, "G2", "Roof", "2s2p 220 W", owner="roof"), *label(123.5, TOP + 15, "Q1", "32 A"),
        *label(126, TOP + 30, "T1", "Charge controller", "35 A"), *label(123, TOP + 46, "F3", "40 A"),
        *label(64, BAR + 9, "Q2", "Battery switch 300 A"), *label(64, BAR + 23, "F1", "class-t 250 A"),
        *label(66, BAR + 40, "G1", "LiFePO4 24 V", "280 Ah"), *label(66, BAR + 64.5, "B1", "500 A"),
        *label(306, TOP, "X1", "Pedestal", "120 V 30 A"), *label(304, TOP + 23, "F9", "rcbo 16 A 30 mA"),
        *label(307, BAR + 38, "T2", "Combi", "24 V 3 kW"), *label(293, BAR + 10, "F2", "class-t 200 A"),
        *label(153, BAR + 10, "F4", "30 A"), *label(50, BAR + 1, "W1", "24 V bar, 600 A", anchor="end"),
        *label(50, BAR + 75, "W2", "return bar", anchor="end"), *label(147, BAR + 27, "W3", "24 V panel", anchor="end"),
        *label(292, BAR + 58, "W4", "120 V ac panel", anchor="end"),
        *(Text(160, BAR + 30.5 + 11 * n, f"F{5 + n} 10 A", SMALLEST, "designation", "middle") for n in range(3)),
        Text(204, BAR + 34, "E1 Reading lamp, 24 W", SMALLEST, "name"),
        Text(204, BAR + 45, "M1 Water pump, 8 A", SMALLEST, "name"),
        Text(204, BAR + 56, "E2 Fridge, 55 W", SMALLEST, "name"),
        Text(180, BAR + 32, "12 AWG 4 m", SMALLEST, "wire", "middle"),
        Text(180, BAR + 43, "16 AWG 6 m", SMALLEST, "wire", "middle"),
        Text(121, TOP + 10, "10 AWG 6 m", SMALLEST, "wire"), Text(61, BAR + 52, "2/0 AWG", SMALLEST, "wire"),
    )


def flags():
    return (
        Flag((1,), "danger", (286, BAR + 18), ("protection-too-large",), Box(287.7, BAR + 7.7, 4.6, 8.6),
             ((287.2, BAR + 16.6), (288.2, BAR + 15.5))),
        Flag((2,), "danger", (175, BAR + 48), ("conductor-overloaded",)),
        Flag((3, 12), "warning", (53, BAR + 61), ("shunt-backwards", "unmeasured-return"),
             Box(56.2, BAR + 56.2, 7.6, 9.6)),
        Flag((4,), "notice", (131, TOP + 40), ("pv-clipped",), Box(114.7, TOP + 26.7, 10.6, 10.6),
             ((129.3, TOP + 38.6), (125.3, TOP + 36.5))),
        Flag((5,), "warning", (268, BAR + 40), ("neutral-bond",), accepted=True),
    )


def stubs():
    return (
        Stub("r1", (115.5, TOP), "left", "return bar", "return", "roof"),
        Stub("r2", (115.5, TOP + 34), "left", "return bar", "return", "sun"),
        Stub("r3", (240, BAR + 33), "right", "return bar", "return", "lamp"),
        Stub("r4", (225, BAR + 55), "right", "return bar", "return", "fridge"),
        Stub("e1", (275, BAR + 52), "down", "earth bar", "earth", "combi"),
        Stub("t1", (250, BAR), "down", "WP4 Sub panel 2 /2.A3", "to", "", "f1"),
        Stub("t2", (340, BAR + 60), "right", "W7 /2.B3", "to", "", "f2"),
        Stub("f3", (225, BAR), "up", "from S9 /1.B4", "from", "", "t3"),
    )


def sheet(size: str = "A3") -> Sheet:
    rows = (
        sheets.row(1, "danger", "C6", "protection-too-large",
                   "F2 lets 200 A through, the conductor from F2 to combi may carry 170 A at 45 °C."),
        sheets.row(2, "danger", "D4", "conductor-overloaded",
                   "16 AWG carries 8 A over 6 m; in a bundle of four at 45 °C it may carry 6.9 A (105 °C)."),
        sheets.row(3, "warning", "D1", "shunt-backwards", "The shunt's battery side faces the return bar."),
        sheets.row(4, "notice", "A3", "pv-clipped", "The array can give 880 W, the controller passes 840 W."),
        sheets.row(5, "warning", "C6", "neutral-bond",
                   "Floating neutral while inverting. Accepted: bonded by the relay in the panel.", True),
        sheets.row(12, "warning", "D1", "unmeasured-return", "Returns land on the bank's side of the shunt."),
    )
    block = {"title": "Cabin, 24 V", "supplementary title": "One-line diagram with findings", "creator": "A. Author",
             "document type": "One-line diagram",
             "identification number": "CABIN-1", "language": "en"}
    furniture = sheets.furnish(size, 1, 2, block, rows, used(shapes()), weights=weights(lines()))
    bars = (
        Bar("feed-bar", (52, BAR), (330, BAR), 1.6, "feed-bar", 20),
        Bar("return-bar", (52, BAR + 74), (85, BAR + 74), 1.6),
        Bar("panel", (150, BAR + 26), (150, BAR + 60), 1.6), Bar("ac-panel", (295, BAR + 56), (295, BAR + 78), 1.6),
    )
    return Sheet(
        1, 2, size, furniture.width, furniture.height, "Main bar", shapes(), bars, lines(), stubs(),
        (*texts(), *furniture.texts), flags(), furniture.rows, furniture.rules, furniture.legend,
        furniture.keys,
    )


def scene() -> Scene:
    only = sheet()
    return Scene("Cabin, 24 V", "A bank of 24 V feeds a bar, a panel and an inverter.", (only,))
