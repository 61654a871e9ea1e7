"""Arguments and options that several commands share."""

from typing import TYPE_CHECKING, Annotated

import typer

if TYPE_CHECKING:
    from joinery_templates.errors import InputError
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
OUTPUT = "Where to write; - for standard output."
FORCE = "Replace a file that this program did not write."
AsJson = Annotated[bool, typer.Option("--json", help="Print the result as JSON.")]
Output = Annotated[
    str | None,
    typer.Option("--output", "-o", metavar="FILE", help=OUTPUT),
]
Force = Annotated[bool, typer.Option("--force", help=FORCE)]


def named_units(name: str) -> "Units":
    """The units that `--units` names.

    Raises:
        InputError: where it names none.
    """
    from joinery_templates.errors import InputError
    from joinery_templates.jobs.tables import JobWords
    from joinery_templates.joints.parameter import parameter_of
    from joinery_templates.lengths import Units

    try:
        return Units(str(parameter_of(JobWords, "units").read(name, Units.MM)))
    except InputError as error:
        raise at_options(error) from None


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


def at_options(error: "InputError", start: str = "--") -> "InputError":
    """The same mistakes, each at the option that bears the name of its place.

    Args:
        error: its places are names, of which those in a list bear a number.
        start: what the options' names begin with.
    """
    from msgspec.structs import replace

    from joinery_templates.errors import InputError

    names = [one.place.partition("[")[0].replace("_", "-") for one in error.findings]
    return InputError(
        *(
            replace(one, place=f"{start}{name}")
            for one, name in zip(error.findings, names, strict=True)
        )
    )
