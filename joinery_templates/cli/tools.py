"""`tools`: the person's own chisels, saw and gauge, kept for every job that names none."""

from typing import Annotated, Any

import typer

from joinery_templates.cli.files import keep_settings
from joinery_templates.cli.messages import mistakes_at_options, note, say, say_json
from joinery_templates.cli.options import UNITS, AsJson, asked
from joinery_templates.cli.parameter_options import as_written, named_units, sort_of_value
from joinery_templates.exact import as_float
from joinery_templates.jobs.kept_tools import kept_tools, text_with, tools_file, written
from joinery_templates.jobs.tables import Written
from joinery_templates.joints.parameter import parameter_of, read_parameters
from joinery_templates.joints.tools import Tools
from joinery_templates.lengths import Units

NONE = "none"


def _option(name: str) -> Any:
    """The option for a tool, with what its declaration says of it."""
    declared = parameter_of(Tools, name)
    metavar = f"<{sort_of_value(declared)}>"
    return typer.Option(metavar=metavar, help=f"{declared.help[:-1]}; or none.")


def tools(
    chisels: Annotated[str | None, _option("chisels")] = None,
    bits: Annotated[str | None, _option("bits")] = None,
    kerf: Annotated[str | None, _option("kerf")] = None,
    gauge: Annotated[str | None, _option("gauge")] = None,
    smallest_pin: Annotated[str | None, _option("smallest_pin")] = None,
    slopes: Annotated[str | None, _option("slopes")] = None,
    dividers: Annotated[str | None, _option("dividers")] = None,
    kerf_shown: Annotated[
        bool | None,
        typer.Option("--kerf-shown/--no-kerf-shown", help=parameter_of(Tools, "kerf_shown").help),
    ] = None,
    units: str = asked(UNITS, "Units of numbers that name none.", "mm"),
    json: AsJson = False,
) -> None:
    """Without options, shows what is kept.

    What a job says in its own [tools] counts first.
    """
    typed = {"chisels": chisels, "bits": bits, "kerf": kerf, "gauge": gauge}
    typed |= {"smallest_pin": smallest_pin, "slopes": slopes, "dividers": dividers}
    given = {name: words for name, words in typed.items() if words is not None}
    changes = _changes(given, named_units(units))
    if kerf_shown is not None:
        changes["kerf_shown"] = kerf_shown
    if changes:
        keep_settings(tools_file(), lambda: text_with(changes))
    kept = kept_tools()
    _show(kept, json)
    if changes:
        note("Kept. A job's own [tools] count before them.")


def _changes(given: dict[str, str], units: Units) -> dict[str, Written | None]:
    """What is to be kept, in words that mean the same in every file; None takes it out.

    Raises:
        InputError: with every option that cannot be meant.
    """
    gone = [name for name, words in given.items() if words.strip().lower() == NONE]
    wanted = {
        name: as_written(parameter_of(Tools, name), words)
        for name, words in given.items()
        if name not in gone
    }
    with mistakes_at_options():
        return {**written(read_parameters(Tools, wanted, units)), **dict.fromkeys(gone)}


def _show(kept: Tools, json: bool) -> None:
    if json:
        say_json({"file": str(tools_file()), **_figures(kept)})
        return
    for name, value in written(kept).items():
        words = ", ".join(value) if isinstance(value, list) else value
        say(f"{name:<14} {'yes' if words is True else words}")
    if not written(kept):
        say("No tools are kept yet. Keep yours, for example, with:")
        say('  joinery-templates tools --chisels "3, 6, 10 mm" --kerf "0.5 mm"')
    say(f"{'file':<14} {tools_file()}")


def _figures(kept: Tools) -> dict[str, Any]:
    names = ("kerf", "smallest_pin", "gauge", "dividers")
    lengths = {name: getattr(kept, name) for name in names}
    return {
        "chisels_mm": [as_float(width) for width in kept.chisels],
        "bits_mm": [as_float(diameter) for diameter in kept.bits],
        **{f"{name}_mm": None if one is None else float(one) for name, one in lengths.items()},
        "slopes": [str(slope) for slope in kept.slopes],
        "kerf_shown": kept.kerf_shown,
    }
