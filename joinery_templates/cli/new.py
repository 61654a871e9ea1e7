"""`new`: a commented starter job file."""

from pathlib import Path
from typing import Annotated

import typer

from joinery_templates.cli.options import Output

USUAL = "through-dovetail"


def new(
    kind: Annotated[
        str, typer.Argument(metavar="[KIND]", help=f"A joint kind; see `joints`. [{USUAL}]")
    ] = USUAL,
    output: Output = None,
) -> None:
    """Write a commented job file to start from.

    It draws as it stands.

    Without --output it is called after the joint and stands where you are. A file
    that is there already is never written over.
    """
    from joinery_templates.cli.files import STANDARD, write_whole
    from joinery_templates.cli.joints import known_kind
    from joinery_templates.cli.telling import note
    from joinery_templates.errors import InputError, mistake
    from joinery_templates.jobs.starter import starter

    chosen = known_kind(kind)
    name = output or f"{chosen.name}.toml"
    if name != STANDARD and Path(name).exists():
        raise InputError(
            mistake(
                "file-there",
                "This file is there already, and is left as it is.",
                "Name another with --output.",
                name[:200],
            )
        )
    write_whole(name, starter(chosen).encode())
    if name != STANDARD:
        note(f"{name}: change the sizes to your boards, then: joinery-templates draw {name}")
