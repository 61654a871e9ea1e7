"""Arguments and options that several commands share."""

from typing import TYPE_CHECKING, Annotated

import typer

if TYPE_CHECKING:
    from joinery_templates.joints.kind import Kind
    from joinery_templates.lengths import Units

JobName = Annotated[
    str,
    typer.Argument(
        metavar="JOB", help="A job file (.toml), a PDF made from one, or - for standard input."
    ),
]
PaperName = Annotated[
    str | None,
    typer.Option(
        "--paper",
        help="Paper instead of the job's own: A4, Letter, Arch D, 300 x 420 mm, roll 610 mm.",
    ),
]
UnitsName = Annotated[
    str | None, typer.Option("--units", help="Print figures in mm or in, instead of the job's own.")
]
AsJson = Annotated[bool, typer.Option("--json", help="Print the result as JSON.")]
Output = Annotated[
    str | None,
    typer.Option("--output", "-o", metavar="FILE", help="Where to write; - for standard output."),
]

Force = Annotated[
    bool, typer.Option("--force", help="Replace a file that this program did not write.")
]


def named_units(name: str) -> "Units":
    """The units that `--units` names.

    Raises:
        InputError: where it names none.
    """
    from joinery_templates.errors import InputError, mistake
    from joinery_templates.lengths import Units

    if name in tuple(Units):
        return Units(name)
    raise InputError(
        mistake(
            "units-unknown",
            f'"{name[:40]}" is neither "mm" nor "in".',
            "Write one of the two.",
            "--units",
        )
    )


def named_kind(name: str) -> "Kind":
    """The kind of joint of a name.

    Raises:
        InputError: where there is none, with the nearest.
    """
    from joinery_templates.errors import InputError
    from joinery_templates.joints.catalogue import known_kind

    try:
        return known_kind(name)
    except InputError as error:
        raise error.at("KIND") from None
