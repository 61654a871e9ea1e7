"""Parameters that joints of several families have, or that are declared alike."""

from typing import Any

from msgspec.structs import replace

from joinery_templates.exact import Fraction
from joinery_templates.joints.parameter import Quantity, Table, parameter, parameter_of

REFERENCE, FAR = "reference", "far"
"""The edges of a board, as a choice."""


def size_parameter(words: str, rule: str, **declared: Any) -> Any:
    """A length above 0; where it is not given a rule decides. For more see `Parameter`."""
    return parameter(Quantity.LENGTH, words, rule=rule, low=0, above=True, **declared)


def distance_parameter(words: str, rule: str, **declared: Any) -> Any:
    """A length that may be 0; where it is not given a rule decides. For more see `Parameter`."""
    return parameter(Quantity.LENGTH, words, rule=rule, low=0, **declared)


def sizes_parameter(words: str, rule: str, **declared: Any) -> Any:
    """A list of lengths above 0. For more see `Parameter`."""
    return parameter(Quantity.LENGTHS, words, rule=rule, low=0, above=True, **declared)


def count_parameter(words: str, rule: str, low: int, high: int, **declared: Any) -> Any:
    """A whole number; where it is not given a rule decides. For more see `Parameter`."""
    return parameter(Quantity.COUNT, words, rule=rule, low=low, high=high, **declared)


def choice_parameter(words: str, *choices: str) -> Any:
    """One of some words, the first where nothing is given."""
    return parameter(Quantity.CHOICE, words, default=choices[0], choices=choices)


def fit_parameter(gap: str) -> Any:
    """The allowance; `gap` says where the gap is and what it is taken off."""
    return parameter(
        Quantity.LENGTH,
        f"Gap {gap}; negative for a press fit.",
        default=Fraction(0),
        rule="0",
        low=-1,
        high=1,
    )


def proud_parameter(words: str) -> Any:
    """How far something stands past a face, to be planed flush."""
    return parameter(Quantity.LENGTH, words, default=Fraction(0), rule="0", low=0, high=10)


def like(table: type[Table], name: str, **otherwise: Any) -> Any:
    """A parameter as another table declares it, but for what is otherwise; see `Parameter`."""
    return replace(parameter_of(table, name), **otherwise)
