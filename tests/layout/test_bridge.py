"""A link between the middle points of two strings is one straight line where they stand at one height."""

from __future__ import annotations

import pytest

from diagrammer.layout.draw import draw
from diagrammer.layout.options import Options
from diagrammer.layout.scene import Line, Scene
from tests.layout.common_systems import parsed

STRINGS = """
nodes:
  b1: {{kind: battery, chemistry: agm, voltage: 12 V, capacity: 200 Ah}}
  b2: {{kind: battery, chemistry: agm, voltage: 12 V, capacity: 200 Ah}}
  b3: {{kind: battery, chemistry: agm, voltage: 12 V, capacity: 200 Ah}}
  b4: {{kind: battery, chemistry: agm, voltage: 12 V, capacity: 200 Ah}}
  plus: {{kind: bar, rating: 200 A, pair: minus}}
  minus: {{kind: bar, rating: 200 A}}
  lamp: {{kind: load, voltage: 24 V, power: 60 W}}
circuits:
  - {{series: b1/fuse 150 A -> b2, wire: 35 mm² 0.2 m}}
  - {{series: b3{fuse} -> b4, wire: 35 mm² 0.2 m}}
  - {{feed: b2/fuse 150 A -> plus, return: b1 -> minus, wire: 35 mm² 0.5 m}}
  - {{feed: b4{top}/fuse 150 A -> plus, return: b3 -> minus, wire: 35 mm² 0.5 m}}
  - {{name: link, feed: b2.- -> b4.-, return: none, wire: 16 mm² 0.4 m}}
  - {{feed: plus/fuse 10 A -> lamp, wire: 2.5 mm² 2 m}}
"""


def links(fuse: str = "/fuse 150 A", top: str = "", **options) -> tuple[list[Line], list[str], Scene]:
    made = draw(parsed(STRINGS.format(fuse=fuse, top=top)), (), Options(engine="own", **options))
    lines = [line for sheet in made.sheets for line in sheet.lines if line.cable == "link:f0"]
    return lines, [stub.form for sheet in made.sheets for stub in sheet.stubs if stub.form in ("to", "from")], made


@pytest.mark.parametrize("options", [{}, {"numbers": True, "both": True}, {"size": "A4"}, {"size": ""}], ids=str)
def test_middle_points_are_joined_by_one_straight_line(options):
    (line,), references, made = links(**options)
    (x1, y1), (x2, y2) = line.points
    assert y1 == y2 and x2 - x1 > 10 and line.dots == line.points
    assert references == [] and made.remarks == ()


def test_its_words_stand_over_the_middle_of_it():
    (line,), _, made = links()
    (x1, y), (x2, _) = line.points
    words = next(text for text in made.sheets[0].texts if text.owner == "link:f0")
    assert words.text == "16 mm² 0.4 m" and x1 < words.x < x2 and 0 < y - words.y < 2


def test_what_stands_at_two_heights_is_referenced():
    _, references, made = links(top="/switch 200 A")
    assert sorted(references) == ["from", "to"] and made.remarks == ()
