"""`tools`: the person's own chisels, saw and gauge, kept for every job that names none."""

from typing import TYPE_CHECKING, Annotated, Any

import typer
from typer.core import TyperCommand, TyperOption

from joinery_templates.cli.messages import note, say, say_json
from joinery_templates.cli.options import AsJson, at_options, named_units

if TYPE_CHECKING:
    from joinery_templates.jobs.tables import Written
    from joinery_templates.joints.tools import Tools
    from joinery_templates.lengths import Units

NONE = "none"


class ToolsCommand(TyperCommand):
    """`tools`, whose options say what the declaration of each tool says."""

    def get_params(self, ctx: Any) -> Any:
        """The options; their words are looked up only here."""
        from joinery_templates.cli.parameter_options import sort_of_value
        from joinery_templates.joints.parameter import Quantity, parameters_of
        from joinery_templates.joints.tools import Tools

        declared = {parameter.name: parameter for parameter in parameters_of(Tools)}
        options = super().get_params(ctx)
        for option in options:
            tool = declared.get(str(option.name))
            if tool and isinstance(option, TyperOption):
                is_flag = tool.quantity is Quantity.FLAG
                option.help = tool.help if is_flag else f"{tool.help[:-1]}; or none."
                option.metavar = f"<{sort_of_value(tool)}>"
        return options


def tools(
    chisels: Annotated[str | None, typer.Option()] = None,
    kerf: Annotated[str | None, typer.Option()] = None,
    gauge: Annotated[str | None, typer.Option()] = None,
    smallest_pin: Annotated[str | None, typer.Option()] = None,
    kerf_shown: Annotated[bool | None, typer.Option("--kerf-shown/--no-kerf-shown")] = None,
    units: Annotated[str, typer.Option(help="Units of bare numbers: mm or in.")] = "mm",
    json: AsJson = False,
) -> None:
    """Keep your chisels, saw and gauge for every job.

    Without options what is kept is shown. A job's own [tools] count before it, name by name.
    """
    from joinery_templates.cli.files import keep_settings
    from joinery_templates.jobs.kept_tools import kept_tools, text_with, tools_file

    typed = {"chisels": chisels, "kerf": kerf, "gauge": gauge, "smallest_pin": smallest_pin}
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


def _changes(given: dict[str, str], units: "Units") -> "dict[str, Written | None]":
    """What is to be kept, in words that mean the same in every file; None takes it out.

    Raises:
        InputError: with every option that cannot be meant.
    """
    from joinery_templates.cli.parameter_options import as_written
    from joinery_templates.errors import InputError
    from joinery_templates.jobs.kept_tools import written
    from joinery_templates.joints.parameter import parameter_of, read_parameters
    from joinery_templates.joints.tools import Tools

    gone = [name for name, words in given.items() if words.strip().lower() == NONE]
    wanted = {
        name: as_written(parameter_of(Tools, name), words)
        for name, words in given.items()
        if name not in gone
    }
    try:
        return {**written(read_parameters(Tools, wanted, units)), **dict.fromkeys(gone)}
    except InputError as error:
        raise at_options(error) from None


def _show(kept: "Tools", json: bool) -> None:
    from joinery_templates.jobs.kept_tools import tools_file, written

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


def _figures(kept: "Tools") -> dict[str, Any]:
    lengths = {"kerf": kept.kerf, "smallest_pin": kept.smallest_pin, "gauge": kept.gauge}
    return {
        "chisels_mm": [float(width) for width in kept.chisels],
        **{f"{name}_mm": None if one is None else float(one) for name, one in lengths.items()},
        "kerf_shown": kept.kerf_shown,
    }
