"""The person's tools in the user's configuration folder, for every job that names none.

The file says what the [tools] table of a job says, in the same words, and may begin with
`units`. What a job says itself counts before it, name by name.
"""

from collections.abc import Mapping
from fractions import Fraction
from pathlib import Path

from joinery_templates.errors import Finding, InputError, mistake
from joinery_templates.jobs.desk import Desk, Table
from joinery_templates.jobs.source import parsed
from joinery_templates.jobs.tools_reader import check_kerf_shown, read_tools
from joinery_templates.joints.tools import Tools
from joinery_templates.lengths import INCH, Units, decimal_text, inch_text
from joinery_templates.printers.store import settings_folder, settings_text

FILE = "tools.toml"
NAMES = ("units", "tools")
Statement = bool | str | list[str]


def tools_file() -> Path:
    """Where the tools are kept: beside the printer profiles.

    Raises:
        MachineError: where the system names no folder for settings.
    """
    return settings_folder() / FILE


def kept_tools() -> Tools:
    """The tools that are kept; none where there is no file.

    Raises:
        InputError: `settings-unreadable` where the file is damaged.
        MachineError: where it cannot be read.
    """
    text = settings_text(FILE)
    tools = _tools_of(text)
    try:
        check_kerf_shown(tools, text)
    except InputError as error:
        raise _damaged(error) from None
    return tools


def statements_of(tools: Tools) -> dict[str, Statement]:
    """What a [tools] table says of them, with units, so that it means the same in every file."""
    lengths = {"kerf": tools.kerf, "smallest_pin": tools.smallest_pin, "gauge": tools.gauge}
    stated: dict[str, Statement] = {}
    if tools.chisels:
        stated["chisels"] = [exact_text(width) for width in tools.chisels]
    stated |= {name: exact_text(one) for name, one in lengths.items() if one is not None}
    if tools.kerf_shown:
        stated["kerf_shown"] = True
    return stated


def statements_beside(tables: Table, tools: Tools) -> dict[str, Statement]:
    """What is said of tools that a job does not name itself."""
    named = tables.get("tools", {})
    known = named if isinstance(named, Mapping) else {}
    return {name: value for name, value in statements_of(tools).items() if name not in known}


def text_with(changes: Mapping[str, Statement | None]) -> str:
    """The file's text with tools added, replaced or, for None, taken out; remarks stay.

    Raises:
        InputError: `settings-unreadable` where the file that is there is damaged;
            `kerf-unknown` where the saw cut would be shown but not known.
    """
    import tomlkit
    from tomlkit.exceptions import TOMLKitError

    known = settings_text(FILE)
    _tools_of(known)
    try:
        document = tomlkit.parse(known)
        table = document.setdefault("tools", tomlkit.table())
        for name, value in changes.items():
            if value is not None:
                table[name] = value
            elif name in table:
                del table[name]
        text = tomlkit.dumps(document)
    except TOMLKitError as error:
        raise _damaged(InputError(mistake("job-not-toml", f"{error}."))) from None
    if table.get("kerf_shown") and "kerf" not in table:
        raise InputError(
            mistake(
                "kerf-unknown",
                "The saw cut cannot be shown: its width is not given.",
                'Give it, measured in a trial cut, as --kerf "0.5 mm"; or --no-kerf-shown.',
                "--kerf-shown",
            )
        )
    _tools_of(text)
    return text


def exact_text(length: Fraction) -> str:
    """A length with its unit as the reader of lengths takes it back exactly.

    In inches where it is whole in 64ths and not in half millimetres.
    """
    if (length * 2).denominator > 1 and (length / INCH * 64).denominator == 1:
        return inch_text(length)
    decimals = decimal_text(length, 3)
    return f"{length if decimals.startswith('≈') else decimals} mm"


def _tools_of(text: str) -> Tools:
    try:
        tables = parsed(text)
        desk = Desk()
        desk.check_names(tables, NAMES, ())
        units = tables.get("units", "mm")
        if units not in list(Units):
            desk.complain(("units",), mistake("units-unknown", 'Write "mm" or "in".'))
        else:
            desk.units = Units(str(units))
        tools = read_tools(tables, desk)
        desk.finish(text)
    except InputError as error:
        raise _damaged(error) from None
    return tools


def _damaged(error: InputError) -> InputError:
    first: Finding = error.findings[0]
    return InputError(
        mistake(
            "settings-unreadable",
            f"The file of your tools has a mistake. {first.told()}",
            "Mend it, or delete the file and give your tools again.",
            str(tools_file()),
        )
    )
