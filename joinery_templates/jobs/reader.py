"""From the text of a job file to a `Job`: all of it but the joints."""

from collections.abc import Mapping
from fractions import Fraction

from msgspec import Struct, field

from joinery_templates.errors import Finding, InputError, mistake
from joinery_templates.jobs.desk import LONGEST_NOTES, Desk, Table, shown, sort_of
from joinery_templates.jobs.job import Job
from joinery_templates.jobs.joint_reader import Bench, read_joints
from joinery_templates.jobs.kept_tools import statements_beside
from joinery_templates.jobs.lines import Path
from joinery_templates.jobs.sheets_reader import read_paper, read_sheets
from joinery_templates.jobs.source import parsed
from joinery_templates.jobs.tools_reader import check_kerf_shown, read_tools
from joinery_templates.joints.tools import Tools
from joinery_templates.lengths import Units, length_text
from joinery_templates.printers.store import Profile
from joinery_templates.wood.board import Board

NAMES = ("title", "units", "figures", "notes", "paper", "printer", "tools", "boards", "joints")

BOARD_NAMES = ("width", "thickness", "length")

USUAL_TITLE = "Joinery templates"
MOST_BOARDS = 200

LONGEST_NAME = 60
BOARD_LIMITS = {
    "width": (Fraction(1), Fraction(3000)),
    "thickness": (Fraction(1), Fraction(500)),
}
"""Beyond these a unit was mixed up or a point forgotten (our judgement)."""


class Overrides(Struct, frozen=True):
    """What else counts beside the job file; None leaves the file's own.

    Attributes:
        paper: the name of a paper.
        units: of printed figures.
        one_per_page: every pattern on a page of its own.
        printer: the profile of the printer to draw for.
        tools: the person's own, of which only those count that the file does not name.
    """

    paper: str | None = None
    units: str | None = None
    one_per_page: bool | None = None
    printer: Profile | None = None
    tools: Tools = field(default_factory=Tools)


NO_OVERRIDES = Overrides()


def read_job(text: str, overrides: Overrides = NO_OVERRIDES) -> Job:
    """The job that a text describes.

    Overrides are written into the job's text, so that what is drawn from it, and what
    is read back from the PDF, say the same. The file's own words must hold without them.

    Raises:
        InputError: with every mistake in the text, each at its line; or with what is
            wrong with the overrides.
    """
    job, tables = _read(text, text), parsed(text)
    _check_overrides(overrides, tables)
    statements = _statements(overrides, tables)
    if statements:
        from joinery_templates.jobs.stating import stated

        job = _read(stated(text, statements), text)
    check_kerf_shown(job.tools, text)
    return job


def _read(text: str, seen: str) -> Job:
    """The job of a text, its mistakes told by the lines of the text that the person sees."""
    tables = parsed(text)
    desk = Desk()
    desk.check_names(tables, NAMES, ())
    desk.units = _units(tables, "units", Units.MM, desk)
    figures = _units(tables, "figures", desk.units, desk)
    title = desk.words(tables, "title", (), USUAL_TITLE)
    notes = "" if tables.get("notes") == "" else desk.words(tables, "notes", (), "", LONGEST_NOTES)
    sheets = read_sheets(tables, desk)
    tools = read_tools(tables, desk)
    boards = _boards(tables, desk)
    joints = read_joints(tables, Bench(boards, tools, figures), desk)
    desk.finish(seen)
    return Job(title, notes, figures, sheets, joints, text, tools)


