"""What all builders of blocks share: the forest, names, symbols, cable texts, and branches of a vertex."""

from __future__ import annotations

from dataclasses import field, replace

from diagrammer.frozen import changing, frozen
from diagrammer.layout import conductors, texts
from diagrammer.layout.conductors import Pieces
from diagrammer.layout.options import Options
from diagrammer.layout.p1_wiring import RAILS, SIGNALS, STORES, Link, Spot, Vertex
from diagrammer.layout.p2_chains import Chain
from diagrammer.layout.p3_returns import Returns
from diagrammer.layout.p3_ways import GIVES_UP, Tree, leads_to_store, up
from diagrammer.layout.scene import Stub
from diagrammer.netlist.model import Node
from diagrammer.symbols import find
from diagrammer.symbols.symbol import Symbol

Question = tuple  # what is asked of a plan: "branches", "sides" or "value", and of what
Asked = dict[Question, object]  # with the answers
NUMBERED = " \u00b7 "  # between the numbers of a tag and where it lands
PLACE = " /0.W0"  # room for sheet and zone of a reference's partner, filled in at the end


@frozen
class Branch:
    """One chain as it leaves a spot. form: "tree" (on to a hub), "owner" (its devices, then a
    reference), "tag" (a reference only), "tail" (down to what gathers it), "bridge" (straight to a post beside)."""

    port: str
    chain: Chain | None
    from_a: bool
    form: str
    upward: bool = False
    key: Spot | None = None

    @property
    def near(self) -> Spot:
        return self.chain.a if self.from_a else self.chain.b

    @property
    def far(self) -> Spot:
        return self.chain.b if self.from_a else self.chain.a


@frozen
class Words:
    """What is written, the same in every try."""

    names: dict[str, str]  # node: designation
    cables: dict[str, tuple[Pieces, ...]]  # cable: lines of number, size and length
    faults: dict[str, str] = field(default_factory=dict)  # cable: severity
    numbers: dict[str, str] = field(default_factory=dict)  # cable: its number, where they are wanted
    said: dict = field(default_factory=dict)  # lines once worked out
    kept: dict = field(default_factory=dict)  # blocks once built


