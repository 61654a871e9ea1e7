"""`quick`: one joint without a job file; the options are made from the joint's parameters."""

import inspect
import re
from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Annotated, Any

import typer
import typer.core
import typer.main
from msgspec.structs import replace

from joinery_templates.cli.options import Force, named_kind, named_units

if TYPE_CHECKING:
    from joinery_templates.joints.kind import Kind
    from joinery_templates.joints.parameter import Parameter


class KindGroup(typer.core.TyperGroup):
    """One command for each kind of joint, made only when it is asked for."""

    def list_commands(self, ctx: Any) -> list[str]:
        """The kinds' names."""
        from joinery_templates.joints.catalogue import kinds

        return list(kinds())

    def get_command(self, ctx: Any, cmd_name: str) -> Any:
        """The command of one kind; InputError where there is no such kind."""
        kind = named_kind(cmd_name)
        single = typer.Typer(add_completion=False, rich_markup_mode=None)
        single.command(name=kind.name, help=f"{kind.title}: {kind.summary}")(_command(kind))
        return typer.main.get_command(single)


app = typer.Typer(
    cls=KindGroup,
    no_args_is_help=True,
    rich_markup_mode=None,
    help="Draw one joint without a job file: quick KIND --width ... --thickness ...",
)


@app.callback()
def _quick() -> None:
    """Draw one joint without a job file: quick KIND --width ... --thickness ..."""


def _command(kind: "Kind") -> Callable[..., None]:
    first, second = kind.roles

    def option(
        name: str, kind: str, words: str, needed: bool = False, short: tuple[str, ...] = ()
    ) -> inspect.Parameter:
        flag = f"--{name.replace('_', '-')}"
        return inspect.Parameter(
            name,
            inspect.Parameter.KEYWORD_ONLY,
            default=inspect.Parameter.empty if needed else None,
            annotation=Annotated[
                str if needed else str | None,
                typer.Option(flag, *short, metavar=f"<{kind}>", help=words),
            ],
        )

    fixed = [
        option("width", "length", f"Width of the {first.words}.", needed=True),
        option("second_width", "length", f"Width of the {second.words}, where it differs."),
        option("thickness", "length", f"Thickness of the {first.words}.", needed=True),
        option("second_thickness", "length", f"Thickness of the {second.words}, where it differs."),
        option("units", "mm or in", "Units of bare numbers. [default: mm]"),
        option("paper", "paper", "Paper. [default: A4, with inches Letter]"),
        option("corners", "names", "Corners with commas between, such as A,B,C,D."),
        option(
            "output",
            "file",
            f"Where to write; - for standard output. [default: {kind.name}.pdf]",
            short=("-o",),
        ),
    ]
    own = [
        option(p.name, _sort(p), f"{p.help} [default: {p.rule or p.default}]")
        for p in kind.parameters
    ]

    force = inspect.Parameter(
        "force", inspect.Parameter.KEYWORD_ONLY, default=False, annotation=Force
    )

    def run(force: bool, **given: str | None) -> None:
        _draw(kind, {name: value for name, value in given.items() if value is not None}, force)

    options = [*fixed, *own, force]
    run.__signature__ = inspect.Signature(options)  # type: ignore[attr-defined]
    run.__annotations__ = {p.name: p.annotation for p in options}
    return run


def _draw(kind: "Kind", given: dict[str, str], force: bool) -> None:
    from joinery_templates.cli.draw import drawn_templates, write_templates
    from joinery_templates.cli.files import check_target, is_own_pdf
    from joinery_templates.cli.jobs_given import tell_own_tools
    from joinery_templates.errors import InputError
    from joinery_templates.jobs.kept_tools import kept_tools
    from joinery_templates.jobs.overrides import Overrides
    from joinery_templates.jobs.reader import read_job
    from joinery_templates.jobs.starter import quick_job

    output = given.get("output", f"{kind.name}.pdf")
    check_target(output, is_own_pdf, force)
    sizes = ("width", "second_width", "thickness", "second_thickness")
    text = quick_job(
        kind,
        named_units(given.get("units", "mm")),
        {name: given[name] for name in sizes if name in given},
        {p.name: _value(p, given[p.name]) for p in kind.parameters if p.name in given},
        given.get("paper"),
        given.get("corners"),
    )
    own = kept_tools()
    try:
        job = read_job(text, Overrides(tools=own))
    except InputError as error:
        raise InputError(
            *dict.fromkeys(replace(f, place=_option(f.place, kind, given)) for f in error.findings)
        ) from None
    tell_own_tools(text, own)
    write_templates(job, drawn_templates(job), output, force)


def _sort(parameter: "Parameter") -> str:
    """What an option takes, in a word or two."""
    from joinery_templates.joints.parameter import Quantity

    if parameter.quantity is Quantity.CHOICE:
        return "|".join(parameter.choices)
    short = {Quantity.COUNT: "count", Quantity.LENGTHS: "lengths", Quantity.ANGLE: "degrees"}
    return short.get(parameter.quantity, str(parameter.quantity))


def _value(parameter: "Parameter", words: str) -> bool | str | list[str]:
    """An option's words as the job file says them: yes or no, a list, or as they are."""
    from joinery_templates.joints.parameter import Quantity

    plain = words.strip()
    if parameter.quantity is Quantity.FLAG:
        return {"true": True, "yes": True, "false": False, "no": False}.get(plain.lower(), words)
    if parameter.quantity is Quantity.LENGTHS:
        inside = plain[1:-1] if plain.startswith("[") and plain.endswith("]") else plain
        return [part.strip().strip("\"'") for part in inside.split(",")]
    return words


def _option(place: str, kind: "Kind", given: Mapping[str, str]) -> str:
    """The option behind a place in the job file that `quick` made up."""
    words = re.sub(r"^line \d+: ", "", place)
    joint = re.fullmatch(r"joint 1, (\w+)(?:\W.*)?", words)
    if joint:
        return f"--{joint[1].replace('_', '-')}"
    board = re.fullmatch(r"boards\.(.+)\.(width|thickness)", words)
    if board:
        second = board[1] == kind.roles[1].words and f"second_{board[2]}" in given
        return f"--second-{board[2]}" if second else f"--{board[2]}"
    return "--paper" if words == "paper.size" else ""
