"""The JSON Schema of a netlist, made from the kinds' own fields: for completion, hover and checks in an editor.

It says what may be written where. What a path means and which nodes there are only the reader knows. Values are as
YAML 1.2 reads them: `yes` and `no` are words, `4` and `0.5` are numbers.
"""

from __future__ import annotations

import re
from typing import Any

from diagrammer.kinds import KINDS
from diagrammer.kinds.kind import SHARED, Field, Form, Kind
from diagrammer.netlist import circuits, wires
from diagrammer.netlist.fields import MANY
from diagrammer.netlist.read import KEYS
from diagrammer.netlist.sections import PRACTICES, SHEET, SITE
from diagrammer.netlist.wire_fields import MATERIALS, PLACES
from diagrammer.quantity import ALIKE, DIMENSIONS

Schema = dict[str, Any]

DIALECT = "https://json-schema.org/draft/2020-12/schema"
NUMBER = r"[-+\u2212]?([0-9]+(\.[0-9]+)?|\.[0-9]+|([0-9]+ +)?[0-9]+/[0-9]+)"
SIZE = r"([1-4]/0 *(AWG)?|[0-9]+ *AWG|[0-9]+(\.[0-9]+)? *(mm²|mm2|kcmil))"
TEXT: Schema = {"type": ["string", "number", "boolean"]}
PATH: Schema = {"type": "string", "pattern": "->|/"}
ACCEPT: Schema = {
    "type": "object", "additionalProperties": TEXT,
    "description": "findings accepted here: the rule's name and the reason",
}


def schema() -> Schema:
    """The whole schema, alike at every call."""
    kinds = {kind.name: _kind(kind) for kind in KINDS.values()}
    return {
        "$schema": DIALECT, "title": "Netlist of an off-grid electrical system",
        "type": "object", "required": ["nodes", "circuits"], "additionalProperties": False,
        "properties": {key: _SECTIONS[key] for key in KEYS},
        "$defs": {"node": _node(), "circuit": _circuit(), "wire": _wire(), **kinds},
    }


def _ref(name: str) -> Schema:
    return {"$ref": f"#/$defs/{name.replace(' ', '%20')}"}


def _node() -> Schema:
    """Of a kind, or of a part that has one."""
    by_kind = [{"if": {"properties": {"kind": {"const": name}}, "required": ["kind"]}, "then": _ref(name)}
               for name in KINDS]
    return {
        "type": "object", "anyOf": [{"required": ["kind"]}, {"required": ["part"]}],
        "properties": {"kind": {"enum": list(KINDS)}, "part": TEXT}, "allOf": by_kind,
    }


def _kind(kind: Kind) -> Schema:
    fields = {field.name: _field(field) for field in (*kind.fields, *SHARED)}
    needed: list[Schema] = [{"required": [field.name for field in kind.fields if field.required]}]
    needed += [{"anyOf": [{"required": [name]} for name in group]} for group in kind.either]
    return {
        "description": kind.says, "additionalProperties": False,
        "properties": {"kind": {"const": kind.name}, **fields, "accept": ACCEPT},
        "anyOf": [{"required": ["part"]}, {"allOf": needed}],
    }


def _field(field: Field) -> Schema:
    units = " or ".join(f"in {', '.join(list(DIMENSIONS[one][1])[:3])}" for one in field.form.dimensions)
    made = _FORMS[field.form.sort](field)
    if field.default is not None:
        made["default"] = ("no", "yes")[field.default] if field.form.sort == "yes/no" else field.default
    return {**made, "description": "; ".join(part for part in (field.says, units) if part)}


def _units(form: Form) -> str:
    """All spellings of the units, also with signs that look alike."""
    spelt = [unit for dimension in form.dimensions for unit in DIMENSIONS[dimension][1]]
    alike = [unit.replace(sign, like) for unit in spelt for like, sign in ALIKE.items() if sign in unit]
    return "|".join(re.escape(unit) for unit in (*spelt, *alike)).replace(r"\%", "%").replace(r"\ ", " ")


def _quantity(field: Field) -> Schema:
    feet = "([0-9]+ *ft +)?" if "length" in field.form.dimensions else ""
    return {"type": "string", "pattern": f"^{feet}{NUMBER} *({_units(field.form)})$"}


def _window(field: Field) -> Schema:
    units = _units(field.form)
    return {"type": "string", "pattern": rf"^({NUMBER} *({units})?\s*\.\.\s*)?{NUMBER} *({units})$"}


def _word(field: Field) -> Schema:
    words = field.form.words
    return {"enum": [*words, *(int(word) for word in words if word.isdigit())]}


