"""From the text of a job file to a `Job`: all of it but the joints."""

from collections.abc import Mapping

from msgspec.structs import replace

from joinery_templates.errors import mistake
from joinery_templates.jobs import overrides as wishes
from joinery_templates.jobs import tables
from joinery_templates.jobs.job import Job
from joinery_templates.jobs.joint_reader import JointReader
from joinery_templates.jobs.kept_tools import check_kerf_shown
from joinery_templates.jobs.mistakes import Mistakes
from joinery_templates.jobs.overrides import NO_OVERRIDES, Overrides
from joinery_templates.jobs.source import parsed
from joinery_templates.joints.parameter import as_table, names_of, read_table
from joinery_templates.joints.reading import read_words
from joinery_templates.lengths import Units
from joinery_templates.sheets.correction import Correction
from joinery_templates.sheets.margins import Margins
from joinery_templates.sheets.papers import find_paper
from joinery_templates.sheets.setup import SheetSetup
from joinery_templates.wood.board import Board

NAMES = (*names_of(tables.JobWords), *tables.TABLES, "boards", "joints")


def read_job(text: str, overrides: Overrides = NO_OVERRIDES) -> Job:
    """The job that a text describes.

    Overrides are written into the job's text, so that what is drawn from it, and what
    is read back from the PDF, say the same. The file's own words must hold without them.

    Raises:
        InputError: with every mistake in the text, each at its line; or with what is
            wrong with the overrides.
    """
    job, given = _read(text, text), parsed(text)
    wishes.check(overrides, given)
    changes = wishes.changes_to(given, overrides)
    if changes:
        job = _read(wishes.changed(text, changes), text)
    check_kerf_shown(job.tools, text)
    return job


def _read(text: str, seen: str) -> Job:
    """The job of a text, its mistakes told by the lines of the text that the person sees."""
    given, mistakes = parsed(text), Mistakes()
    mistakes.check_names((), given, NAMES)
    words: tables.JobWords = mistakes.values((), tables.JobWords, given, Units.MM)
    units = words.units
    paper, printer, tools = (
        mistakes.table(given, name, table, units) for name, table in tables.TABLES.items()
    )
    boards = _boards(given, units, mistakes)
    both = words.figures == tables.BOTH
    figures = units if both or words.figures is None else Units(words.figures)
    joints = JointReader(boards, tools, units, figures, mistakes).joints(given)
    mistakes.tell(seen)
    sheets = _sheets(paper, printer if "printer" in given else None, units)
    return Job(
        words.title, words.notes, figures, sheets, joints, text, tools, both, words.rods or ""
    )


def _sheets(
    paper: tables.PaperTable, printer: tables.PrinterTable | None, units: Units
) -> SheetSetup:
    return SheetSetup(
        paper=paper.size or find_paper("A4" if units is Units.MM else "Letter"),
        margins=Margins(**vars(paper.margin)),
        overlap=paper.overlap,
        thickness=paper.thickness,
        marks=paper.marks,
        one_per_page=paper.one_per_page,
        correction=Correction(*vars(printer).values()) if printer else None,
    )


def _boards(
    given: Mapping[str, object], units: Units, mistakes: Mistakes
) -> dict[str, Board | None]:
    """The boards by name; None for one that is there but has a mistake."""
    boards = given.get("boards", {})
    remedy = "Write for example [boards.side], with width and thickness below it."
    if not isinstance(boards, Mapping):
        message = "Every board has a name and a table of its own."
    elif not boards:
        message = "The job names no boards."
    elif len(boards) > tables.MOST_BOARDS:
        message = f"The job names {len(boards)} boards."
        remedy = f"At most {tables.MOST_BOARDS}."
    else:
        read = {name: _board(name, table, units, mistakes) for name, table in boards.items()}
        _check_names(read, mistakes)
        return read
    mistakes.add(("boards",), mistake("no-boards", message, remedy))
    return {}


def _board(name: str, given: object, units: Units, mistakes: Mistakes) -> Board | None:
    path = ("boards", name)
    remedy = (
        "Write [boards.side], with the name that you give the board, and width and thickness "
        "below it."
    )
    words = mistakes.attempt(path, lambda: read_words(name, tables.LONGEST_BOARD_NAME))
    sizes = mistakes.attempt(
        path,
        lambda: read_table(tables.BoardTable, as_table(given, "a board", remedy), units),
    )
    return Board(words, **vars(sizes)) if words and sizes else None


def _check_names(boards: Mapping[str, Board | None], mistakes: Mistakes) -> None:
    """On paper no two boards of different sizes may read alike."""
    found: dict[str, Board] = {}
    for name, board in boards.items():
        alike = board and found.setdefault(board.name.casefold(), board)
        if board and alike and replace(board, name=alike.name) != alike:
            message = f'On paper this looks the same as "{alike.name}", a board of other sizes.'
            remedy = "Give one of the two another name; boards cut alike need only one."
            mistakes.add(("boards", name), mistake("board-twice", message, remedy))
