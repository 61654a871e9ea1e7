"""The list of commands."""

from importlib import import_module
from inspect import cleandoc
from typing import Annotated, Any

import typer
from typer.core import TyperGroup

from joinery_templates import __version__

COMMANDS = {
    "draw": "Draw the templates of a job as a PDF to print at 100 %.",
    "check": "Show a job's setting-out in figures and a sketch, with advice.",
    "compare": "Show several layouts of a joint side by side, and pick one.",
    "new": "Write a job file to start from, with remarks.",
    "joints": "List the kinds of joints; with KIND, what can be set.",
    "papers": "List the paper sizes known by name.",
    "measure": "Measure the lines of a PDF against the job inside it.",
    "calibrate": "Find out by how much your printer is off, and draw true on it.",
    "sizing": "Draw a sheet that you lay a board on to read its sizes.",
    "tools": "Keep your chisels, saw and gauge for all your jobs.",
    "schema": "Print the JSON Schema of the job file, for your editor.",
    "quick": "Draw one joint without a job file: quick KIND --width 90 --thickness 12.",
}


class Commands(TyperGroup):
    """The commands: the file of one is read when the command is asked for, and no other."""

    def resolve_command(self, ctx: Any, args: list[str]) -> Any:
        """The name of the command that is asked for, the command, and what is said to it."""
        name, known, rest = super().resolve_command(ctx, args)
        return name, known and command_of(str(name)), rest


def command_of(name: str) -> Any:
    """A command, from what bears its name in the file of that name: a function or a group."""
    made = getattr(import_module(f"joinery_templates.cli.{name}"), name)
    if isinstance(made, TyperGroup):
        made.help = COMMANDS[name]
        return made
    single = typer.Typer(add_completion=False, rich_markup_mode=None)
    single.command(name, help=f"{COMMANDS[name]}\n\n{cleandoc(made.__doc__)}")(made)
    return typer.main.get_command(single)


app = typer.Typer(
    name="joinery-templates",
    cls=Commands,
    help="Full-size paper templates for hand-cut joints, from the sizes of your boards.",
    epilog="Check the printed rulers with a steel rule before you cut.",
    no_args_is_help=True,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
)
for command, words in COMMANDS.items():
    app.command(command, help=words)(lambda: None)  # for the list; `command_of` gives the rest


def _version(wanted: bool) -> None:
    if wanted:
        typer.echo(f"joinery-templates {__version__}")
        raise typer.Exit


@app.callback()
def options(
    version: Annotated[
        bool, typer.Option("--version", callback=_version, is_eager=True, help="Show the version.")
    ] = False,
) -> None:
    """Full-size paper templates for hand-cut joints, from the sizes of your boards."""
    del version
