"""The pages beside this file: each netlist block gives exactly the messages of the text block below it.

`pytest tests/language --rewrite-messages` writes the messages anew; read the difference before it is kept.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from diagrammer.netlist.read import read
from diagrammer.text.finding import Problem
from diagrammer.text.report import problem
from diagrammer.text.source import decode

HERE = Path(__file__).parent
BLOCK = re.compile(r"```yaml netlist( latin-1)?\n(.*?)```\n\n```text\n(.*?)```\n", re.DOTALL)
PAGES = sorted(HERE.glob("*.md"))


def messages(text: str, encoding: str) -> str:
    source = decode(text.encode(encoding), "van.yaml")
    if isinstance(source, Problem):
        return problem(source, None) + "\n"
    found, problems = read(source, folder=HERE)
    assert (found is None) == bool(problems)
    return "\n".join(problem(one, source) for one in problems) + "\n" if problems else "sound\n"


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.stem)
def test_messages(page, request):
    text = page.read_text(encoding="utf-8")
    assert text.count("```yaml netlist") == len(BLOCK.findall(text)) > 0, "a netlist block without its messages"
    anew = BLOCK.sub(lambda m: f"```yaml netlist{m[1] or ''}\n{m[2]}```\n\n```text\n"
                               f"{messages(m[2], (m[1] or ' utf-8').strip())}```\n", text)
    if request.config.getoption("--rewrite-messages"):
        page.write_text(anew, encoding="utf-8")
    else:
        assert text == anew
