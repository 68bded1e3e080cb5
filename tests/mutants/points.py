"""Where a source text can be changed a little: a comparison turned, an operand or a filter dropped, a number moved."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from typing import NamedTuple

COMPARED = {ast.Lt: ("<", "<="), ast.LtE: ("<=", "<"), ast.Gt: (">", ">="), ast.GtE: (">=", ">"), ast.Eq: ("==", "!="),
            ast.NotEq: ("!=", "=="), ast.In: ("in", "not in"), ast.NotIn: ("not in", "in"), ast.Is: ("is", "is not"),
            ast.IsNot: ("is not", "is")}
COMBINED = {ast.Add: ("+", "-"), ast.Sub: ("-", "+"), ast.Mult: ("*", "/"), ast.Div: ("/", "*"), ast.BitOr: ("|", "&"),
            ast.BitAnd: ("&", "|")}
CALLED = {"min": "max", "max": "min", "any": "all", "all": "any"}
EMPTY = {"tuple": "()", "dict": "{}", "frozenset": "frozenset()", "set": "set()", "list": "[]", "str": '""', "float": "0.0",
         "int": "0"}  # what a function returns instead, by its annotation
NOTHING = ("()", "{}", "[]", "frozenset()", "None")


class Point(NamedTuple):
    """Bytes `start` to `end` of the source become `new`. function: the qualified name of the one it stands in, "" for none."""

    start: int
    end: int
    new: str
    what: str
    line: int
    function: str


def points(source: str) -> list[Point]:
    """Every change that leaves the text a program, in the order of the text's tree."""
    found: dict[tuple[int, int, str], Point] = {}
    for point in Points(source).of(ast.parse(source), None):
        if _parses(changed(source, point)):
            found.setdefault(point[:3], point)
    return list(found.values())


def changed(source: str, point: Point) -> str:
    text = source.encode()
    return (text[:point.start] + point.new.encode() + text[point.end:]).decode()


def _parses(source: str) -> bool:
    try:
        ast.parse(source)
    except SyntaxError:
        return False
    return True


