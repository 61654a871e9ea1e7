"""From the text of a job file to a `Job`."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from joinery_templates.drawings.board_patterns import VIEWS
from joinery_templates.errors import InputError, mistake
from joinery_templates.jobs.desk import LONGEST_NOTES, Desk, Table
from joinery_templates.jobs.job import Corner, Job, JointJob
from joinery_templates.jobs.source import Path, parsed
from joinery_templates.joints.catalogue import kinds
from joinery_templates.joints.joint import Kind, Request
from joinery_templates.joints.parameter import read_parameters
from joinery_templates.joints.tools import Tools
from joinery_templates.lengths import Units, mm_text
from joinery_templates.sheets.margins import Margins
from joinery_templates.sheets.papers import Paper, find_paper
from joinery_templates.wood.board import Board

NAMES = ("title", "units", "notes", "paper", "tools", "boards", "joints")
PAPER_NAMES = ("size", "margin", "overlap")
MARGIN_NAMES = ("left", "right", "top", "bottom")
TOOL_NAMES = ("chisels", "kerf", "smallest_pin")
BOARD_NAMES = ("width", "thickness", "length")
JOINT_NAMES = ("kind", "name", "corners", "views")
CORNER_NAMES = ("name", "like")

USUAL_OVERLAP = Fraction(12)
OVERLAP_LIMITS = (Fraction(10), Fraction(60))
MOST_BOARDS = 200
MOST_JOINTS = 100
MOST_CORNERS = 100
MIRRORED = {"A": False, "B": True, "C": False, "D": True}
"""Corners of a four-sided piece, clockwise from above with A at the front left: at B
and D the boards meet with their other ends."""


@dataclass(frozen=True, slots=True)
class Overrides:
    """What the command line says over the job file; None leaves the file's own."""

    paper: str | None = None
    units: str | None = None


NO_OVERRIDES = Overrides()


def read_job(text: str, overrides: Overrides = NO_OVERRIDES) -> Job:
    """The job that a text describes.

    Raises:
        InputError: with every mistake in the text, each at its line.
    """
    tables = parsed(text)
    desk = Desk()
    desk.check_names(tables, NAMES, ())
    desk.units, shown_units = _units(tables, desk, overrides)
    title = desk.words(tables, "title", (), "Joinery templates")
    notes = desk.words(tables, "notes", (), "", LONGEST_NOTES)
    paper, margins, overlap = _paper(tables, desk, overrides)
    tools = _tools(tables, desk)
    boards = _boards(tables, desk)
    joints = _joints(tables, boards, tools, shown_units, desk)
    desk.finish(text)
    return Job(title, notes, shown_units, paper, margins, overlap, tuple(joints), text)


def _units(tables: Table, desk: Desk, overrides: Overrides) -> tuple[Units, Units]:
    """Units of the file's bare numbers, and units to print figures in."""
    given = tables.get("units", "mm")
    in_file = Units(given) if given in ("mm", "in") else None
    if in_file is None:
        desk.complain(
            ("units",), mistake("units-unknown", "Units are either \"mm\" or \"in\".", "Write one.")
        )
    if overrides.units is not None and overrides.units not in ("mm", "in"):
        raise InputError(
            mistake(
                "units-unknown", f'"{overrides.units[:40]}" is neither "mm" nor "in".',
                "Write one of them.", "--units",
            )
        )
    file_units = in_file or Units.MM
    return file_units, Units(overrides.units) if overrides.units else file_units


def _paper(tables: Table, desk: Desk, overrides: Overrides) -> tuple[Paper, Margins, Fraction]:
    table = desk.table(tables, "paper", (), PAPER_NAMES)
    usual = "A4" if desk.units is Units.MM else "Letter"
    paper: Paper | None
    if overrides.paper is not None:
        try:
            paper = find_paper(overrides.paper, desk.units)
        except InputError as error:
            raise error.at("--paper") from None
    else:
        size = desk.words(table, "size", ("paper",), usual)
        paper = desk.attempt(("paper", "size"), lambda: find_paper(size, desk.units))
    overlap = desk.length(table, "overlap", ("paper",), USUAL_OVERLAP)
    low, high = OVERLAP_LIMITS
    if overlap is not None and not low <= overlap <= high:
        desk.complain(
            ("paper", "overlap"),
            mistake(
                "overlap-impossible", f"An overlap of {mm_text(overlap)} does not work.",
                f"Give from {mm_text(low)} to {mm_text(high)}.",
            ),
        )
    margins = _margins(table, desk)
    return paper or find_paper(usual), margins or Margins(), overlap or USUAL_OVERLAP


