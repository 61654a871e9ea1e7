"""`quick`: one joint without a job file; its options are the joint's parameters."""

import re
from collections.abc import Iterator, Mapping
from typing import Any

from msgspec.structs import replace
from typer.core import TyperCommand, TyperGroup, TyperOption

from joinery_templates.cli.files import check_target, is_own_pdf
from joinery_templates.cli.job_input import job_of_kind
from joinery_templates.cli.joints import named_kind
from joinery_templates.cli.options import FILE, FORCE, OPEN, OUTPUT
from joinery_templates.cli.parameter_options import option_for
from joinery_templates.cli.viewer import check_viewed, view
from joinery_templates.errors import InputError
from joinery_templates.jobs.kept_tools import kept_tools
from joinery_templates.jobs.tables import BoardTable, JobWords, JointTable, PaperTable
from joinery_templates.joints.catalogue import kinds
from joinery_templates.joints.kind import Kind
from joinery_templates.joints.parameter import parameter_of

SIZES = ("width", "thickness")


class KindGroup(TyperGroup):
    """One command for each kind of joint, made only when it is asked for."""

    def list_commands(self, ctx: Any) -> list[str]:
        """The kinds' names."""
        return list(kinds())

    def get_command(self, ctx: Any, cmd_name: str) -> TyperCommand:
        """The command of one kind; InputError where there is no such kind."""
        kind = named_kind(cmd_name)

        def run(output: str, force: bool, open_it: bool, **given: Any) -> None:
            said = {name: value for name, value in given.items() if value is not None}
            check_viewed(output, open_it)
            _draw(kind, said, output, force)
            view(output, open_it)

        return TyperCommand(
            kind.name,
            callback=run,
            params=list(_options(kind)),
            help=f"{kind.title}: {kind.summary}",
            short_help=kind.summary,
            rich_markup_mode=None,
        )


quick = KindGroup(
    name="quick",
    no_args_is_help=True,
    rich_markup_mode=None,
    options_metavar="",
    subcommand_metavar="KIND [OPTIONS]",
)


def _options(kind: Kind) -> Iterator[TyperOption]:
    first, second = kind.roles
    for size in SIZES:
        declared, words = parameter_of(BoardTable, size), f"{size.capitalize()} of the"
        yield option_for(declared, "", f"{words} {first.words}.", needed=True)
        yield option_for(declared, f"second_{size}", f"{words} {second.words}, where it differs.")
    yield option_for(parameter_of(JobWords, "units"))
    yield option_for(parameter_of(PaperTable, "size"), "paper", sort="paper")
    yield option_for(parameter_of(JointTable, "corners"))
    yield TyperOption(
        param_decls=["output", "-o", "--output"],
        default=f"{kind.name}.pdf",
        show_default=True,
        metavar=FILE,
        help=OUTPUT,
    )
    yield from map(option_for, kind.parameters)
    yield TyperOption(param_decls=["force", "--force"], is_flag=True, default=False, help=FORCE)
    yield TyperOption(param_decls=["open_it", "--open"], is_flag=True, default=False, help=OPEN)


def _draw(kind: Kind, given: dict[str, Any], output: str, force: bool) -> None:
    from joinery_templates.cli.draw import drawn_templates, write_templates  # not for the help

    check_target(output, is_own_pdf, force)
    own = kept_tools()
    try:
        job = job_of_kind(kind, given, own)
    except InputError as error:
        places = (replace(one, place=_option(one.place, kind, given)) for one in error.findings)
        raise InputError(*dict.fromkeys(places)) from None
    write_templates(job, drawn_templates(job), output, force)


def _option(place: str, kind: Kind, given: Mapping[str, object]) -> str:
    """The option behind a place in the job file that `quick` made up."""
    words = re.sub(r"^line \d+: ", "", place)
    board = re.fullmatch(r"boards\.(.+)\.(width|thickness)", words)
    joint = re.fullmatch(r"joint 1, (\w+)(?:\W.*)?", words)
    if board:
        second = f"second_{board[2]}"
        is_second = board[1] == kind.roles[1].words and second in given
        name = second if is_second else board[2]
    elif joint:
        name = joint[1]
    else:
        name = {"paper.size": "paper", "units": "units"}.get(words, "")
    return f"--{name.replace('_', '-')}" if name else ""
