"""The JSON Schema of the job file, for editors that complete and check while one types."""

from collections.abc import Iterator, Sequence
from typing import Any

from joinery_templates.drawings.board_patterns import VIEWS
from joinery_templates.jobs import joint_reader, reader, sheets_reader, tools_reader
from joinery_templates.jobs.desk import LONGEST_NOTES, LONGEST_WORDS
from joinery_templates.joints.catalogue import kinds
from joinery_templates.joints.kind import Kind
from joinery_templates.joints.parameter import Parameter, Quantity
from joinery_templates.joints.reading import MOST_LISTED
from joinery_templates.lengths import Units

Schema = dict[str, Any]

SCHEMA_TITLE = "Joinery templates job file"

_LENGTH: Schema = {
    "description": 'A length: a number in the file\'s units, or text such as "3/4 in".',
    "oneOf": [{"type": "number"}, {"type": "string", "minLength": 1, "maxLength": 40}],
}
_NUMBER: Schema = {"oneOf": [{"type": "number"}, {"type": "string", "maxLength": 40}]}
_PLAIN: dict[Quantity, Schema] = {
    Quantity.LENGTH: {"$ref": "#/$defs/length"},
    Quantity.TAPER: {
        "oneOf": [{"type": "string", "examples": ["1:100"]}, {"type": "number", "minimum": 0}]
    },
    Quantity.SLOPE: {"type": "string", "examples": ["1:6", "9.5 deg"]},
    Quantity.NUMBER: _NUMBER,
    Quantity.ANGLE: {
        "oneOf": [{"type": "number"}, {"type": "string", "maxLength": 40, "examples": ["12 deg"]}]
    },
    Quantity.FLAG: {"type": "boolean"},
    Quantity.LENGTHS: {
        "type": "array",
        "minItems": 1,
        "maxItems": MOST_LISTED,
        "items": {"$ref": "#/$defs/length"},
    },
}
"""Quantities that look the same whatever the parameter's limits."""
_WORDS: Schema = {"type": "string", "minLength": 1, "maxLength": LONGEST_WORDS}
_CORNER_NAME: Schema = {**_WORDS, "maxLength": joint_reader.LONGEST_NAME}
_UNITS: Schema = {"enum": [str(unit) for unit in Units]}


def job_schema() -> Schema:
    """The schema (JSON Schema, draft 2020-12)."""
    length = {"$ref": "#/$defs/length"}
    board = _table(dict.fromkeys(reader.BOARD_NAMES, length), ("width", "thickness"))
    margin = {
        "oneOf": [
            *_LENGTH["oneOf"],
            _table(dict.fromkeys(sheets_reader.MARGIN_NAMES, length)),
        ]
    }
    chisels = {"type": "array", "maxItems": tools_reader.MOST_CHISELS, "items": length}
    known = kinds()
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": SCHEMA_TITLE,
        **_table(
            {
                "title": {**_WORDS, "description": "Printed on every page."},
                "units": {**_UNITS, "description": "Units of numbers without one of their own."},
                "figures": {**_UNITS, "description": "Units of printed figures, if others."},
                "notes": {"type": "string", "maxLength": LONGEST_NOTES},
                "paper": _table(
                    {
                        "size": _WORDS,
                        "margin": margin,
                        "overlap": length,
                        "thickness": length,
                        "marks": {"type": "boolean"},
                        "one_per_page": {"type": "boolean"},
                    }
                ),
                "printer": _table(
                    {
                        "name": _WORDS,
                        "date": _WORDS,
                        **dict.fromkeys(("across", "along", "skew"), _NUMBER),
                    }
                ),
                "tools": _table(
                    {
                        "chisels": {"oneOf": [chisels, length]},
                        **dict.fromkeys(("kerf", "smallest_pin", "gauge"), length),
                        "kerf_shown": {"type": "boolean"},
                    }
                ),
                "boards": {
                    "type": "object",
                    "minProperties": 1,
                    "maxProperties": reader.MOST_BOARDS,
                    "propertyNames": {"minLength": 1, "maxLength": reader.LONGEST_NAME},
                    "additionalProperties": board,
                },
                "joints": {
                    "type": "array",
                    "minItems": 1,
                    "maxItems": joint_reader.MOST_JOINTS,
                    "items": {
                        "type": "object",
                        "required": ["kind"],
                        "properties": {"kind": {"enum": list(known)}},
                        "allOf": [_when(kind) for kind in known.values()],
                    },
                },
            },
            ("boards", "joints"),
        ),
        "$defs": {"length": _LENGTH},
    }


def _when(kind: Kind) -> Schema:
    """What a joint of this kind may say."""
    like = {"enum": list(joint_reader.MIRRORED)}
    corner = {"oneOf": [_CORNER_NAME, _table({"name": _CORNER_NAME, "like": like}, ("name",))]}
    view = {"enum": list(VIEWS)}
    corners = {
        "type": "array",
        "minItems": 1,
        "maxItems": joint_reader.MOST_CORNERS,
        "items": corner,
    }
    properties: Schema = {
        "kind": {"const": kind.name},
        "name": _WORDS,
        "corners": {"oneOf": [corners, corner]},
        "seams": {
            "type": "array",
            "maxItems": joint_reader.MOST_SEAMS,
            "items": {"$ref": "#/$defs/length"},
        },
        "front": {"type": "string", "description": "the board at the front and back"},
        "views": {"oneOf": [{"type": "array", "minItems": 1, "items": view}, view]},
        **{role.key: {"type": "string", "description": role.words} for role in kind.roles},
        **{parameter.name: _parameter(parameter) for parameter in kind.parameters},
    }
    return {
        "if": {"properties": {"kind": {"const": kind.name}}, "required": ["kind"]},
        "then": _table(properties, ("kind", *(role.key for role in kind.roles))),
    }


def _parameter(parameter: Parameter) -> Schema:
    described: Schema = {"description": parameter.help}
    if parameter.quantity in _PLAIN:
        return {**described, **_PLAIN[parameter.quantity]}
    if parameter.quantity is Quantity.CHOICE:
        return {**described, "enum": list(parameter.choices)}
    if parameter.quantity is Quantity.TABLE:
        return {**described, "oneOf": list(_table_forms(parameter))}
    whole: Schema = {**described, "type": "integer"}
    if parameter.low is not None:
        whole["minimum"] = int(parameter.low)
    if parameter.high is not None:
        whole["maximum"] = int(parameter.high)
    return whole


def _table_forms(parameter: Parameter) -> Iterator[Schema]:
    """A table, the one word that is short for it, or the table as text, as `quick` writes it."""
    parts = parameter.parts
    needed = [part.name for part in parts if part.needed]
    yield _table({part.name: _parameter(part) for part in parts}, needed)
    yield from ({"enum": list(p.choices)} for p in parts if p.name == parameter.short_for)
    yield {"type": "string", "pattern": "^\\s*\\{"}


def _table(properties: Schema, required: Sequence[str] = ()) -> Schema:
    table: Schema = {
        "type": "object",
        "properties": properties,
        "additionalProperties": False,
    }
    if required:
        table["required"] = list(required)
    return table