def _count(field: Field) -> Schema:
    return {"type": "integer", "minimum": int(field.least or 1), "maximum": int(field.most or MANY)}


def _number(field: Field) -> Schema:
    bounds = {key: bound for key, bound in (("minimum", field.least), ("maximum", field.most)) if bound is not None}
    bare = {"type": "number", **bounds}
    return {"anyOf": [bare, _quantity(field)]} if field.form.dimensions else bare


def _names(field: Field) -> Schema:
    return {"anyOf": [TEXT, {"type": "array", "items": TEXT, "minItems": 1}]}


def _ports(field: Field) -> Schema:
    return {"type": "object", "minProperties": 1, "additionalProperties": {"enum": ["dc", "lead", "ac"]}}


def _positions(field: Field) -> Schema:
    joined = {"type": "string", "pattern": r"^none$|^[\w-]+(\+[\w-]+)+(\s+[\w-]+(\+[\w-]+)+)*$"}
    return {"type": "object", "minProperties": 1, "additionalProperties": joined}


_FORMS = {
    "quantity": _quantity, "window": _window, "word": _word, "count": _count, "number": _number, "nodes": _names,
    "ports": _ports, "positions": _positions, "yes/no": lambda field: {"enum": ["yes", "no"]},
    "text": lambda field: dict(TEXT), "node": lambda field: dict(TEXT),
}


def _circuit() -> Schema:
    paths: Schema = {role: PATH for role in circuits.ROLES} | {"return": {"anyOf": [{"const": "none"}, PATH]}}
    others = {"name": TEXT, "wire": _ref("wire"), "accept": ACCEPT, "note": TEXT}
    alone = [{"required": [role],
              "not": {"anyOf": [{"required": [other]} for other in circuits.ROLES if other not in (role, also)]}}
             for role, also in (("feed", "return"), ("return", "feed"), ("ac", ""), ("series", ""), ("bond", ""))]
    return {
        "type": "object", "additionalProperties": False, "anyOf": alone,
        "properties": {key: paths.get(key) or others[key] for key in circuits.KEYS},
    }


def _wire() -> Schema:
    length = _quantity(Field("length", Form("quantity", ("length",))))["pattern"].strip("^$")
    run = {"type": "string", "pattern": rf"^([0-9]+ +parallel *)?({SIZE})? *({length})?$", "minLength": 1}
    runs = {"type": "array", "items": run, "minItems": 1}
    known: Schema = {
        **_SIZED, "earth": _SIZED["size"], "length": {"type": "string", "pattern": f"^{length}$"}, "hops": runs,
        "cores": {"type": "string"}, "feed": _ref("wire"), "return": _ref("wire"), **_conductor(),
    }
    entries = {"type": "object", "additionalProperties": False, "properties": {key: known[key] for key in wires.KEYS}}
    return {"anyOf": [run, runs, entries]}


def _conductor() -> Schema:
    """What a wire is made of and where it runs."""
    degrees = _quantity(Field("", Form("quantity", ("temperature",))))
    places = {"enum": list(PLACES)}
    return {
        "parallel": {"type": "integer", "minimum": 1}, "bundle": {"type": "integer", "minimum": 1},
        "insulation": degrees, "ambient": degrees, "material": {"enum": list(MATERIALS)}, "terminals": TEXT,
        "terminations": {**degrees, "description": "what the terminals at both ends are marked for (NEC 110.14(C))"},
        "in": {"anyOf": [{"type": "string"}, {"type": "array", "items": places}]},
    }


_SIZED = {"size": {"type": "string", "pattern": f"^{SIZE}$"}}
_SECTIONS: Schema = {
    "title": TEXT,
    "practice": {"enum": list(PRACTICES),
                 "description": "which published tables, units, colours and mains voltages apply"},
    "site": {"type": "object", "additionalProperties": False,
             "properties": {field.name: _field(field) for field in SITE}},
    "parts": {"type": "array", "items": {"type": "string"},
              "description": "files with named parts, below the netlist's folder"},
    "wire": {"type": "object", "additionalProperties": False, "properties": {**_conductor(), **_SIZED}},
    "sheet": {"type": "object", "additionalProperties": False, "properties": {name: TEXT for name in SHEET}},
    "nodes": {"type": "object", "propertyNames": {"pattern": r"^\w([\w-]*\w)?$", "maxLength": 80},
              "additionalProperties": _ref("node")},
    "circuits": {"type": "array", "items": _ref("circuit")},
    "interlocks": {"type": "array", "items": {"type": "array", "items": TEXT, "minItems": 2}},
    "states": {"type": "object", "additionalProperties": {"type": "object", "additionalProperties": TEXT}},
}
