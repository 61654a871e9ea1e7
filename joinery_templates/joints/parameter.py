"""What a joint can be told, declared once: for job files, `quick`, `joints` and the schema.

A joint lists its parameters as fields of a frozen dataclass, each made by
`parameter`; `parameters_of` reads them back from the class.
"""

import dataclasses
from collections.abc import Callable, Mapping
from enum import StrEnum
from fractions import Fraction
from typing import Any

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.errors import Finding, InputError, mistake
from joinery_templates.joints.reading import (
    FLATTEST_SLOPE,
    STEEPEST_SLOPE,
    read_angle,
    read_count,
    read_flag,
    read_lengths,
    read_slope,
    read_taper,
    shown,
    table_from_text,
)
from joinery_templates.lengths import Units, length_text, mm_text, read_length, read_number

__all__ = [
    "Parameter",
    "Quantity",
    "parameter",
    "parameters_of",
    "read_parameters",
    "read_slope",
]


class Quantity(StrEnum):
    """What kind of value a parameter takes."""

    LENGTH = "length"
    COUNT = "whole number"
    SLOPE = "slope"
    TAPER = "taper"
    CHOICE = "choice"
    NUMBER = "number"
    ANGLE = "angle in degrees"
    FLAG = "true or false"
    LENGTHS = "list of lengths"
    TABLE = "table"


class Parameter(Struct, frozen=True):
    """One thing that a joint can be told.

    Attributes:
        name: as in the job file.
        quantity: what kind of value.
        help: one sentence for the person.
        rule: in words, what holds where nothing is given.
        default: the value where nothing is given; None where a rule or the layout decides.
        low: the smallest value allowed (mm, degrees, a count), or None.
        high: the largest value allowed, or None.
        above: True where `low` itself is not allowed.
        choices: the words allowed of a choice.
        needed: True where it cannot be left out of its table.
        table: of a table, the dataclass whose fields are its parts.
        short_for: of a table, the part that a single word stands for, empty if none.
        example: of a table, how it is written.
    """

    name: str
    quantity: Quantity
    help: str
    rule: str = ""
    default: object = None
    low: Fraction | None = None
    high: Fraction | None = None
    above: bool = False
    choices: tuple[str, ...] = ()
    needed: bool = False
    table: type | None = None
    short_for: str = ""
    example: str = ""

    @property
    def parts(self) -> tuple["Parameter", ...]:
        """Of a table, what can stand in it; else nothing."""
        return parameters_of(self.table) if self.table else ()

    def read(self, given: object, units: Units) -> object:
        """The value from what stands in a job file or on the command line.

        Raises:
            InputError: naming the value, the parameter and the remedy; its place is the name.
        """
        try:
            value = _READERS[self.quantity](self, given, units)
            self._check_limits(value, given, units)
        except InputError as error:
            raise error.at(self.name) from None
        return value

    def limits_text(self, units: Units) -> str:
        """The limits in words, empty where there are none."""
        told = {
            Quantity.CHOICE: " or ".join(f'"{choice}"' for choice in self.choices),
            Quantity.SLOPE: f"from 1:{1 / STEEPEST_SLOPE} to 1:{1 / FLATTEST_SLOPE}",
            Quantity.TABLE: f"a table of {', '.join(part.name for part in self.parts)}",
            Quantity.LENGTHS: "each above 0",
            Quantity.FLAG: "true or false",
            Quantity.TAPER: f"0, or to 1:{self.high}",
        }
        if self.quantity in told:
            return told[self.quantity]
        low = "" if self.low is None else f"{'above' if self.above else 'at least'} "
        low += "" if self.low is None else self._bound_text(self.low, units)
        high = "" if self.high is None else f"at most {self._bound_text(self.high, units)}"
        return ", ".join(filter(None, (low, high)))

    def _bound_text(self, bound: Fraction, units: Units) -> str:
        if self.quantity is Quantity.ANGLE:
            return f"{bound}°"
        if self.quantity is not Quantity.LENGTH:
            return str(bound)
        exact = length_text(bound, units)
        return mm_text(bound) if "≈" in exact else exact

    def _check_limits(self, value: object, given: object, units: Units) -> None:
        if not isinstance(value, int | Fraction):
            return
        too_low = self.low is not None and (value < self.low or (self.above and value == self.low))
        if too_low or (self.high is not None and value > self.high):
            raise InputError(
                mistake(
                    "out-of-limits",
                    f"{shown(given)} cannot be used here.",
                    f"It must be {self.limits_text(units)}.",
                )
            )


