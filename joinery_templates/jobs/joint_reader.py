"""The joints of a job file, with their corners and views."""

from collections.abc import Mapping

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.errors import mistake, refusal
from joinery_templates.jobs.furniture import known_together
from joinery_templates.jobs.job import JointJob
from joinery_templates.jobs.lines import Path
from joinery_templates.jobs.mistakes import Mistakes
from joinery_templates.jobs.tables import MOST_JOINTS, CornerTable, JointTable
from joinery_templates.joint import Corner
from joinery_templates.joints import parameter
from joinery_templates.joints.catalogue import ALL_KINDS
from joinery_templates.joints.kind import Kind, Request
from joinery_templates.joints.reading import clipped, shown
from joinery_templates.joints.tool_fit import with_tool_advice
from joinery_templates.joints.tools import Tools
from joinery_templates.lengths import Units
from joinery_templates.wood.board import Board

Table = Mapping[str, object]

MIRRORED = {"A": False, "B": True, "C": False, "D": True}
"""Corners of a four-sided piece, clockwise from above with A at the front left: at B
and D the boards meet with their other ends. So it is where the first board stands left
and right; where it stands at the front and back, it is the other way round."""


class JointReader(Struct, frozen=True):
    """What must be known before any joint is read.

    Attributes:
        boards: by name; None for one that is there but has a mistake.
        tools: the person's.
        units: of bare numbers.
        figures: units that figures are printed in.
        mistakes: those found so far; more are added.
    """

    boards: Mapping[str, Board | None]
    tools: Tools
    units: Units
    figures: Units
    mistakes: Mistakes

    def joints(self, given: Table) -> tuple[JointJob, ...]:
        """The joints of a job without those that have a mistake."""
        tables = given.get("joints", [])
        remedy = 'Write [[joints]], in two brackets, and kind = "through-dovetail" below it.'
        if not isinstance(tables, list):
            message = "Every joint has its own [[joints]]."
        elif not tables:
            message = "The job has no joints."
        elif len(tables) > MOST_JOINTS:
            message, remedy = f"The job has {len(tables)} joints.", f"At most {MOST_JOINTS}."
        else:
            joints = [self._joint(table, ("joints", n)) for n, table in enumerate(tables)]
            return known_together(joints, self.figures, self.mistakes)
        self.mistakes.add(("joints",), mistake("no-joints", message, remedy))
        return ()

    def _joint(self, given: object, path: Path) -> JointJob | None:
        mistakes = self.mistakes
        remedy = "Write [[joints]] on a line of its own and what belongs to the joint below it."
        table = mistakes.attempt(path, lambda: parameter.as_table(given, "a joint", remedy))
        kind = None if table is None else mistakes.attempt(path, lambda: self._kind(table))
        if table is None or kind is None:
            return None
        roles = [role.key for role in kind.roles]
        known = (*parameter.names_of(JointTable), *roles, *parameter.names_of(kind.parameter_class))
        mistakes.check_names(path, table, known)
        own: JointTable = mistakes.values(path, JointTable, table, self.units)
        parameters = mistakes.attempt(
            path, lambda: parameter.read_parameters(kind.parameter_class, table, self.units)
        )
        name = own.name or kind.title
        first_in_front = self._first_in_front(own, table, roles, path)
        corners = self._corners(own.corners, table, path) or (Corner(name, mirrored=False),)
        if first_in_front:
            corners = tuple(replace(one, mirrored=not one.mirrored) for one in corners)
        first, second = (self._board(table, role, path) for role in roles)
        if parameters is None or first is None or second is None:
            return None
        views = tuple(dict.fromkeys(own.views))
        request = Request(
            (first, second), parameters, self.figures, self.tools, corners, first_in_front, views
        )
        joint = mistakes.attempt(
            path, lambda: with_tool_advice(kind.build(request), self.tools, self.figures)
        )
        if joint is None:
            return None
        if joint.at_leg and own.front is not None:
            finding = mistake(
                "front-of-legs",
                "Rails at the front and back come to the reference edge of a leg.",
                'Leave front out: on = "reference-edge" or "inside" says it.',
            )
            mistakes.add((*path, "front"), finding)
        return JointJob(name, joint, request, own.seams)

    def _kind(self, table: Table) -> Kind:
        if "kind" not in table:
            remedy = f'Write for example kind = "through-dovetail". {ALL_KINDS}'
            raise refusal("kind-unknown", "The joint's kind is missing.", remedy)
        kind = parameter.parameter_of(JointTable, "kind").read(table["kind"], self.units)
        assert isinstance(kind, Kind)
        return kind

    def _first_in_front(self, own: JointTable, table: Table, roles: list[str], path: Path) -> bool:
        """Whether the joint's first board is said to be at the front and back of the piece."""
        first, second = (table.get(role) for role in roles)
        if own.front is None or own.front in (first, second):
            return own.front == first != second
        self.mistakes.add(
            (*path, "front"),
            mistake(
                "board-unknown",
                f"{shown(own.front)} is not one of the joint's boards.",
                f"Set front to the one at the front and back: {shown(first)} or {shown(second)}.",
            ),
        )
        return False

    def _board(self, table: Table, role: str, path: Path) -> Board | None:
        given = table.get(role)
        if isinstance(given, str) and given in self.boards:
            return self.boards[given]
        if not self.boards:
            return None  # which is told already
        names = ", ".join(f'"{clipped(name)}"' for name in list(self.boards)[:8])
        message = (
            f"No board is called {shown(given)}."
            if role in table
            else f"The joint's {role} is missing."
        )
        self.mistakes.add(
            (*path, role) if role in table else path,
            mistake("board-unknown", message, f"Set {role} to one of the boards: {names}."),
        )
        return None

    def _corners(
        self, read: tuple[CornerTable, ...], table: Table, path: Path
    ) -> tuple[Corner, ...]:
        """The corners; a letter alone is one of a four-sided piece, and no name is twice there."""
        corners: list[Corner] = []
        for number, (one, raw) in enumerate(
            zip(read, parameter.listed(table.get("corners")), strict=False)
        ):
            letter = one.name.upper()
            if letter in MIRRORED and isinstance(raw, str):
                corner = Corner(f"Corner {letter}", MIRRORED[letter], letter, letter)
            else:
                corner = Corner(one.name, MIRRORED[one.like], like=one.like)
            if corner.name in [other.name for other in corners]:
                message = f"{shown(corner.name)} stands here twice."
                self.mistakes.add(
                    (*path, "corners", number), mistake("corner-twice", message, "Leave one out.")
                )
            corners.append(corner)
        return tuple(corners)