class Points:
    """The changes of one text. Messages (f-strings), docstrings and names of classes are left alone."""

    def __init__(self, source: str):
        self.text = source.encode()
        self.starts = [0]
        for line in self.text.splitlines(keepends=True):
            self.starts.append(self.starts[-1] + len(line))
        self.names: list[str] = []

    def of(self, node: ast.AST, function: ast.FunctionDef | None) -> Iterator[Point]:
        """Those of a node and of all below it."""
        if isinstance(node, ast.FunctionDef | ast.ClassDef):
            inner = isinstance(node, ast.FunctionDef)
            self.names.append(node.name)
            for child in node.body:
                if inner or isinstance(child, ast.FunctionDef):
                    yield from self.of(child, node if inner else None)
            self.names.pop()
        elif isinstance(node, ast.AnnAssign):
            yield from self.of(node.value, function) if node.value else ()
        elif not (_text(node) or function is None and _outside(node)):
            change = getattr(self, f"_{type(node).__name__.lower()}", None)
            yield from change(node, function) if change else ()
            for child in ast.iter_child_nodes(node):
                if not isinstance(child, ast.expr_context):
                    yield from self.of(child, function)

    def _span(self, node) -> tuple[int, int]:
        return self.starts[node.lineno - 1] + node.col_offset, self.starts[node.end_lineno - 1] + node.end_col_offset

    def _source(self, node) -> str:
        start, end = self._span(node)
        return self.text[start:end].decode()

    def _point(self, node, new: str, what: str, span: tuple[int, int] | None = None) -> Point:
        return Point(*(span or self._span(node)), new, what, node.lineno, ".".join(self.names))

    def _between(self, node, left, right, old: str, new: str) -> Iterator[Point]:
        """`old` between two operands becomes `new`."""
        span = self._span(left)[1], self._span(right)[0]
        between = self.text[slice(*span)].decode()
        if old in between:
            yield self._point(node, between.replace(old, new, 1), f"{old} -> {new}", span)

    def _compare(self, node, function) -> Iterator[Point]:
        operands = [node.left, *node.comparators]
        for one in operands:
            for part in one.elts if isinstance(one, ast.Tuple | ast.Set | ast.List) else (one,):
                if isinstance(part, ast.Constant) and isinstance(part.value, str):
                    yield self._point(part, repr(part.value + "~"), f"another text than {part.value!r}")
        for left, right, operator in zip(operands, node.comparators, node.ops):
            yield from self._between(node, left, right, *COMPARED[type(operator)])

    def _binop(self, node, function) -> Iterator[Point]:
        if type(node.op) in COMBINED:
            yield from self._between(node, node.left, node.right, *COMBINED[type(node.op)])

    def _boolop(self, node, function) -> Iterator[Point]:
        joined = isinstance(node.op, ast.And)
        if len(node.values) == 2:
            yield from self._between(node, *node.values, *(("and", "or") if joined else ("or", "and")))
        for value in node.values:
            if self._source(value) not in ("0", "0.0"):  # a default that is as false as what stands for it
                yield self._point(value, "True" if joined else "False", f"drop operand {self._source(value)}")

    def _unaryop(self, node, function) -> Iterator[Point]:
        if isinstance(node.op, ast.Not | ast.USub):
            sign = "not" if isinstance(node.op, ast.Not) else "-"
            yield self._point(node, f"({self._source(node.operand)})", f"drop {sign}")

    def _constant(self, node, function) -> Iterator[Point]:
        if isinstance(node.value, bool):
            yield self._point(node, repr(not node.value), f"not {node.value}")
        elif isinstance(node.value, int):
            yield self._point(node, repr(node.value + 1), f"one more than {node.value}")
        elif isinstance(node.value, float):
            yield self._point(node, repr(node.value * 1.1 if node.value else 1e-3), f"a tenth more than {node.value}")

    def _return(self, node, function) -> Iterator[Point]:
        if node.value is None or function is None or function.returns is None:
            return
        annotation, value = ast.unparse(function.returns), self._source(node.value)
        if annotation == "bool":
            yield self._point(node.value, f"(not ({value}))", "return the opposite")
        elif not isinstance(node.value, ast.Constant) and value not in NOTHING:
            new = EMPTY.get(annotation.partition("[")[0], "None")
            yield self._point(node.value, new, f"return {new}")

    def _expr(self, node, function) -> Iterator[Point]:
        if isinstance(node.value, ast.Yield | ast.YieldFrom):
            yield self._point(node, "yield from ()", "drop yield")
        elif isinstance(node.value, ast.Call):
            yield self._point(node, "pass", "drop statement")

    def _augassign(self, node, function) -> Iterator[Point]:
        yield self._point(node, "pass", "drop statement")

    def _assign(self, node, function) -> Iterator[Point]:
        if all(isinstance(target, ast.Subscript | ast.Attribute) for target in node.targets):
            yield self._point(node, "pass", "drop statement")

    def _continue(self, node, function) -> Iterator[Point]:
        yield self._point(node, "pass", "drop continue")

    def _break(self, node, function) -> Iterator[Point]:
        yield self._point(node, "pass", "drop break")

    def _ifexp(self, node, function) -> Iterator[Point]:
        body, test, other = (self._source(part) for part in (node.body, node.test, node.orelse))
        yield self._point(node, f"({other} if {test} else {body})", "swap if and else")

    def _if(self, node, function) -> Iterator[Point]:
        if not isinstance(node.test, ast.Compare | ast.UnaryOp | ast.BoolOp):
            yield self._point(node.test, f"(not ({self._source(node.test)}))", "the opposite condition")

    def _comprehension(self, node, function) -> Iterator[Point]:
        for test in node.ifs:
            yield self._point(test, "True", f"drop filter {self._source(test)}")

    def _call(self, node, function) -> Iterator[Point]:
        name = node.func.id if isinstance(node.func, ast.Name) else ""
        if name in CALLED:
            yield self._point(node.func, CALLED[name], f"{name} -> {CALLED[name]}")
        first, second = (*node.args, None, None)[:2]
        plain = isinstance(first, ast.Name | ast.Attribute) and isinstance(second, ast.Name | ast.Attribute)
        if plain and name not in ("isinstance", "getattr", "min", "max"):
            span = self._span(first)[0], self._span(second)[1]
            yield self._point(node, f"{self._source(second)}, {self._source(first)}", "swap arguments", span)


def _text(node: ast.AST) -> bool:
    """A message or a docstring."""
    return isinstance(node, ast.JoinedStr) or isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)


def _outside(node: ast.AST) -> bool:
    """A statement outside of functions that is no table of values."""
    if isinstance(node, ast.Assign):
        return isinstance(node.value, ast.Constant) and isinstance(node.value.value, str)
    return isinstance(node, ast.stmt)