def parameter(
    quantity: Quantity,
    help: str,  # noqa: A002
    rule: str = "",
    default: object = None,
    low: object = None,
    high: object = None,
    above: bool = False,
    choices: tuple[str, ...] = (),
    needed: bool = False,
    table: type | None = None,
    short_for: str = "",
    example: str = "",
) -> Any:
    """A dataclass field that declares a parameter; see `Parameter` for the arguments."""
    declared = Parameter(
        name="",
        quantity=quantity,
        help=help,
        rule=rule,
        default=default,
        low=None if low is None else read_number(low),
        high=None if high is None else read_number(high),
        above=above,
        choices=choices,
        needed=needed,
        table=table,
        short_for=short_for,
        example=example,
    )
    return dataclasses.field(default=default, metadata={"parameter": declared})


def parameters_of(given_class: type) -> tuple[Parameter, ...]:
    """The parameters that a joint's dataclass declares, in order."""
    return tuple(
        replace(field.metadata["parameter"], name=field.name)
        for field in dataclasses.fields(given_class)
    )


def read_parameters(given_class: type, raw: Mapping[str, object], units: Units) -> Any:
    """An instance of a joint's dataclass from raw values by name; unknown names are not looked at.

    Raises:
        InputError: with every mistake among the values.
    """
    values: dict[str, object] = {}
    findings: list[Finding] = []
    for declared in parameters_of(given_class):
        if declared.name in raw:
            try:
                values[declared.name] = declared.read(raw[declared.name], units)
            except InputError as error:
                findings.extend(error.findings)
    if findings:
        raise InputError(*findings)
    return given_class(**values)


def _read_choice(declared: Parameter, given: object, units: Units) -> str:
    if not isinstance(given, str) or given not in declared.choices:
        raise InputError(
            mistake(
                "choice-unknown",
                f"{shown(given)} is not one of the choices.",
                f"Write {declared.limits_text(units)}.",
            )
        )
    return given


def _read_table(declared: Parameter, given: object, units: Units) -> Any:
    table = given
    if isinstance(given, str):
        word = next((part for part in declared.parts if part.name == declared.short_for), None)
        table = {word.name: given} if word and given in word.choices else table_from_text(given)
    if not isinstance(table, Mapping):
        raise InputError(
            mistake(
                "not-a-table",
                f"{shown(given)} is not a table of this kind.",
                f"Write for example {declared.example}.",
            )
        )
    names = [part.name for part in declared.parts]
    findings = [
        mistake(
            "unknown-name",
            f"The name {shown(name)} means nothing here.",
            f"Known here: {', '.join(names)}.",
            name if name.isidentifier() else "",
        )
        for name in table
        if name not in names
    ]
    findings += [
        mistake("missing", f"{part.name} is missing.", f"Write for example {declared.example}.")
        for part in declared.parts
        if part.needed and part.name not in table
    ]
    if findings:
        raise InputError(*findings)
    assert declared.table
    return read_parameters(declared.table, table, units)


_READERS: Mapping[Quantity, Callable[[Parameter, object, Units], object]] = {
    Quantity.LENGTH: lambda _, given, units: read_length(given, units),
    Quantity.COUNT: lambda _, given, __: read_count(given),
    Quantity.SLOPE: lambda _, given, __: read_slope(given),
    Quantity.TAPER: lambda _, given, __: read_taper(given),
    Quantity.CHOICE: _read_choice,
    Quantity.NUMBER: lambda _, given, __: read_number(given),
    Quantity.ANGLE: lambda _, given, __: read_angle(given),
    Quantity.FLAG: lambda _, given, __: read_flag(given),
    Quantity.LENGTHS: lambda _, given, units: read_lengths(given, units),
    Quantity.TABLE: _read_table,
}