@changing
class Plan:
    tree: Tree
    returns: Returns
    options: Options
    words: Words
    gathered: dict[Spot, int] = field(default_factory=dict)
    blocked: frozenset[int] = frozenset()  # parallel chains that found no free column
    met: list[int] = field(default_factory=list)  # those that are blocked in this try
    nested: bool = False  # a sub panel hangs below its panel
    ungrouped: bool = False  # loads beside each other are columns that might be rows
    many: int = 5  # loads beside each other on the main bar that are drawn as rows
    wide: float = 0.0  # [mm] of the main bar, divided where it is wider; 0 for any
    tall: float = 999.0  # [mm] of a rake's leg
    sizes: dict[int, tuple[float, float, str]] = field(default_factory=dict)  # of what could stand apart
    below: bool = True  # a sub panel hangs below its panel's bar, else right of it
    answers: Asked = field(default_factory=dict)
    asked: Asked | None = None  # while a block is built that may be kept for another try

    def node(self, vertex: Vertex) -> Node:
        return self.tree.wiring.system.nodes[vertex[0]]

    def symbol(self, vertex: Vertex) -> Symbol:
        key, said = ("symbol", vertex[0]), self.words.said
        if key not in said:
            node = self.node(vertex)
            name = node.kind.symbol_of(node.values)
            if node.kind.name == "switch" and node.get("type") == "battery":
                name = "battery-switch"
            said[key] = find(name, self.options.family)
        return said[key]

    def called(self, vertex: Vertex) -> str:
        name, part = vertex
        called = self.words.names[name]
        return f"{called}:{part}" if part else called

    def tag(self, vertex: Vertex) -> str:
        """Designation and name, short: what a reference says of the other end."""
        node = self.node(vertex)
        name = self.called(vertex)
        return name if node.label == name else texts.short(f"{name} {node.label}", 26)

    def lines(self, vertex: Vertex, most: float = texts.WIDEST) -> list[tuple[str, bool]]:
        key, said = (vertex, most), self.words.said
        if key not in said:
            note = self.options.notes.get(vertex[0], "")
            said[key] = texts.label(self.called(vertex), self.node(vertex), note, most)
        return said[key]

    def rows(self, vertex: Vertex, most: float) -> list[list[tuple[str, bool]]]:
        """Pieces (text, bold) of what is written at a bar: in one row, or two where it is wider than `most`."""
        lines = self.lines(vertex, 40)
        one = sum(texts.width(text, texts.SIZE, bold) + 1 for text, bold in lines) <= most
        return [lines] if one or len(lines) < 3 else [lines[:2], lines[2:]]

    def title(self, vertex: Vertex) -> str:
        return " ".join(text for text, _ in self.lines(vertex, 400))

    def written(self, link: Link, way: str) -> tuple[Pieces, ...]:
        """Lines at a link; `way`: the arrow from its a to its b on the sheet."""
        lines = self.words.cables.get(link.cable, ())
        read = self.options.readings.get(link.cable)
        if read is not None and not conductors.is_lead(link):
            lines = *lines, conductors.reading(read, way)
        return (tuple(piece for line in lines for piece in line),) if self.options.level and lines else lines

    def heading(self, link: Link) -> str:
        """What a pointer resting on a link reads."""
        lines = self.words.cables.get(link.cable, ())
        return " ".join((link.circuit, *(text for line in lines for text, _ in line)))

    def _numbered(self, chain: Chain, text: str) -> str:
        """A tag's words with the numbers of the cables it stands for."""
        mine = [self.words.numbers[one.cable] for one in chain.links if one.cable in self.words.numbers]
        return f"{', '.join(mine)}{NUMBERED}{text}" if mine else text

    def fault(self, link: Link) -> str:
        """The severity of what is wrong with a link's cable, "" where nothing is."""
        return self.words.faults.get(link.cable, "") if link.cable else ""

    def cores(self, link: Link) -> str:
        count = self.tree.wiring.cores.get(link.cable, 1)
        return str(count) if link.cable and count > 1 else ""

    def weight(self, link: Link, signal: bool) -> str:
        if signal:
            return "signal"
        return {"return": "return", "bond": "earth", "ac": "ac"}.get(link.role, "dc")

    def answer(self, *question):
        """What a question was answered, worked out once; noted while a block is built that may be kept."""
        if question not in self.answers:
            sort, *of = question
            self.answers[question] = ANSWERS[sort](self, *of)
        if self.asked is not None:
            self.asked[question] = self.answers[question]
        return self.answers[question]

    def agrees(self, asked: Asked) -> bool:
        """Whether this plan gives the same answers."""
        return all(self.answer(*question) == answer for question, answer in asked.items())

    def branches(self, vertex: Vertex, came: Chain | None = None, gathering: bool = False) -> list[Branch]:
        """Everything that leaves a vertex but the chain it was reached by, in file order. What hangs on
        the common post of several stores is drawn where their tails are gathered."""
        every = self.answer("branches", vertex, gathering)
        return [branch for branch in every if came is None or branch.chain is not came]

    def sides(self, vertex: Vertex) -> list[Stub]:
        """Tags that stand at the side of a symbol: returns, bonds, and leads to sense and control."""
        return self.answer("sides", vertex)

    def gathers(self, key: Spot) -> int:
        """How many tails end at a spot, 0 where it gathers none."""
        return self.answer("gathers", key)

    def setting(self, name: str):
        """One of the plan's fields on which the shape of a block depends: "below", "wide", "tall"."""
        return self.answer("setting", name)

    def _branches(self, vertex: Vertex, gathering: bool) -> list[Branch]:
        made = []
        for port, chain, at_a in self.tree.ends(vertex):
            spot = chain.a if at_a else chain.b
            form = "tree"
            beside = self.tree.parallel.get(chain.index)
            if beside and chain.index not in self.blocked:
                if beside[0] == at_a:
                    made.append(Branch(port, chain, at_a, "tail", beside[2], beside[1]))
                continue
            if chain.index in self.tree.cross:
                form = "owner" if self.tree.cross[chain.index] == at_a else "tag"
                form = "bridge" if self._bridges(chain) else form
            made.append(Branch(port, chain, at_a, form, up(self.tree, chain, spot)))
        post = (vertex, "main-") in self.returns.gathers and not gathering
        for chain, at_a in () if post else self.returns.down.get(vertex, ()):
            made.append(Branch((chain.a if at_a else chain.b)[1], chain, at_a, "tree"))
        for chain in () if post else self.returns.crossing(vertex):
            at_a = chain.a[0] == vertex
            owner = self.returns.cross[chain.index] == at_a
            if owner or not self.lone(vertex):
                made.append(Branch(("main" if owner else "main-"), chain, at_a, "owner" if owner else "tag"))
        tails = self.returns.tails.get((vertex, "main-"), ())
        made += [Branch("main-", chain, from_a, "tail", key=key) for chain, from_a, key in tails]
        return sorted(made, key=lambda b: b.chain.links[0].index if b.chain else -1)

    def _bridges(self, chain: Chain) -> bool:
        """Whether a cross link may be a straight line between the lower posts of two stores."""
        free = chain.index not in self.blocked and not chain.members and not chain.signal
        return free and all(port == "main-" and self.tree.kind(vertex) in STORES for vertex, port in (chain.a, chain.b))

    def lone(self, vertex: Vertex) -> bool:
        """No bar and no store: its returns are tags at its side."""
        return self.tree.kind(vertex) not in RAILS | STORES

    def _sides(self, vertex: Vertex) -> list[Stub]:
        made = []
        for form, chain, far in self.returns.tags.get(vertex, ()):
            said = self._numbered(chain, self.called(far))
            made.append(Stub(f"r{chain.index}", (0, 0), "left", said, form, far[0]))
        for chain in self.returns.crossing(vertex) if self.lone(vertex) else ():
            at_a = chain.a[0] == vertex
            if self.returns.cross[chain.index] != at_a:
                made.append(self.reference(chain, at_a, (chain.b if at_a else chain.a)[0]))
        for port, chain in self.tree.signals.get(vertex, ()):
            at_a = chain.a[0] == vertex and chain.a[1] == port
            both = chain.a[1] in SIGNALS and chain.b[1] in SIGNALS
            if both or self.tree.cross.get(chain.index, True) != at_a:
                far = chain.a if not at_a else chain.b
                stub = self.reference(chain, at_a, far[0])
                made.append(replace(stub, text=f"{stub.text}{self._lead(chain)}") if both and at_a else stub)
        return made

    def _lead(self, chain: Chain) -> str:
        """What is written at a lead that is drawn by its two ends alone."""
        lines = (line for link in chain.links for line in self.words.cables.get(link.cable, ()))
        said = " ".join(text for line in lines for text, _ in line)
        return f", {said}" if said else ""

    def reference(self, chain: Chain, at_a: bool, far: Vertex) -> Stub:
        """One end of an interrupted chain. at_a: the end at its a; the other end is its partner."""
        name = f"{'y' if chain.links[0].role in ('return', 'bond') else 'x'}{chain.index}"
        weight = self.weight(chain.links[0 if at_a else -1], chain.signal)
        return Stub(
            f"{name}{'a' if at_a else 'b'}", (0, 0), "left", self.tag(far) + PLACE, "to" if at_a else "from", far[0],
            f"{name}{'b' if at_a else 'a'}", weight,
        )

    def apart(self, branch: Branch, wide: float, high: float) -> None:
        """Note the size of what hangs at a branch, if it could stand apart from it."""
        kind = self.node(branch.far[0]).kind
        if branch.far[0] in self.tree.wiring.vertices and (kind.name in RAILS | STORES or kind.sort == "end"):
            bank = leads_to_store(self.tree, branch.chain, branch.from_a)
            self.sizes[branch.chain.index] = (wide, high, "bank" if bank else kind.name)

    def is_source(self, vertex: Vertex) -> bool:
        return self.tree.kind(vertex) in GIVES_UP


ANSWERS = {
    "branches": Plan._branches, "sides": Plan._sides, "gathers": lambda plan, key: plan.returns.gathers.get(key, 0),
    "setting": getattr,
}
