"""What can be said in a table, declared once: for job files, their schema, starters and options.

A `Table` is a class whose attributes are its parameters, each made by `parameter`. So a joint
declares what it can be told, and the job file what stands in its other tables.
"""

import difflib
import re
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from enum import StrEnum
from typing import Any, ClassVar, Self, dataclass_transform

from msgspec import Struct, json
from msgspec.structs import replace

from joinery_templates.errors import Finding, InputError, mistake, refusal, refuse
from joinery_templates.exact import Fraction
from joinery_templates.joints import reading
from joinery_templates.joints.reading import clipped, read_slope, shown, sort_of
from joinery_templates.lengths import (
    Units,
    decimal_text,
    length_text,
    mm_text,
    read_length,
    read_number,
)

MOST_LISTED = 401
"""No list of lengths is longer: 201 tails and the pins between them."""
NONE: Mapping[str, str] = {}
_MOST_UNKNOWN = 50
"""Unknown names told of one table: nobody reads on."""


class Quantity(StrEnum):
    """What kind of value a parameter takes."""

    WORDS = "text"
    LENGTH = "length"
    COUNT = "whole number"
    SLOPE = "slope"
    TAPER = "taper"
    CHOICE = "choice"
    NUMBER = "number"
    ANGLE = "angle in degrees"
    FLAG = "true or false"
    TABLE = "parts in braces"
    LENGTHS = "list of lengths"
    SLOPES = "list of slopes"
    CHOICES = "list of choices"
    TABLES = "list of parts in braces"


LISTED = {
    Quantity.LENGTHS: Quantity.LENGTH,
    Quantity.SLOPES: Quantity.SLOPE,
    Quantity.CHOICES: Quantity.CHOICE,
    Quantity.TABLES: Quantity.TABLE,
}
"""Of what a list is made; where one thing is wanted alone, it need not stand in a list."""


