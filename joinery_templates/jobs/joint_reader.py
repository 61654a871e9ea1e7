"""The joints of a job file, with their corners and views."""

from collections.abc import Callable, Mapping
from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.drawings.board_patterns import VIEWS
from joinery_templates.errors import mistake
from joinery_templates.jobs.desk import Desk, Table, cut, listed, shown, sort_of
from joinery_templates.jobs.job import JointJob
from joinery_templates.jobs.lines import Path
from joinery_templates.joint import Corner
from joinery_templates.joints.catalogue import kinds, known_kind
from joinery_templates.joints.kind import Kind, Request
from joinery_templates.joints.tool_fit import with_tool_advice
from joinery_templates.joints.tools import Tools
from joinery_templates.lengths import Units
from joinery_templates.wood.board import Board

JOINT_NAMES = ("kind", "name", "corners", "views", "seams", "front")
CORNER_NAMES = ("name", "like")
MOST_JOINTS = 100
MOST_CORNERS = 100
MOST_SEAMS = 100
LONGEST_NAME = 40
MIRRORED = {"A": False, "B": True, "C": False, "D": True}
"""Corners of a four-sided piece, clockwise from above with A at the front left: at B
and D the boards meet with their other ends. So it is where the first board stands left
and right; where it stands at the front and back, it is the other way round."""


class Bench(Struct, frozen=True):
    """What lies ready before any joint is read.

    Attributes:
        boards: by name; None for one that is there but has a mistake.
        tools: the person's.
        figures: units that figures are printed in.
    """

    boards: Mapping[str, Board | None]
    tools: Tools
    figures: Units


def read_joints(tables: Table, bench: Bench, desk: Desk) -> tuple[JointJob, ...]:
    """The joints of a job without those that have a mistake, which the desk keeps."""
    given = tables.get("joints", [])
    remedy = 'Write [[joints]], in two brackets, and kind = "through-dovetail" below it.'
    if not isinstance(given, list):
        message = f"joints is a list of tables, not {sort_of(given)}."
    elif not given:
        message = "The job has no joints."
    elif len(given) > MOST_JOINTS:
        message, remedy = f"The job has {len(given)} joints.", f"At most {MOST_JOINTS}."
    else:
        joints = [_joint(table, ("joints", n), bench, desk) for n, table in enumerate(given)]
        return tuple(joint for joint in joints if joint)
    desk.complain(("joints",), mistake("no-joints", message, remedy))
    return ()


def _joint(table: object, path: Path, bench: Bench, desk: Desk) -> JointJob | None:
    if not isinstance(table, Mapping):
        desk.complain(
            path,
            mistake(
                "not-a-table",
                f"A joint is a table, not {sort_of(table)}.",
                "Write [[joints]] on a line of its own and what belongs to the joint below it.",
            ),
        )
        return None
    kind = _kind(table, path, desk)
    if kind is None:
        return None
    parameters = [parameter.name for parameter in kind.parameters]
    roles = [role.key for role in kind.roles]
    desk.check_names(table, (*JOINT_NAMES, *roles, *parameters), path)
    name = desk.words(table, "name", path, kind.title)
    first_in_front = _first_in_front(table, roles, path, desk)
    corners = _corners(table, path, name, desk)
    if first_in_front:
        corners = tuple(replace(corner, mirrored=not corner.mirrored) for corner in corners)
    views = _views(table, path, desk)
    seams = _seams(table, path, desk)
    given = _parameters(kind, table, path, desk)
    first, second = (_chosen(table, role, path, bench, desk) for role in roles)
    if given is None or first is None or second is None:
        return None
    request = Request((first, second), given, bench.figures, bench.tools)
    joint = desk.attempt(
        path, lambda: with_tool_advice(kind.build(request), bench.tools, bench.figures)
    )
    return None if joint is None else JointJob(name, joint, corners, views, seams, first_in_front)


def _first_in_front(table: Table, roles: list[str], path: Path, desk: Desk) -> bool:
    """Whether the joint's first board is said to be at the front and back of the piece."""
    first, second = (table.get(role) for role in roles)
    given = table.get("front", second)
    if given not in (first, second):
        desk.complain(
            (*path, "front"),
            mistake(
                "board-unknown",
                f"{shown(given)} is not one of the joint's boards.",
                f"Set front to the one at the front and back: {shown(first)} or {shown(second)}.",
            ),
        )
        return False
    return bool(given == first != second)


def _seams(table: Table, path: Path, desk: Desk) -> tuple[Fraction, ...]:
    """Where wide patterns are to be cut, from the reference edge."""
    given = listed(table.get("seams", []))
    if len(given) > MOST_SEAMS:
        desk.complain(
            (*path, "seams"),
            mistake("too-many", f"{len(given)} seams are listed.", f"At most {MOST_SEAMS}."),
        )
        given = []
    read = (desk.check_length(seam, (*path, "seams", n)) for n, seam in enumerate(given))
    return tuple(seam for seam in read if seam is not None)


