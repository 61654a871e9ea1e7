"""`tools`: the person's own chisels, saw and gauge, kept for every job that names none."""

import re
from typing import TYPE_CHECKING, Annotated, Any

import typer

from joinery_templates.cli.options import AsJson, named_units
from joinery_templates.cli.telling import note, say, say_json

if TYPE_CHECKING:
    from joinery_templates.jobs.kept_tools import Written
    from joinery_templates.joints.tools import Tools
    from joinery_templates.lengths import Units

NONE = "none"
_OWN_UNIT = re.compile(r"[^\d\s.,/½⅓¼⅔¾⅛⅜⅝⅞-]")
"""A sign that makes a length one with a unit of its own."""


def tools(
    chisels: Annotated[
        str | None,
        typer.Option(help='Widths with commas between, such as "3, 6, 10 mm"; or none.'),
    ] = None,
    kerf: Annotated[
        str | None, typer.Option(help="Width of your saw's cut, measured in a trial cut; or none.")
    ] = None,
    gauge: Annotated[
        str | None, typer.Option(help="The steps in which your gauge is set, if it has; or none.")
    ] = None,
    smallest_pin: Annotated[
        str | None, typer.Option(help="The narrowest pin that you want to cut; or none.")
    ] = None,
    kerf_shown: Annotated[
        bool | None,
        typer.Option("--kerf-shown/--no-kerf-shown", help="Draw what the saw takes, too."),
    ] = None,
    units: Annotated[str, typer.Option(help="Units of bare numbers: mm or in.")] = "mm",
    json: AsJson = False,
) -> None:
    """Keep your chisels, saw and gauge for every job.

    Without options what is kept is shown. A job's own [tools] count before it, name by name.
    """
    from joinery_templates.cli.files import keep_settings
    from joinery_templates.jobs.kept_tools import kept_tools, text_with, tools_file

    given = {"kerf": kerf, "gauge": gauge, "smallest_pin": smallest_pin}
    changes = _changes(chisels, given, kerf_shown, named_units(units))
    if changes:
        keep_settings(tools_file(), lambda: text_with(changes))
    kept = kept_tools()
    _show(kept, json)
    if changes:
        note("Kept. A job's own [tools] count before them.")


def _changes(
    chisels: str | None, given: dict[str, str | None], kerf_shown: bool | None, units: "Units"
) -> "dict[str, Written | None]":
    """What is to be kept, in words that mean the same in every file; None takes it out.

    Raises:
        InputError: with every option that cannot be meant.
    """
    from msgspec.structs import replace

    from joinery_templates.errors import InputError
    from joinery_templates.jobs.kept_tools import written
    from joinery_templates.joints.parameter import read_parameters
    from joinery_templates.joints.tools import Tools

    said: dict[str, object] = {name: value for name, value in given.items() if value is not None}
    if chisels is not None:
        said["chisels"] = NONE if _is_none(chisels) else _listed(chisels)
    gone = {name for name, value in said.items() if _is_none(value)}
    wanted = {name: value for name, value in said.items() if name not in gone}
    try:
        stated = written(read_parameters(Tools, wanted, units))
    except InputError as error:
        places = (one.place.partition("[")[0].replace("_", "-") for one in error.findings)
        raise InputError(
            *(
                replace(one, place=f"--{place}")
                for one, place in zip(error.findings, places, strict=True)
            )
        ) from None
    shown: dict[str, Written | None] = {} if kerf_shown is None else {"kerf_shown": kerf_shown}
    return {**stated, **dict.fromkeys(gone), **shown}


def _is_none(value: object) -> bool:
    return isinstance(value, str) and value.strip().lower() == NONE


def _listed(text: str) -> list[str]:
    """Lengths with commas between; a unit that only the last one has is that of all."""
    parts = [part.strip() for part in text.split(",")]
    *before, last = parts
    unit = _OWN_UNIT.search(last)
    if unit is None or any(_OWN_UNIT.search(part) for part in before):
        return parts
    return [*(f"{part} {last[unit.start() :]}" for part in before), last]


def _show(kept: "Tools", json: bool) -> None:
    from joinery_templates.jobs.kept_tools import tools_file, written

    if json:
        say_json({"file": str(tools_file()), **_figures(kept)})
        return
    for name, value in written(kept).items():
        words = ", ".join(value) if isinstance(value, list) else _told(value)
        say(f"{name:<14} {words}")
    if not written(kept):
        say("No tools are kept yet. Keep yours, for example, with:")
        say('  joinery-templates tools --chisels "3, 6, 10 mm" --kerf "0.5 mm"')
    say(f"{'file':<14} {tools_file()}")


def _told(value: "Written") -> str:
    return "yes" if value is True else str(value)


def _figures(kept: "Tools") -> dict[str, Any]:
    lengths = {"kerf": kept.kerf, "smallest_pin": kept.smallest_pin, "gauge": kept.gauge}
    return {
        "chisels_mm": [float(width) for width in kept.chisels],
        **{f"{name}_mm": None if one is None else float(one) for name, one in lengths.items()},
        "kerf_shown": kept.kerf_shown,
    }