class Parameter(Struct, frozen=True):
    """One thing that can be said in a table.

    Attributes:
        name: as in the job file.
        quantity: what kind of value.
        help: one sentence for the person.
        rule: in words, what holds where nothing is given.
        default: the value where nothing is given; None where a rule or the layout decides.
        low: the smallest value allowed (mm, degrees, a count, letters), or None.
        high: the largest value allowed, or None.
        above: True where `low` itself is not allowed.
        choices: the words allowed of a choice.
        any_case: True where a choice may also be written in small letters.
        needed: True where it cannot be left out of its table.
        table: of a table, its class.
        short_for: of a table, the parts that a single value stands for.
        fewest: of a list, how many there are at least.
        most: of a list, how many there are at most.
        example: how it is written.
        refusal: what is said of a value that is not allowed, with {} for the value.
        then: what makes of the value that was read the one that is kept.
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
    any_case: bool = False
    needed: bool = False
    table: "type[Table] | None" = None
    short_for: tuple[str, ...] = ()
    fewest: int = 1
    most: int = MOST_LISTED
    example: str = ""
    refusal: str = ""
    then: Callable[[Any, Units], object] | None = None

    @property
    def parts(self) -> tuple["Parameter", ...]:
        """Of a table, what can stand in it; else nothing."""
        return self.table.parameters if self.table else ()

    @property
    def each(self) -> "Parameter":
        """Of a list, what each value in it must be; else the parameter itself."""
        return replace(self, quantity=LISTED.get(self.quantity, self.quantity))

    @property
    def usual(self) -> str:
        """What holds where nothing is given, in words."""
        is_flag = self.quantity is Quantity.FLAG
        return self.rule or (str(self.default).lower() if is_flag else str(self.default))

    def read(self, given: object, units: Units) -> object:
        """The value from what stands in a job file or on the command line.

        Raises:
            InputError: naming the value, the parameter and the remedy; its place is the name.
        """
        try:
            return self._read(given, units)
        except InputError as error:
            raise error.at(self.name) from None

    def limits_text(self, units: Units) -> str:
        """The limits in words, empty where there are none."""
        steepest, flattest = 1 / reading.STEEPEST_SLOPE, 1 / reading.FLATTEST_SLOPE
        words = {
            Quantity.WORDS: f"at most {self.high} letters",
            Quantity.CHOICE: _either(self.choices),
            Quantity.SLOPE: f"from 1:{steepest} to 1:{flattest}",
            Quantity.TABLE: f"in braces: {', '.join(part.name for part in self.parts)}",
            Quantity.FLAG: "true or false",
            Quantity.TAPER: f"0, or to 1:{self.high}",
        }
        if self.quantity in LISTED:
            return f"each {self.each.limits_text(units)}"
        if self.quantity in words:
            return words[self.quantity]
        low = "" if self.low is None else self._bound_text(self.low, units)
        high = "" if self.high is None else self._bound_text(self.high, units)
        if low and high and not self.above:
            return f"from {low} to {high}"
        low = low and f"{'above' if self.above else 'at least'} {low}"
        return " and ".join(filter(None, (low, high and f"at most {high}")))

    def _bound_text(self, bound: Fraction, units: Units) -> str:
        if self.quantity is Quantity.ANGLE:
            return f"{bound}°"
        if self.quantity is not Quantity.LENGTH:
            return decimal_text(bound, 3)
        told = length_text(bound, units)
        return told if read_length(told.lstrip("≈"), units) == bound else mm_text(bound)

    def _read(self, given: object, units: Units) -> object:
        if self.quantity in LISTED:
            return _read_list(self, given, units)
        try:
            value = _READERS[self.quantity](self, given, units)
            self._check_limits(value, given, units)
            return self.then(value, units) if self.then else value
        except InputError as error:
            raise InputError(*(reading.with_point(one, given) for one in error.findings)) from None

    def _check_limits(self, value: object, given: object, units: Units) -> None:
        if not isinstance(value, int | Fraction):
            return
        too_low = self.low is not None and (value < self.low or (self.above and value == self.low))
        if too_low or (self.high is not None and value > self.high):
            size = "small" if too_low else "large"
            message = self.refusal.format(shown(given)) or f"{shown(given)} is too {size}."
            remedy = f"It must be {self.limits_text(units)}"
            if self.quantity is Quantity.LENGTH and _is_bare(given):
                remedy += f"; a number without a unit is in {units} here"
            raise refusal("out-of-limits", message, f"{remedy}.")


def parameter(
    quantity: Quantity,
    help: str,  # noqa: A002
    *,
    low: object = None,
    high: object = None,
    **declared: Any,
) -> Any:
    """What a `Table` can be told, as an attribute of it; see `Parameter` for the arguments."""
    return Parameter(
        name="",
        quantity=quantity,
        help=help,
        low=None if low is None else read_number(low),
        high=None if high is None else read_number(high),
        **declared,
    )


@dataclass_transform(frozen_default=True, kw_only_default=True)
class Table:
    """What stands in a table; a class of it has a `parameter` for each name.

    It is made from values by name; the parameters that are left out have their defaults. It
    cannot be changed, and equals another of its class that says the same.

    Attributes:
        parameters: in order, those that are shared with other tables first.
        unclear: by name, what to write instead of one that could mean two things.
    """

    parameters: ClassVar[tuple[Parameter, ...]] = ()
    unclear: ClassVar[Mapping[str, str]] = NONE

    def __init_subclass__(cls) -> None:
        declared = {
            name: value
            for table in reversed(cls.__mro__)
            for name, value in vars(table).items()
            if isinstance(value, Parameter)
        }
        cls.parameters = tuple(replace(one, name=name) for name, one in declared.items())

    def __init__(self, **given: Any) -> None:
        values = {declared.name: declared.default for declared in self.parameters}
        if unknown := given.keys() - values:
            raise TypeError(f"{type(self).__name__} has no {', '.join(sorted(unknown))}")
        vars(self).update(values | given)

    def __setattr__(self, name: str, value: object) -> None:
        raise AttributeError(f"{type(self).__name__}.{name} cannot be changed")

    def __eq__(self, other: object) -> bool:
        return type(self) is type(other) and vars(self) == vars(other)

    def __hash__(self) -> int:
        return hash(tuple(vars(self).values()))

    def __repr__(self) -> str:
        said = (f"{name}={value!r}" for name, value in vars(self).items())
        return f"{type(self).__name__}({', '.join(said)})"

    def contradictions(self) -> Iterator[Finding]:
        """What is wrong with values that are right by themselves."""
        yield from ()

    def but(self, **changed: Any) -> Self:
        """The same but for some values."""
        return type(self)(**vars(self) | changed)


def parameter_of(table: type[Table], name: str) -> Parameter:
    """The parameter of a name that a table's class declares."""
    return next(declared for declared in table.parameters if declared.name == name)


def names_of(table: type[Table]) -> tuple[str, ...]:
    """The names of a table's parameters, in order."""
    return tuple(declared.name for declared in table.parameters)


def read_table(
    table: type[Table], given: Mapping[str, object], units: Units, example: str = ""
) -> Any:
    """An instance of a table's class from all that stands in the table.

    Args:
        table: the class.
        given: what stands there.
        units: of bare numbers.
        example: how the whole table is written, for a remedy.

    Raises:
        InputError: with every mistake; also where a name is unknown, or a needed one missing.
    """
    findings = list(unknown_names(given, names_of(table), table.unclear))
    findings += [
        mistake(
            "missing",
            f"The {declared.name} is missing.",
            f"Write for example {example}." if example else f"Write {declared.name} = …",
        )
        for declared in table.parameters
        if declared.needed and declared.name not in given
    ]
    read = None
    try:
        read = read_parameters(table, given, units)
    except InputError as error:
        findings.extend(error.findings)
    findings += read.contradictions() if read else ()
    refuse(findings)
    return read


def read_parameters(table: type[Table], raw: Mapping[str, object], units: Units) -> Any:
    """An instance of a table's class from raw values by name; unknown names are not looked at.

    Raises:
        InputError: with every mistake among the values.
    """
    values: dict[str, object] = {}
    findings: list[Finding] = []
    for declared in table.parameters:
        if declared.name in raw:
            try:
                values[declared.name] = declared.read(raw[declared.name], units)
            except InputError as error:
                findings.extend(error.findings)
    refuse(findings)
    return table(**values)