def _parameters(kind: Kind, table: Table, path: Path, desk: Desk) -> object | None:
    """An instance of the kind's own dataclass, None where a value is no good."""
    before = len(desk.problems)
    values = {}
    for parameter in kind.parameters:
        if parameter.name in table:
            value = table[parameter.name]
            here = (*path, parameter.name)
            read = _reading(parameter.read, value, desk.units)
            values[parameter.name] = desk.attempt(here, read, value)
    if len(desk.problems) > before:
        return None
    given: object = kind.given_class(**values)
    return given


def _reading(
    read: Callable[[object, Units], object], value: object, units: Units
) -> Callable[[], object]:
    return lambda: read(value, units)


def _kind(table: Table, path: Path, desk: Desk) -> Kind | None:
    if "kind" not in table:
        known = ", ".join(kinds())
        desk.complain(
            path,
            mistake("kind-unknown", "The joint's kind is missing.", f"Known: {known}."),
        )
        return None
    given = table["kind"]
    name = given if isinstance(given, str) else shown(given)
    return desk.attempt((*path, "kind"), lambda: known_kind(name))


def _chosen(table: Table, role: str, path: Path, bench: Bench, desk: Desk) -> Board | None:
    given = table.get(role)
    if isinstance(given, str) and given in bench.boards:
        return bench.boards[given]
    if isinstance(given, str) and not bench.boards:
        return None  # that no boards are named is told already
    names = ", ".join(f'"{cut(name)}"' for name in list(bench.boards)[:8]) or "none yet"
    desk.complain(
        (*path, role) if role in table else path,
        mistake(
            "board-unknown",
            f"The joint's {role} is missing."
            if given is None
            else f"No board is called {shown(given)}.",
            f"Set {role} to one of the boards: {names}.",
        ),
    )
    return None


def _corners(table: Table, path: Path, name: str, desk: Desk) -> tuple[Corner, ...]:
    here: Path = (*path, "corners")
    if "corners" not in table:
        return (Corner(name, mirrored=False),)
    given = listed(table["corners"])
    if not 1 <= len(given) <= MOST_CORNERS:
        desk.complain(
            here,
            mistake(
                "no-corners",
                f"{len(given)} corners are listed.",
                f"Give from 1 to {MOST_CORNERS}, or leave the line out for one.",
            ),
        )
        return ()
    corners: list[Corner] = []
    for number, raw in enumerate(given):
        corner = _corner(raw, (*here, number), desk)
        if corner and corner.name in [other.name for other in corners]:
            desk.complain(
                (*here, number),
                mistake(
                    "corner-twice", f"{shown(corner.name)} stands here twice.", "Leave one out."
                ),
            )
        corners += [corner] if corner else []
    return tuple(corners)


def _corner(given: object, path: Path, desk: Desk) -> Corner | None:
    """A corner's name, or a table of a name and the letter of the corner it is like."""
    if not isinstance(given, Mapping):
        name = desk.check_words(given, path, LONGEST_NAME)
        if name is None:
            return None
        letter = name.upper()
        if letter in MIRRORED:
            return Corner(f"Corner {letter}", MIRRORED[letter], letter)
        return Corner(name, mirrored=False)
    desk.check_names(given, CORNER_NAMES, path)
    like = given.get("like", "A")
    mirrored = MIRRORED.get(like.upper()) if isinstance(like, str) else None
    if mirrored is None:
        desk.complain(
            (*path, "like"),
            mistake(
                "corner-unknown",
                f"{shown(like)} is not A, B, C or D.",
                "Write the letter of the corner that this one is like.",
            ),
        )
    if "name" not in given:
        desk.complain(path, mistake("missing", "The corner's name is missing.", "Write name = …"))
        return None
    name = desk.check_words(given["name"], (*path, "name"), LONGEST_NAME)
    return None if name is None else Corner(name, bool(mirrored))


def _views(table: Table, path: Path, desk: Desk) -> tuple[str, ...]:
    if "views" not in table:
        return ("wrap",)
    views = listed(table["views"])
    for view in views:
        if view not in VIEWS:
            remedy = f"Known: {', '.join(VIEWS)}."
            desk.complain(
                (*path, "views"),
                mistake("view-unknown", f"No view is called {shown(view)}.", remedy),
            )
    if not views:
        desk.complain(
            (*path, "views"),
            mistake("no-views", "No views are listed.", "Name one, or leave the line out."),
        )
    return tuple(dict.fromkeys(str(view) for view in views))
