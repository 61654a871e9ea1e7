"""The JSON Schema of the job file, for editors that complete and check while one types."""

from collections.abc import Iterator, Sequence
from typing import Any

from joinery_templates.jobs import tables
from joinery_templates.joints.catalogue import kinds
from joinery_templates.joints.kind import Kind
from joinery_templates.joints.parameter import LISTED, Parameter, Quantity, Table

Schema = dict[str, Any]

SCHEMA_TITLE = "Joinery templates job file"

_LENGTH: Schema = {
    "description": 'A length: a number in the file\'s units, or text such as "3/4 in".',
    "oneOf": [{"type": "number"}, {"type": "string", "minLength": 1, "maxLength": 40}],
}
_PLAIN: dict[Quantity, Schema] = {
    Quantity.LENGTH: {"$ref": "#/$defs/length"},
    Quantity.TAPER: {
        "oneOf": [{"type": "string", "examples": ["1:100"]}, {"type": "number", "minimum": 0}]
    },
    Quantity.SLOPE: {"type": "string", "examples": ["1:6", "9.5 deg"]},
    Quantity.NUMBER: {"oneOf": [{"type": "number"}, {"type": "string", "maxLength": 40}]},
    Quantity.ANGLE: {
        "oneOf": [{"type": "number"}, {"type": "string", "maxLength": 40, "examples": ["12 deg"]}]
    },
    Quantity.FLAG: {"type": "boolean"},
}
"""Quantities that look the same whatever the parameter's limits."""


def job_schema() -> Schema:
    """The schema (JSON Schema, draft 2020-12)."""
    known = kinds()
    parts = {
        **_properties(tables.JobWords),
        **{name: _table(table) for name, table in tables.TABLES.items()},
        "boards": {
            "type": "object",
            "minProperties": 1,
            "maxProperties": tables.MOST_BOARDS,
            "propertyNames": {"minLength": 1, "maxLength": tables.LONGEST_BOARD_NAME},
            "additionalProperties": _table(tables.BoardTable),
        },
        "joints": {
            "type": "array",
            "minItems": 1,
            "maxItems": tables.MOST_JOINTS,
            "items": {
                "type": "object",
                "required": ["kind"],
                "properties": {"kind": {"enum": list(known)}},
                "allOf": [_when(kind) for kind in known.values()],
            },
        },
    }
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": SCHEMA_TITLE,
        **_object(parts, ("boards", "joints")),
        "$defs": {"length": _LENGTH},
    }


def _when(kind: Kind) -> Schema:
    """What a joint of this kind may say."""
    properties = {
        **_properties(tables.JointTable),
        "kind": {"const": kind.name},
        **{role.key: {"type": "string", "description": role.words} for role in kind.roles},
        **_properties(kind.parameter_class),
    }
    return {
        "if": {"properties": {"kind": {"const": kind.name}}, "required": ["kind"]},
        "then": _object(properties, ("kind", *(role.key for role in kind.roles))),
    }


def _properties(table: type[Table]) -> Schema:
    return {
        declared.name: {"description": declared.help, **_value(declared)}
        for declared in table.parameters
    }


def _value(declared: Parameter) -> Schema:
    if declared.quantity in LISTED:
        each = _value(declared.each)
        several = {"minItems": declared.fewest, "maxItems": declared.most, "items": each}
        return {"anyOf": [{"type": "array", **several}, each]}
    if declared.quantity in _PLAIN:
        return _PLAIN[declared.quantity]
    if declared.quantity is Quantity.CHOICE:
        return {"enum": list(declared.choices)}
    if declared.quantity is Quantity.TABLE:
        return {"anyOf": list(_table_forms(declared))}
    least, most = (None if one is None else int(one) for one in (declared.low, declared.high))
    if declared.quantity is Quantity.WORDS:
        return {"type": "string", "minLength": 1 if least is None else least, "maxLength": most}
    return {
        "type": "integer",
        **({} if least is None else {"minimum": least}),
        **({} if most is None else {"maximum": most}),
    }


def _table_forms(declared: Parameter) -> Iterator[Schema]:
    """A table, the one value that is short for it, or the table as text, as `quick` writes it."""
    assert declared.table
    yield _table(declared.table)
    for part in declared.parts:
        if part.name in declared.short_for[:1]:
            yield _value(part)
    yield {"type": "string", "pattern": "^\\s*\\{"}


def _table(table: type[Table]) -> Schema:
    needed = [declared.name for declared in table.parameters if declared.needed]
    return _object(_properties(table), needed)


def _object(properties: Schema, required: Sequence[str]) -> Schema:
    return {
        "type": "object",
        "properties": properties,
        "additionalProperties": False,
        **({"required": list(required)} if required else {}),
    }
