"""diagrammer draw: which files are written, which stay, and what is said."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from diagrammer.__main__ import main

SAMPLE = Path(__file__).parents[2] / "samples" / "animal-clinic-24v.yaml"
OURS = (
    '<?xml version="1.0" encoding="UTF-8"?>\n<svg class="diagram" xmlns="http://www.w3.org/2000/svg">\n'
    '<title id="s{0}-title">{1}, sheet {0} of 9</title>\n</svg>\n'
)


@pytest.fixture(scope="module")
def title() -> str:
    from diagrammer import pipeline

    return pipeline.load(SAMPLE).system.title


@pytest.fixture(scope="module")
def count() -> int:
    from diagrammer import pipeline
    from diagrammer.layout.options import Options

    return len(pipeline.lay_out(pipeline.load(SAMPLE).system, (), Options("A4")).sheets)


def draw(target: Path, *more: str) -> int:
    return main(["draw", str(SAMPLE), "-o", str(target), "--sheet", "A4", *more])


def test_one_file_a_sheet(tmp_path, count):
    assert draw(tmp_path / "out.svg") == 0
    assert sorted(p.name for p in tmp_path.iterdir()) == sorted(["out.svg", *(f"out-{n}.svg" for n in range(2, count + 1))])


def test_together_is_one_file(tmp_path):
    assert draw(tmp_path / "out.svg", "--together") == 0
    assert [p.name for p in tmp_path.iterdir()] == ["out.svg"]


def test_sheets_of_an_earlier_drawing_go(tmp_path, title, capsys):
    old = tmp_path / "out-9.svg"
    old.write_text(OURS.format(9, title), encoding="utf-8")
    assert draw(tmp_path / "out.svg") == 0
    assert not old.exists()
    assert f"{old}: removed, a sheet of the earlier drawing" in capsys.readouterr().err


@pytest.mark.parametrize("text", ["", "<svg/>", OURS.format(8, "{title}"), OURS.format(9, "Another")])
def test_what_is_not_of_this_drawing_stays(tmp_path, title, text):
    """Something else; a sheet of another number; a sheet of another drawing."""
    other = tmp_path / "out-9.svg"
    other.write_text(text.replace("{title}", title), encoding="utf-8")
    assert draw(tmp_path / "out.svg") == 0
    assert other.read_text(encoding="utf-8") == text.replace("{title}", title)


@pytest.mark.parametrize("name", ["out-9.png", "out-09.svg", "out-9.svg.bak", "out-x.svg", "other-9.svg"])
def test_other_names_stay(tmp_path, title, name):
    (tmp_path / name).write_text(OURS.format(9, title), encoding="utf-8")
    assert draw(tmp_path / "out.svg") == 0
    assert (tmp_path / name).exists()


def test_a_further_sheet_replaces_nothing_that_is_not_ours(tmp_path, count, capsys):
    assert count > 1
    (tmp_path / "out-2.svg").write_text("<svg/>", encoding="utf-8")
    assert draw(tmp_path / "out.svg") == 2
    assert "out-2.svg: is no sheet of an earlier drawing" in capsys.readouterr().err
    assert [p.name for p in tmp_path.iterdir()] == ["out-2.svg"]


def test_it_can_be_drawn_again(tmp_path):
    assert [draw(tmp_path / "out.svg"), draw(tmp_path / "out.svg", "--colours", "grey")] == [0, 0]


@pytest.mark.parametrize("name", ["out.jpg", "out", "out.svg.txt"])
def test_an_unknown_ending_is_refused(tmp_path, name, capsys):
    assert draw(tmp_path / name) == 2
    assert "a drawing is .svg, .pdf or .png" in capsys.readouterr().err


@pytest.mark.parametrize("form, package", [("pdf", "typst"), ("png", "fontpkg_arimo")])
def test_without_the_extra_one_line_says_what_to_install(tmp_path, monkeypatch, capsys, form, package):
    monkeypatch.setitem(sys.modules, package, None)
    assert draw(tmp_path / f"out.{form}") == 2
    said = capsys.readouterr().err.splitlines()
    assert len(said) == 1 and "pip install 'diagrammer[paper]'" in said[0]
    assert not list(tmp_path.iterdir())


def test_pdf_is_one_file_and_png_one_a_sheet(tmp_path, count, title):
    pytest.importorskip("typst")
    pytest.importorskip("fontpkg_arimo")
    from diagrammer.drawing import png

    assert draw(tmp_path / "out.pdf") == 0 and draw(tmp_path / "out.png", "--dpi", "40") == 0
    assert (tmp_path / "out.pdf").read_bytes().startswith(b"%PDF")
    assert len(list(tmp_path.glob("*.png"))) == count
    assert png.title((tmp_path / "out.png").read_bytes()) == f"{title}, sheet 1 of {count}"


@pytest.mark.parametrize("dpi", ["35", "1201", "ten", "-100", "1e2"])
def test_odd_resolutions_are_refused(tmp_path, dpi):
    with pytest.raises(SystemExit, match="2"):
        draw(tmp_path / "out.png", f"--dpi={dpi}")


def test_an_unknown_state_lists_the_states_and_writes_nothing(tmp_path, capsys):
    assert draw(tmp_path / "out.svg", "--state", "at sea") == 2
    said = capsys.readouterr().err
    assert "there is no state `at sea`; the states of this system: `parked, nothing charges`" in said
    assert not list(tmp_path.iterdir())


def test_what_is_asked_for_at_the_lines_is_written(tmp_path):
    assert draw(tmp_path / "out.svg", "--state", "full sun", "--conductor-numbers", "--both-units", "--together") == 0
    text = (tmp_path / "out.svg").read_text(encoding="utf-8")
    assert "State: full sun" in text and "≈ 35 mm²" in text and " · W" in text
