"""`quick`: one joint without a job file; the options are made from the joint's parameters."""

import inspect
import re
from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, Annotated, Any

import typer
import typer.core
import typer.main

from joinery_templates.cli.options import named_units

if TYPE_CHECKING:
    from joinery_templates.joints.kind import Kind


class KindGroup(typer.core.TyperGroup):
    """One command for each kind of joint, made only when it is asked for."""

    def list_commands(self, ctx: Any) -> list[str]:
        """The kinds' names."""
        from joinery_templates.joints.catalogue import kinds

        return list(kinds())

    def get_command(self, ctx: Any, cmd_name: str) -> Any:
        """The command of one kind; InputError where there is no such kind."""
        from joinery_templates.cli.joints import known_kind

        kind = known_kind(cmd_name)
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
        name: str, words: str, needed: bool = False, short: tuple[str, ...] = ()
    ) -> inspect.Parameter:
        flag = f"--{name.replace('_', '-')}"
        return inspect.Parameter(
            name,
            inspect.Parameter.KEYWORD_ONLY,
            default=inspect.Parameter.empty if needed else None,
            annotation=Annotated[
                str if needed else str | None, typer.Option(flag, *short, help=words)
            ],
        )

    fixed = [
        option("width", f"Width of the {first.words}.", needed=True),
        option("second_width", f"Width of the {second.words}, where it differs."),
        option("thickness", f"Thickness of the {first.words}.", needed=True),
        option("second_thickness", f"Thickness of the {second.words}, where it differs."),
        option("units", "Units of bare numbers: mm or in. [unless given: mm]"),
        option("paper", "Paper. [unless given: A4, with inches Letter]"),
        option("corners", "Corners with commas between, such as A,B,C,D."),
        option(
            "output",
            f"Where to write; - for standard output. [unless given: {kind.name}.pdf]",
            short=("-o",),
        ),
    ]
    own = [
        option(p.name, f"{p.help} [unless given: {p.rule or p.default}]") for p in kind.parameters
    ]

    def run(**given: str | None) -> None:
        _draw(kind, {name: value for name, value in given.items() if value is not None})

    run.__signature__ = inspect.Signature([*fixed, *own])  # type: ignore[attr-defined]
    run.__annotations__ = {p.name: p.annotation for p in (*fixed, *own)}
    return run


def _draw(kind: "Kind", given: dict[str, str]) -> None:
    from joinery_templates.cli.draw import write_templates
    from joinery_templates.cli.jobs_given import tell_own_tools
    from joinery_templates.errors import InputError
    from joinery_templates.jobs.kept_tools import kept_tools
    from joinery_templates.jobs.reader import Overrides, read_job
    from joinery_templates.jobs.starter import quick_job

    sizes = ("width", "second_width", "thickness", "second_thickness")
    text = quick_job(
        kind,
        named_units(given.get("units", "mm")),
        {name: given[name] for name in sizes if name in given},
        {p.name: given[p.name] for p in kind.parameters if p.name in given},
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
    write_templates(job, given.get("output") or f"{kind.name}.pdf")


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
