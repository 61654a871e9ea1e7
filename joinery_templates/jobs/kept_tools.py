"""The person's tools in the user's configuration folder, for every job that names none.

The file says what the [tools] table of a job says, in the same words, and may begin with
`units`. What a job says itself counts before it, name by name.
"""

from collections.abc import Mapping
from pathlib import Path

from joinery_templates.errors import InputError, mistake, refusal
from joinery_templates.exact import Fraction
from joinery_templates.jobs.mistakes import Mistakes
from joinery_templates.jobs.source import parsed
from joinery_templates.jobs.tables import JobWords, Written
from joinery_templates.joints.parameter import Quantity
from joinery_templates.joints.tools import Tools
from joinery_templates.lengths import INCH, Units, decimal_text, inch_text
from joinery_templates.printers.kept import settings_folder, settings_text

FILE = "tools.toml"
NAMES = ("units", "tools")


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


def check_kerf_shown(tools: Tools, text: str) -> None:
    """The kerf must be known where it is to be drawn, from the job or from what is kept.

    Raises:
        InputError: `kerf-unknown`, at its line.
    """
    if tools.kerf_shown and tools.kerf is None:
        mistakes = Mistakes()
        mistakes.add(
            ("tools", "kerf_shown"),
            mistake(
                "kerf-unknown",
                "The saw cut cannot be shown: its width is not given.",
                "Write for example kerf = 0.5 into [tools], measured in a trial cut.",
            ),
        )
        mistakes.tell(text)


def written(tools: Tools) -> dict[str, Written]:
    """A [tools] table that says the same, with units, so that it does in every file."""
    values = ((declared, getattr(tools, declared.name)) for declared in Tools.parameters)
    return {
        declared.name: _written(declared.each.quantity, value)
        for declared, value in values
        if value != declared.default
    }


def written_beside(given: Mapping[str, object], tools: Tools) -> dict[str, Written]:
    """What a [tools] table would say of tools that a job does not name itself."""
    named = given.get("tools", {})
    known = named if isinstance(named, Mapping) else {}
    return {name: value for name, value in written(tools).items() if name not in known}


def text_with(changes: Mapping[str, Written | None]) -> str:
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
        raise _damaged(refusal("job-not-toml", f"{error}.")) from None
    if table.get("kerf_shown") and "kerf" not in table:
        raise refusal(
            "kerf-unknown",
            "The saw cut cannot be shown: its width is not given.",
            'Give it, measured in a trial cut, as --kerf "0.5 mm"; or --no-kerf-shown.',
            "--kerf-shown",
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


def _written(quantity: Quantity, value: bool | Fraction | tuple[Fraction, ...]) -> Written:
    if isinstance(value, bool):
        return value
    if isinstance(value, tuple):
        return [_text(quantity, one) for one in value]
    return _text(quantity, value)


def _text(quantity: Quantity, value: Fraction) -> str:
    if quantity is Quantity.SLOPE:
        return f"{value.numerator}:{value.denominator}"
    return exact_text(value)


def _tools_of(text: str) -> Tools:
    try:
        given, mistakes = parsed(text), Mistakes()
        mistakes.check_names((), given, NAMES)
        words: JobWords = mistakes.values((), JobWords, given, Units.MM)
        tools: Tools = mistakes.table(given, "tools", Tools, words.units)
        mistakes.tell(text)
    except InputError as error:
        raise _damaged(error) from None
    return tools


def _damaged(error: InputError) -> InputError:
    return refusal(
        "settings-unreadable",
        f"The file of your tools has a mistake. {error.findings[0].told()}",
        "Mend it, or delete the file and give your tools again.",
        str(tools_file()),
    )
