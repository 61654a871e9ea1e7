"""Options made from the parameters that a table declares: their words stand there alone."""

import re

from typer.core import TyperOption

from joinery_templates.cli.messages import mistakes_at_options
from joinery_templates.jobs.tables import JobWords, Written
from joinery_templates.joints.parameter import LISTED, Parameter, Quantity, parameter_of
from joinery_templates.lengths import Units

_SHORT = {
    Quantity.COUNT: "count",
    Quantity.ANGLE: "degrees",
    Quantity.LENGTHS: "lengths",
    Quantity.SLOPES: "slopes",
    Quantity.TABLE: "{ ... }",
    Quantity.TABLES: "names",
}
_FLAGS = {"true": True, "yes": True, "false": False, "no": False}
_UNIT = re.compile(r"[^\d\s.,/½⅓¼⅔¾⅛⅜⅝⅞-]")
"""A sign that makes a length one with a unit of its own."""


def option_for(
    declared: Parameter, name: str = "", words: str = "", sort: str = "", needed: bool = False
) -> TyperOption:
    """The option that gives a parameter.

    Args:
        declared: the parameter.
        name: of the option, where it is not the parameter's own.
        words: what the help says, where it is not what the parameter says of itself.
        sort: what it takes, where the quantity does not say it.
        needed: whether it must be given.
    """

    def written(typed: str) -> Written:
        return as_written(declared, typed)

    name = name or declared.name
    such = f" Such as '{declared.example}'." if declared.quantity is Quantity.TABLE else ""
    return TyperOption(
        param_decls=[name, f"--{name.replace('_', '-')}"],
        type=written,
        required=needed,
        metavar=f"<{sort or sort_of_value(declared)}>",
        help=words or f"{declared.help}{such} [default: {declared.usual}]",
    )


def sort_of_value(declared: Parameter) -> str:
    """What an option takes, in a word or two."""
    if declared.quantity is Quantity.CHOICE:
        return "|".join(declared.choices)
    return _SHORT.get(declared.quantity, str(declared.quantity))


def as_written(declared: Parameter, typed: str) -> Written:
    """What was typed, as a job file says it: yes or no, a list, or the words as they are."""
    plain = typed.strip()
    if declared.quantity is Quantity.FLAG:
        return _FLAGS.get(plain.lower(), typed)
    if declared.quantity not in LISTED:
        return typed
    inside = plain[1:-1] if plain.startswith("[") and plain.endswith("]") else plain
    parts = [_unquoted(part.strip()) for part in inside.split(",")]
    if declared.quantity is not Quantity.LENGTHS:
        return [part for part in parts if part]
    *before, last = parts
    unit = _UNIT.search(last)
    if unit is None or any(_UNIT.search(part) for part in before):
        return parts
    return [*(f"{part} {last[unit.start() :]}" for part in before), last]  # the unit is that of all


def _unquoted(words: str) -> str:
    """Words without quotes around them; a single one at the end is the sign for inches."""
    return words[1:-1] if len(words) > 1 and words[0] == words[-1] in "\"'" else words


def named_units(name: str) -> Units:
    """The units that `--units` names.

    Raises:
        InputError: where it names none.
    """
    with mistakes_at_options():
        return Units(str(parameter_of(JobWords, "units").read(name, Units.MM)))
