"""`new`: a commented starter job file."""

from typing import Annotated

import typer

from joinery_templates.cli.files import STANDARD, nothing, write_result
from joinery_templates.cli.joints import named_kind
from joinery_templates.cli.messages import note
from joinery_templates.cli.options import Force, Output
from joinery_templates.jobs.starter import starter

USUAL = "through-dovetail"


def new(
    kind: Annotated[
        str, typer.Argument(metavar="[KIND]", help="A kind of joint; see `joints`.")
    ] = USUAL,
    output: Output = None,
    force: Force = False,
) -> None:
    """It can be drawn as it stands; put in the sizes of your own boards.

    Unless you name an --output, it is named after the joint and written to this folder.
    A file of that name is left alone without --force.
    """
    chosen = named_kind(kind)
    name = f"{chosen.name}.toml" if output is None else output
    write_result(name, starter(chosen).encode(), nothing, force)
    if name != STANDARD:
        note(f"{name}: put in the sizes of your boards, then: joinery-templates draw {name}")
