"""The JSON Schema of the job file, for editors that complete and check while one types."""

from collections.abc import Sequence
from typing import Any

from joinery_templates.drawings.board_patterns import VIEWS
from joinery_templates.jobs import reader
from joinery_templates.joints.catalogue import kinds
from joinery_templates.joints.joint import Kind
from joinery_templates.joints.parameter import Parameter, Quantity
from joinery_templates.lengths import Units

Schema = dict[str, Any]

_LENGTH: Schema = {
    "description": 'A length: a number in the file\'s units, or text such as "3/4 in".',
    "oneOf": [{"type": "number"}, {"type": "string", "minLength": 1, "maxLength": 40}],
}
_WORDS: Schema = {"type": "string", "minLength": 1, "maxLength": 200}


def job_schema() -> Schema:
    """The schema (JSON Schema, draft 2020-12)."""
    length = {"$ref": "#/$defs/length"}
    board = _table({name: length for name in reader.BOARD_NAMES}, ("width", "thickness"))
    margin = {
        "oneOf": [
            *_LENGTH["oneOf"],
            _table({name: length for name in reader.MARGIN_NAMES}),
        ]
    }
    known = kinds()
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Joinery templates job file",
        **_table(
            {
                "title": {**_WORDS, "description": "Printed on every page."},
                "units": {"enum": [str(unit) for unit in Units]},
                "notes": {"type": "string", "maxLength": 4000},
                "paper": _table({"size": _WORDS, "margin": margin, "overlap": length}),
                "tools": _table(
                    {
                        "chisels": {"oneOf": [{"type": "array", "items": length}, length]},
                        "kerf": length,
                        "smallest_pin": length,
                    }
                ),
                "boards": {
                    "type": "object",
                    "minProperties": 1,
                    "maxProperties": reader.MOST_BOARDS,
                    "additionalProperties": board,
                },
                "joints": {
                    "type": "array",
                    "minItems": 1,
                    "maxItems": reader.MOST_JOINTS,
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
    corner = {
        "oneOf": [
            {"type": "string", "minLength": 1, "maxLength": 40},
            _table({"name": _WORDS, "like": {"enum": list(reader.MIRRORED)}}),
        ]
    }
    properties: Schema = {
        "kind": {"const": kind.name},
        "name": _WORDS,
        "corners": {"oneOf": [{"type": "array", "minItems": 1, "items": corner}, corner]},
        "views": {"oneOf": [{"type": "array", "items": {"enum": list(VIEWS)}}, {"enum": list(VIEWS)}]},
        **{role.key: {"type": "string", "description": role.words} for role in kind.roles},
        **{parameter.name: _parameter(parameter) for parameter in kind.parameters},
    }
    return {
        "if": {"properties": {"kind": {"const": kind.name}}, "required": ["kind"]},
        "then": _table(properties, ("kind", *(role.key for role in kind.roles))),
    }


def _parameter(parameter: Parameter) -> Schema:
    described: Schema = {"description": parameter.help}
    if parameter.quantity is Quantity.LENGTH:
        return {**described, "$ref": "#/$defs/length"}
    if parameter.quantity is Quantity.SLOPE:
        return {**described, "type": "string", "examples": ["1:6", "9.5 deg"]}
    if parameter.quantity is Quantity.CHOICE:
        return {**described, "enum": list(parameter.choices)}
    whole: Schema = {**described, "type": "integer"}
    if parameter.low is not None:
        whole["minimum"] = int(parameter.low)
    if parameter.high is not None:
        whole["maximum"] = int(parameter.high)
    return whole


def _table(properties: Schema, required: Sequence[str] = ()) -> Schema:
    table: Schema = {
        "type": "object",
        "properties": properties,
        "additionalProperties": False,
    }
    if required:
        table["required"] = list(required)
    return table
