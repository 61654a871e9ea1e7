"""The list of commands."""

from typing import Annotated

import typer

from joinery_templates import __version__
from joinery_templates.cli import (
    calibrate,
    check,
    draw,
    joints,
    measure,
    new,
    papers,
    quick,
    schema,
    tools,
)

app = typer.Typer(
    name="joinery-templates",
    help="Full-size paper templates for hand-cut joints, from the sizes of your boards.",
    epilog="Check the printed rulers with a steel rule before you cut.",
    no_args_is_help=True,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
)
for command in (
    draw.draw,
    check.check,
    new.new,
    joints.joints,
    papers.papers,
    measure.measure,
    calibrate.calibrate,
):
    app.command()(command)
app.command(cls=tools.ToolsCommand)(tools.tools)
app.command()(schema.schema)
app.add_typer(quick.app, name="quick")


def _version(wanted: bool) -> None:
    if wanted:
        typer.echo(f"joinery-templates {__version__}")
        raise typer.Exit


@app.callback()
def options(
    version: Annotated[
        bool, typer.Option("--version", callback=_version, is_eager=True, help="Say the version.")
    ] = False,
) -> None:
    """Full-size paper templates for hand-cut joints, from the sizes of your boards."""
    del version