def _margins(table: Table, desk: Desk) -> Margins | None:
    path: Path = ("paper", "margin")
    if "margin" not in table:
        return Margins()
    given = table["margin"]
    if not isinstance(given, Mapping):
        width = desk.check_length(given, path, zero_allowed=True)
        return None if width is None else desk.attempt(path, lambda: Margins.all_round(width))
    desk.check_names(given, MARGIN_NAMES, path)
    sides = {
        side: width
        for side in MARGIN_NAMES
        if side in given
        and (width := desk.check_length(given[side], (*path, side), zero_allowed=True)) is not None
    }
    return desk.attempt(path, lambda: Margins(**sides))


def _tools(tables: Table, desk: Desk) -> Tools:
    table = desk.table(tables, "tools", (), TOOL_NAMES)
    chisels = [
        desk.check_length(width, ("tools", "chisels", number))
        for number, width in enumerate(desk.listed(table, "chisels", ("tools",)))
    ]
    return Tools(
        chisels=tuple(width for width in chisels if width is not None),
        kerf=desk.length(table, "kerf", ("tools",)),
        smallest_pin=desk.length(table, "smallest_pin", ("tools",)),
    )


def _boards(tables: Table, desk: Desk) -> dict[str, Board | None]:
    """The boards by name; None for one that is there but has a mistake."""
    given = tables.get("boards")
    if not isinstance(given, Mapping) or not given or len(given) > MOST_BOARDS:
        desk.complain(
            ("boards",),
            mistake(
                "no-boards", f"A job names its boards, from 1 to {MOST_BOARDS}.",
                "Write for example [boards.side] with width and thickness below it.",
            ),
        )
        return {}
    return {name: _board(name, table, desk) for name, table in given.items()}


def _board(name: str, table: object, desk: Desk) -> Board | None:
    path: Path = ("boards", name)
    words = desk.check_words(name, path, "", 60)
    if not isinstance(table, Mapping):
        desk.complain(path, mistake("not-a-table", "A board is a table with its sizes."))
        return None
    desk.check_names(table, BOARD_NAMES, path)
    for size in ("width", "thickness"):
        if size not in table:
            desk.complain(path, mistake("missing", f"The board's {size} is missing."))
    width = desk.length(table, "width", path)
    thickness = desk.length(table, "thickness", path)
    length = desk.length(table, "length", path)
    if not words or width is None or thickness is None:
        return None
    return Board(words, width, thickness, length)


def _joints(
    tables: Table, boards: Mapping[str, Board | None], tools: Tools, units: Units, desk: Desk
) -> list[JointJob]:
    given = tables.get("joints")
    if not isinstance(given, list) or not given or len(given) > MOST_JOINTS:
        desk.complain(
            ("joints",),
            mistake(
                "no-joints", f"A job has from 1 to {MOST_JOINTS} joints.",
                'Write [[joints]] with kind = "through-dovetail" below it.',
            ),
        )
        return []
    joints = []
    for number, table in enumerate(given):
        path: Path = ("joints", number)
        if isinstance(table, Mapping):
            joint = _joint(table, path, boards, tools, units, desk)
            joints += [joint] if joint else []
        else:
            desk.complain(path, mistake("not-a-table", "A joint is a table under [[joints]]."))
    return joints