def unknown_names(
    given: Iterable[str], known: Collection[str], unclear: Mapping[str, str] = NONE
) -> Iterator[Finding]:
    """Each name that means nothing, with the nearest that does; its place is the name.

    Args:
        given: the names.
        known: those that mean something.
        unclear: by name, what to write instead of one that could mean two things.

    A name that is no plain word stands there in quotes, as in the file.
    """
    unknown = [name for name in given if name not in known]
    for name in unknown[: _MOST_UNKNOWN + 1]:
        key = clipped(name).casefold().replace("-", "_").replace(" ", "_")
        remedy = unclear.get(name) or guessed(key, known) or f"Known here: {', '.join(known)}."
        message = f'Unknown name "{clipped(name)}".'
        place = name if re.fullmatch(r"[A-Za-z0-9_-]+", name) else json.encode(name).decode()
        yield mistake("unknown-name", message, remedy, place)


def guessed(written: str, known: Collection[str]) -> str:
    """A question whether the nearest known word was meant; empty where none is near."""
    near = difflib.get_close_matches(written, known, n=1, cutoff=0.6)
    return f'Did you mean "{near[0]}"?' if near else ""


def as_table(given: object, what: str, remedy: str) -> Mapping[str, object]:
    """What is given, if it is a table.

    Raises:
        InputError: `not-a-table`, where it is none.
    """
    if isinstance(given, Mapping):
        return given
    message = f"For {what} {sort_of(given)} alone is not enough."
    raise refusal("not-a-table", message, remedy)


def listed(value: object) -> list[object]:
    """A list as it is, a single value as a list of one."""
    return value if isinstance(value, list) else [value]


def _is_bare(given: object) -> bool:
    """Whether a length has no unit of its own, and would be another in other units."""
    try:
        return read_number(given) != 0
    except InputError:
        return False


def _read_list(declared: Parameter, given: object, units: Units) -> tuple[object, ...]:
    values = listed(given)
    if not declared.fewest <= len(values) <= declared.most:
        is_over = len(values) > declared.most
        message = f"{len(values)} {declared.name} are listed."
        remedy = f"At most {declared.most}." if is_over else "Name one, or leave the line out."
        raise refusal("too-many" if is_over else "too-few", message, remedy)
    read: list[object] = []
    findings: list[Finding] = []
    each = declared.each
    for number, value in enumerate(values):
        try:
            read.append(each._read(value, units))
        except InputError as error:
            there = error.at(f"[{number}]") if isinstance(given, list) else error
            findings.extend(there.findings)
    refuse(findings)
    return tuple(read)


def _read_choice(declared: Parameter, given: object, units: Units) -> str:
    written = given.upper() if isinstance(given, str) and declared.any_case else given
    if isinstance(written, str) and written in declared.choices:
        return written
    message = (declared.refusal or "{} is not one of the choices.").format(shown(given))
    guess = guessed(clipped(given).lower(), declared.choices) if isinstance(given, str) else ""
    remedy = " ".join(filter(None, (guess, f"Write {declared.limits_text(units)}.")))
    raise refusal("choice-unknown", message, remedy)


def _either(choices: Sequence[str]) -> str:
    """The choices in words: "one", "two" or "three"."""
    quoted = [f'"{choice}"' for choice in choices]
    return " or ".join(filter(None, (", ".join(quoted[:-1]), *quoted[-1:])))


def _read_table(declared: Parameter, given: object, units: Units) -> Any:
    assert declared.table
    is_text = isinstance(given, str) and given.lstrip().startswith("{")
    if declared.short_for and not is_text and not isinstance(given, Mapping):
        try:
            return read_parameters(declared.table, dict.fromkeys(declared.short_for, given), units)
        except InputError as error:  # the same of each of the parts
            alike = dict.fromkeys(replace(one, place="") for one in error.findings)
            raise InputError(*alike) from None
    read = reading.table_from_text(str(given)) if is_text else None
    remedy = f"Write for example {declared.example}."
    table = as_table(given if read is None else read, declared.name, remedy)
    return read_table(declared.table, table, units, declared.example)


_READERS: Mapping[Quantity, Callable[[Parameter, object, Units], object]] = {
    Quantity.WORDS: lambda declared, given, _: reading.read_words(
        given, int(declared.high or MOST_LISTED), declared.low == 0
    ),
    Quantity.LENGTH: lambda _, given, units: read_length(given, units),
    Quantity.COUNT: lambda _, given, __: reading.read_count(given),
    Quantity.SLOPE: lambda _, given, __: read_slope(given),
    Quantity.TAPER: lambda _, given, __: reading.read_taper(given),
    Quantity.CHOICE: _read_choice,
    Quantity.NUMBER: lambda _, given, __: read_number(given),
    Quantity.ANGLE: lambda _, given, __: reading.read_angle(given),
    Quantity.FLAG: lambda _, given, __: reading.read_flag(given),
    Quantity.TABLE: _read_table,
}