def _statements(overrides: Overrides, tables: Table) -> dict[str, object]:
    """The overrides as they would stand in the job file."""
    paper: dict[str, object] = {}
    statements: dict[str, object] = {}
    if overrides.units is not None:
        statements["figures"] = overrides.units
    if overrides.paper is not None:
        paper["size"] = " ".join(overrides.paper.split())
    if overrides.one_per_page is not None:
        paper["one_per_page"] = overrides.one_per_page
    profile = overrides.printer
    if profile is not None:
        verdict = profile.verdict
        statements["printer"] = {
            "name": profile.name,
            "date": profile.date,
            "across": str(verdict.across),
            "along": str(verdict.along),
            "skew": str(verdict.skew_deg),
        }
        given = tables.get("paper")
        if profile.margins and not (isinstance(given, Mapping) and "margin" in given):
            paper["margin"] = {side: f"{width} mm" for side, width in profile.margins}
    if paper:
        statements["paper"] = paper
    tools = statements_beside(tables, overrides.tools)
    if tools:
        statements["tools"] = tools
    return statements


def _check_overrides(overrides: Overrides, tables: Table) -> None:
    """Refuse what cannot be meant, naming the option.

    Raises:
        InputError: with every mistake.
    """
    findings = []
    if overrides.units is not None and overrides.units not in list(Units):
        findings.append(_units_unknown(overrides.units).at("--units"))
    if overrides.paper is not None:
        desk = Desk(Units(str(tables.get("units", "mm"))))
        read_paper(overrides.paper, ("--paper",), desk)
        findings += [finding.at("--paper") for _, finding in desk.problems]
    if findings:
        raise InputError(*findings)


def _units(tables: Table, name: str, default: Units, desk: Desk) -> Units:
    """Units of the file's bare numbers, or of printed figures."""
    given = tables.get(name, str(default))
    if isinstance(given, str) and given in list(Units):
        return Units(given)
    desk.complain((name,), _units_unknown(given))
    return default


def _units_unknown(given: object) -> Finding:
    message = f'{shown(given)} is neither "mm" nor "in".'
    return mistake("units-unknown", message, "Write one of the two.")


def _boards(tables: Table, desk: Desk) -> dict[str, Board | None]:
    """The boards by name; None for one that is there but has a mistake."""
    given = tables.get("boards", {})
    remedy = "Write for example [boards.side], and width and thickness below it."
    if not isinstance(given, Mapping):
        message = f"boards is a table of boards with names, not {sort_of(given)}."
    elif not given:
        message = "The job names no boards."
    elif len(given) > MOST_BOARDS:
        message, remedy = f"The job names {len(given)} boards.", f"At most {MOST_BOARDS}."
    else:
        return {name: _board(name, table, desk) for name, table in given.items()}
    desk.complain(("boards",), mistake("no-boards", message, remedy))
    return {}


def _board(name: str, table: object, desk: Desk) -> Board | None:
    path: Path = ("boards", name)
    words = desk.check_words(name, path, LONGEST_NAME)
    if not isinstance(table, Mapping):
        desk.complain(
            path,
            mistake(
                "not-a-table",
                f"A board is a table with its sizes, not {sort_of(table)}.",
                "Write [boards.side], with the name that you give the board, and width and "
                "thickness below it.",
            ),
        )
        return None
    desk.check_names(table, BOARD_NAMES, path)
    sizes = {size: _size(table, size, path, desk) for size in BOARD_LIMITS}
    length = desk.length(table, "length", path)
    width, thickness = sizes["width"], sizes["thickness"]
    if words is None or width is None or thickness is None:
        return None
    return Board(words, width, thickness, length)


def _size(table: Table, size: str, path: Path, desk: Desk) -> Fraction | None:
    """A board's width or thickness, which must be there and within limits."""
    if size not in table:
        desk.complain(
            path, mistake("missing", f"The board's {size} is missing.", f"Write {size} = …")
        )
        return None
    length = desk.length(table, size, path)
    low, high = BOARD_LIMITS[size]
    if length is None or low <= length <= high:
        return length
    given = table[size]
    desk.complain(
        (*path, size),
        mistake(
            "size-impossible",
            f"A {size} of {shown(given)} cannot be meant.",
            f"Give from {length_text(low, desk.units)} to {length_text(high, desk.units)}; "
            f"a number without a unit is in {desk.units} here.",
        ),
    )
    return None