def _joint(
    table: Table,
    path: Path,
    boards: Mapping[str, Board | None],
    tools: Tools,
    units: Units,
    desk: Desk,
) -> JointJob | None:
    kind = _kind(table, path, desk)
    if kind is None:
        return None
    parameters = [parameter.name for parameter in kind.parameters]
    roles = [role.key for role in kind.roles]
    desk.check_names(table, (*JOINT_NAMES, *roles, *parameters), path)
    name = desk.words(table, "name", path, kind.title)
    corners = _corners(table, path, name, desk)
    views = _views(table, path, desk)
    given = None
    before = len(desk.problems)
    for parameter in kind.parameters:
        if parameter.name in table:
            value = table[parameter.name]
            desk.attempt((*path, parameter.name), lambda p=parameter, v=value: p.read(v, desk.units))
    if len(desk.problems) == before:
        given = read_parameters(kind.given_class, table, desk.units)
    chosen = [_chosen(table, role, path, boards, desk) for role in roles]
    first, second = chosen
    if given is None or first is None or second is None:
        return None
    request = Request((first, second), given, units, tools)
    joint = desk.attempt(path, lambda: kind.build(request))
    return None if joint is None else JointJob(name, joint, corners, views)


def _kind(table: Table, path: Path, desk: Desk) -> Kind | None:
    known = kinds()
    given = table.get("kind")
    if isinstance(given, str) and given in known:
        return known[given]
    desk.complain(
        (*path, "kind") if "kind" in table else path,
        mistake(
            "kind-unknown",
            "The joint's kind is missing." if given is None else f'No joint is called "{given}".'[:90],
            f"Known kinds: {', '.join(known)}.",
        ),
    )
    return None


def _chosen(
    table: Table, role: str, path: Path, boards: Mapping[str, Board | None], desk: Desk
) -> Board | None:
    given = table.get(role)
    if isinstance(given, str) and given in boards:
        return boards[given]
    names = ", ".join(f'"{name[:40]}"' for name in list(boards)[:8]) or "none yet"
    message = (
        f"The joint's {role} is missing."
        if given is None
        else f'No board is called "{str(given)[:40]}".'
    )
    desk.complain(
        (*path, role) if role in table else path,
        mistake("board-unknown", message, f'Set {role} to one of the boards: {names}.'),
    )
    return None


def _corners(table: Table, path: Path, name: str, desk: Desk) -> tuple[Corner, ...]:
    here: Path = (*path, "corners")
    given = desk.listed(table, "corners", path)
    if "corners" not in table:
        return (Corner(name, mirrored=False),)
    if not 1 <= len(given) <= MOST_CORNERS:
        desk.complain(
            here, mistake("no-corners", f"A joint has from 1 to {MOST_CORNERS} corners.")
        )
        return ()
    corners = []
    for number, corner in enumerate(given):
        read = _corner(corner, (*here, number), desk)
        if read.name in [other.name for other in corners]:
            desk.complain(
                (*here, number),
                mistake("corner-twice", f'Corner "{read.name}" stands twice.', "Leave one out."),
            )
        corners.append(read)
    return tuple(corners)


def _corner(given: object, path: Path, desk: Desk) -> Corner:
    """A corner's name, or a table of a name and the letter of the corner it is like."""
    if not isinstance(given, Mapping):
        name = desk.check_words(given, path, "?", 40)
        shown = f"Corner {name}" if name in MIRRORED else name
        return Corner(shown, MIRRORED.get(name, False))
    desk.check_names(given, CORNER_NAMES, path)
    name = desk.words(given, "name", path, "?", 40)
    like = given.get("like", "A")
    if like not in MIRRORED:
        desk.complain(
            (*path, "like"),
            mistake("corner-unknown", "A corner is like A, B, C or D.", 'Write like = "B".'),
        )
        return Corner(name, mirrored=False)
    return Corner(name, MIRRORED[str(like)])


def _views(table: Table, path: Path, desk: Desk) -> tuple[str, ...]:
    if "views" not in table:
        return ("wrap",)
    views: Sequence[object] = desk.listed(table, "views", path)
    known = [view for view in views if view in VIEWS]
    if len(known) != len(views) or not known:
        desk.complain(
            (*path, "views"),
            mistake("view-unknown", "Views are a list of names.", f"Known: {', '.join(VIEWS)}."),
        )
    return tuple(dict.fromkeys(str(view) for view in known))
