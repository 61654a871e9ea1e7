"""The person's tools, from the [tools] table of a job file."""

from fractions import Fraction

from joinery_templates.errors import mistake
from joinery_templates.jobs.desk import Desk, Table, listed, shown
from joinery_templates.jobs.lines import Path
from joinery_templates.joints.tools import Tools
from joinery_templates.lengths import length_text

TOOL_NAMES = ("chisels", "kerf", "smallest_pin", "gauge", "kerf_shown")
MOST_CHISELS = 100
MOST = {
    "chisels": ("A chisel", Fraction(75)),
    "kerf": ("A saw cut", Fraction(5)),
    "gauge": ("A gauge's step", Fraction(10)),
}
"""In words and the most that can be meant: beyond it units were mixed up (our judgement)."""


def read_tools(tables: Table, desk: Desk) -> Tools:
    """The tools of a [tools] table, without those that have a mistake, which the desk keeps."""
    table = desk.table(tables, "tools", (), TOOL_NAMES)
    given = listed(table.get("chisels", []))
    if len(given) > MOST_CHISELS:
        desk.complain(
            ("tools", "chisels"),
            mistake("too-many", f"{len(given)} chisels are listed.", f"At most {MOST_CHISELS}."),
        )
        given = []
    chisels = [_chisel(width, number, desk) for number, width in enumerate(given)]
    return Tools(
        chisels=tuple(width for width in chisels if width is not None),
        kerf=_within(desk.length(table, "kerf", ("tools",)), ("kerf",), desk),
        smallest_pin=desk.length(table, "smallest_pin", ("tools",)),
        gauge=_within(desk.length(table, "gauge", ("tools",)), ("gauge",), desk),
        kerf_shown=_yes_or_no(table, desk),
    )


def check_kerf_shown(tools: Tools, text: str) -> None:
    """The kerf must be known where it is to be drawn, from the job or from what is kept.

    Raises:
        InputError: `kerf-unknown`, at its line.
    """
    if not tools.kerf_shown or tools.kerf is not None:
        return
    desk = Desk()
    desk.complain(
        ("tools", "kerf_shown"),
        mistake(
            "kerf-unknown",
            "The saw cut cannot be shown: its width is not given.",
            "Write for example kerf = 0.5 into [tools], measured in a trial cut.",
        ),
    )
    desk.finish(text)


def _chisel(width: object, number: int, desk: Desk) -> Fraction | None:
    return _within(
        desk.check_length(width, ("tools", "chisels", number)), ("chisels", number), desk
    )


def _within(length: Fraction | None, place: Path, desk: Desk) -> Fraction | None:
    """A length that can be meant, or None and a complaint."""
    words, most = MOST[str(place[0])]
    if length is None or length <= most:
        return length
    desk.complain(
        ("tools", *place),
        mistake(
            "tool-impossible",
            f"{words} of {length_text(length, desk.units)} cannot be meant.",
            f"Give at most {length_text(most, desk.units)}; a number without a unit is in "
            f"{desk.units} here.",
        ),
    )
    return None


def _yes_or_no(table: Table, desk: Desk) -> bool:
    given = table.get("kerf_shown", False)
    if isinstance(given, bool):
        return given
    desk.complain(
        ("tools", "kerf_shown"),
        mistake(
            "not-yes-or-no",
            f"{shown(given)} is neither yes nor no.",
            "Write true or false, without quotes.",
        ),
    )
    return False
