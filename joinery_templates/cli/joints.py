"""`joints`: the kinds of joints, and what each can be told."""

import textwrap
from collections.abc import Iterator
from typing import Annotated, Any

import typer

from joinery_templates.cli.messages import mistakes_at, say, say_json
from joinery_templates.cli.options import AsJson
from joinery_templates.joints.catalogue import kinds, known_kind
from joinery_templates.joints.kind import Kind
from joinery_templates.joints.parameter import Parameter, Quantity
from joinery_templates.joints.sources import books_in
from joinery_templates.lengths import Units


def joints(
    kind: Annotated[
        str | None, typer.Argument(metavar="[KIND]", help="Show all that can be set for this kind.")
    ] = None,
    json: AsJson = False,
) -> None:
    """For each setting: what it is, what holds if you leave it out, and its limits."""
    if kind is None:
        if json:
            say_json([{"name": k.name, "summary": k.summary} for k in kinds().values()])
            return
        for known in kinds().values():
            name, *more = _column(known.summary, 28)
            say(f"{known.name:<28}{name.strip()}", *more)
        return
    chosen = named_kind(kind)
    if json:
        say_json(kind_figures(chosen))
        return
    say(*_lines(chosen))


def named_kind(name: str) -> Kind:
    """The kind of joint of a name.

    Raises:
        InputError: where there is none, with the nearest.
    """
    with mistakes_at("KIND"):
        return known_kind(name)


def kind_figures(kind: Kind) -> dict[str, Any]:
    """A kind and its parameters for JSON."""
    told = {
        "name": kind.name,
        "title": kind.title,
        "summary": kind.summary,
        "boards": [{"name": role.key, "words": role.words} for role in kind.roles],
        "parameters": [_figures(parameter) for parameter in kind.parameters],
        "sources": list(kind.sources),
    }
    return {**told, "books": list(books_in(str(told)))}


def _figures(parameter: Parameter) -> dict[str, Any]:
    parts = {"parts": [_figures(part) for part in parameter.parts]} if parameter.parts else {}
    return {
        "name": parameter.name,
        "quantity": str(parameter.quantity),
        "help": parameter.help,
        "unless_given": parameter.usual,
        "limits": parameter.limits_text(Units.MM),
        **parts,
    }


def _lines(kind: Kind) -> Iterator[str]:
    yield f"{kind.title} ({kind.name})"
    yield kind.summary
    yield ""
    yield "Boards, named in the job file:"
    for role in kind.roles:
        yield f"  {role.key:<16} the {role.words}"
    yield ""
    yield "Parameters (a length is a bare number in the file's units, or text with a unit):"
    for parameter in kind.parameters:
        yield from _parameter_lines(parameter, 2)
    yield ""
    yield from _column("Sources: " + "; ".join(kind.sources) + ".", 0)
    for book in kind_figures(kind)["books"]:
        yield from _column(book + ".", 2)


def _parameter_lines(parameter: Parameter, indent: int) -> Iterator[str]:
    """What a parameter is; under a table the parts that stand in it."""
    yield f"{' ' * indent}{parameter.name:<16} {parameter.quantity}"
    unless = f"Unless given: {parameter.usual}."
    words = [parameter.help, "Must be given." if parameter.needed else unless]
    words += [*_limits(parameter)]
    words += [f"Write for example {parameter.example}."] if parameter.example else []
    yield from _column(" ".join(words), indent + 17)
    for part in parameter.parts:
        yield from _parameter_lines(part, indent + 4)


def _limits(parameter: Parameter) -> Iterator[str]:
    """What is allowed; nothing where the quantity says it already."""
    limits = parameter.limits_text(Units.MM)
    if parameter.choices:
        yield f"One of: {', '.join(parameter.choices)}."
    elif limits and not parameter.parts and parameter.quantity is not Quantity.FLAG:
        yield f"Limits: {limits}."


def _column(words: str, indent: int) -> list[str]:
    margin = " " * indent
    return textwrap.wrap(
        words, 80, initial_indent=margin, subsequent_indent=margin, break_on_hyphens=False
    )
