"""What a joint can be told, declared once: for job files, `quick`, `joints` and the schema.

A joint lists its parameters as fields of a frozen dataclass, each made by
`parameter`; `parameters_of` reads them back from the class.
"""

import dataclasses
import re
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from typing import Any

from joinery_templates.errors import Finding, InputError, mistake
from joinery_templates.exact import tangent
from joinery_templates.lengths import Units, length_text, read_length, read_number


class Quantity(StrEnum):
    """What kind of value a parameter takes."""

    LENGTH = "length"
    COUNT = "whole number"
    SLOPE = "slope"
    CHOICE = "choice"


STEEPEST_SLOPE = Fraction(1, 2)
FLATTEST_SLOPE = Fraction(1, 60)

_SLOPE_REMEDY = 'Write a ratio such as "1:6" or an angle such as "9.5 deg".'
_RATIO = re.compile(r"\s*([\d./ -]+?)\s*(?::|in)\s*([\d./ -]+?)\s*")
_ANGLE = re.compile(r"\s*([\d.]+)\s*(?:deg|degrees|°)\s*")


@dataclass(frozen=True, slots=True)
class Parameter:
    """One thing that a joint can be told.

    Attributes:
        name: as in the job file.
        quantity: what kind of value.
        help: one sentence for the person.
        rule: in words, what holds where nothing is given.
        default: the value where nothing is given; None where a rule or the layout decides.
        low: the smallest value allowed (mm, a count), or None.
        high: the largest value allowed, or None.
        above: True where `low` itself is not allowed.
        choices: the words allowed of a choice.
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
        if self.quantity is Quantity.CHOICE:
            return " or ".join(f'"{choice}"' for choice in self.choices)
        if self.quantity is Quantity.SLOPE:
            return f"from 1:{1 / STEEPEST_SLOPE} to 1:{1 / FLATTEST_SLOPE}"
        low = "" if self.low is None else f"{'above' if self.above else 'at least'} "
        low += "" if self.low is None else self._bound_text(self.low, units)
        high = "" if self.high is None else f"at most {self._bound_text(self.high, units)}"
        return ", ".join(filter(None, (low, high)))

    def _bound_text(self, bound: Fraction, units: Units) -> str:
        return length_text(bound, units) if self.quantity is Quantity.LENGTH else str(bound)

    def _check_limits(self, value: object, given: object, units: Units) -> None:
        if not isinstance(value, int | Fraction):
            return
        too_low = self.low is not None and (value < self.low or (self.above and value == self.low))
        if too_low or (self.high is not None and value > self.high):
            raise InputError(
                mistake(
                    "out-of-limits",
                    f"{_shown(given)} cannot be used here.",
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
    )
    return dataclasses.field(default=default, metadata={"parameter": declared})


def parameters_of(given_class: type) -> tuple[Parameter, ...]:
    """The parameters that a joint's dataclass declares, in order."""
    return tuple(
        dataclasses.replace(field.metadata["parameter"], name=field.name)
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


def read_slope(given: object) -> Fraction:
    """How much a side leans for each millimetre along it: 1:6 is 1/6.

    Ratios stay exact; an angle becomes a rational within `exact.TANGENT_BOUND`.

    Raises:
        InputError: `slope-unreadable` or `out-of-limits`.
    """
    text = given if isinstance(given, str) else ""
    slope = None
    if len(text) <= 40:
        ratio, angle = _RATIO.fullmatch(text), _ANGLE.fullmatch(text)
        try:
            if ratio:
                rise, run = read_number(ratio[1]), read_number(ratio[2])
                slope = rise / run if min(rise, run) >= 0 else None
            elif angle and 0 < (degrees := read_number(angle[1])) < 80:
                slope = tangent(degrees)
        except (InputError, ZeroDivisionError):
            slope = None
    if slope is None:
        raise InputError(
            mistake("slope-unreadable", f"{_shown(given)} is not a slope.", _SLOPE_REMEDY)
        )
    if not FLATTEST_SLOPE <= slope <= STEEPEST_SLOPE:
        raise InputError(
            mistake(
                "out-of-limits",
                f"A slope of {_shown(given)} cannot be cut as a dovetail.",
                "Custom is 1:5 to 1:8; this program draws 1:2 to 1:60.",
            )
        )
    return slope


def _read_length(_: Parameter, given: object, units: Units) -> Fraction:
    return read_length(given, units)


def _read_count(_: Parameter, given: object, __: Units) -> int:
    if isinstance(given, str) and re.fullmatch(r"[0-9]{1,6}", given.strip()):
        return int(given)
    if isinstance(given, bool) or not isinstance(given, int):
        raise InputError(
            mistake("count-unreadable", f"{_shown(given)} is not a whole number.", "Write digits.")
        )
    return given


def _read_slope(_: Parameter, given: object, __: Units) -> Fraction:
    return read_slope(given)


def _read_choice(declared: Parameter, given: object, units: Units) -> str:
    if not isinstance(given, str) or given not in declared.choices:
        raise InputError(
            mistake(
                "choice-unknown",
                f"{_shown(given)} is not one of the choices.",
                f"Write {declared.limits_text(units)}.",
            )
        )
    return given


_READERS = {
    Quantity.LENGTH: _read_length,
    Quantity.COUNT: _read_count,
    Quantity.SLOPE: _read_slope,
    Quantity.CHOICE: _read_choice,
}


def _shown(given: object) -> str:
    text = str(given)
    return repr(text if len(text) <= 40 else text[:40] + "…")
