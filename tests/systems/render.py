"""A model as netlist text."""

from __future__ import annotations

from tests.systems.model import NONE, Circuit, Device, Model, Node, Path, Place, Run

FEET = 0.3048  # [m]


def number(value: float) -> str:
    return f"{value:.3f}".rstrip("0").rstrip(".")


def length(metres: float, practice: str) -> str:
    return f"{number(metres / FEET)} ft" if practice == "nec" else f"{number(metres)} m"


def item(value: Place | Device) -> str:
    if isinstance(value, Place):
        port = f".{value.port}" if value.port else ""
        return f"{value.node}{port}{f'@{value.stud}' if value.stud else ''}"
    amps = f"{number(value.amps)} A" if value.amps is not None else ""
    return " ".join(word for word in (value.word, value.name, value.words, amps, value.extra) if word)


def path(value: Path) -> str:
    text = item(value.items[0])
    for hop, thing in zip(value.hops, value.items[1:], strict=True):
        text += ("/" if hop is None else " -> ") + item(thing)
    return text


def run(value: Run, before: Run | None, practice: str) -> str:
    """The size carries on from the run before it."""
    same = before is not None and (before.size, before.parallel) == (value.size, value.parallel)
    parallel = f"{value.parallel} parallel " if value.parallel > 1 else ""
    return f"{'' if same else parallel + value.size + ' '}{length(value.length, practice)}"


def runs(value: Path, practice: str) -> str:
    texts = [run(r, value.runs[i - 1] if i else None, practice) for i, r in enumerate(value.runs)]
    return texts[0] if len(texts) == 1 else f"[{', '.join(texts)}]"


def wire(circuit: Circuit, practice: str) -> str:
    """The wire field, "" where no conductor stands."""
    back = circuit.back if circuit.back is not None and circuit.back.runs else None
    fields = []
    if circuit.back_run:
        fields = [f"feed: {runs(circuit.path, practice)}", f"return: {run(circuit.back_run, None, practice)}"]
    elif back is not None and circuit.path.runs:
        fields = [f"feed: {runs(circuit.path, practice)}", f"return: {runs(back, practice)}"]
    elif circuit.path.runs:
        plain = runs(circuit.path, practice)
        if not (circuit.inside or circuit.cores or circuit.terminals or circuit.material):
            return plain
        fields = [f"hops: {plain if plain.startswith('[') else f'[{plain}]'}"]
    if circuit.inside:
        fields.append(f"in: {circuit.inside}")
    if circuit.cores:
        fields.append(f"cores: {circuit.cores}")
    if circuit.terminals:
        fields.append(f"terminals: {circuit.terminals}")
    if circuit.material:
        fields.append(f"material: {circuit.material}")
    return f"{{{', '.join(fields)}}}" if fields else ""


def entry(circuit: Circuit, practice: str) -> str:
    fields = [("name", circuit.name), (circuit.role, path(circuit.path))]
    if circuit.back is not None:
        fields.append(("return", path(circuit.back) if circuit.back.items else "none"))
    if text := wire(circuit, practice):
        fields.append(("wire", text))
    line = "  - {" + ", ".join(f"{key}: {value}" for key, value in fields) + "}"
    if len(line) <= 110:
        return line
    return "  - " + "\n    ".join(f"{key}: {value}" for key, value in fields)


def node(value: Node) -> str:
    fields = "".join(f", {key}: {text}" for key, text in value.fields.items())
    return f"  {value.name}: {{kind: {value.kind}{fields}}}"


def render(model: Model) -> str:
    """The netlist: same model, same text."""
    head = [f"title: {model.title}", f"practice: {model.practice}"]
    for name, fields in (("site", model.site), ("wire", model.wire)):
        if fields:
            head.append(f"{name}: {{{', '.join(f'{k}: {v}' for k, v in fields.items())}}}")
    lines = [*head, "", "nodes:", *(node(n) for n in model.nodes.values())]
    lines += ["", "circuits:", *(entry(c, model.practice) for c in model.circuits)]
    if model.interlocks:
        lines += ["", f"interlocks: [{', '.join('[' + ', '.join(pair) + ']' for pair in model.interlocks)}]"]
    return "\n".join(lines) + "\n"


__all__ = ["NONE", "render"]
