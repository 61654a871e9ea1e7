"""What is set out along a board by its own lines, for a joint that has no main row.

Along an edge: where lines come to one of its arrises or run square across it, or a flat ends, and
where waste lies between them. Across a face: where a joint stops. Across an edge: what is gauged
along it and shows on the end alone.
"""

from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import pairwise

from msgspec.structs import replace

from joinery_templates.exact import ONE, ZERO, Fraction
from joinery_templates.joint import REFERENCE_EDGE, At, Joint, Mark, Member, SettingOut
from joinery_templates.wood.board import BROAD, EDGES, Face
from joinery_templates.wood.cut import Part, Surface
from joinery_templates.wood.faces import laid_out
from joinery_templates.wood.polygons import HalfPlane

Span = tuple[Fraction, Fraction]
Faces = tuple[Face, ...]

GAUGED = Fraction(10)
"""In mm: a row that ends nearer to its start is left to the gauge, and has no strip."""
PAST, LEAST = Fraction(10), Fraction(60)
"""A strip goes on so far past its last mark, to be held by, and is so long for its words."""
SQUARED_LINE = "squared line"
ACROSS_EDGE = "across the edge that is joined"
COPY = "Copy the marks."
STOPS = "Knife the marks from wall to wall of the waste."
GAUGE = "Set the gauge to the marks: the lines that it scribes must meet them everywhere."
ARRISES = {**dict.fromkeys(EDGES, BROAD), Face.END_GRAIN: EDGES}
"""At which faces lines across another one end, from its side at 0 to the one across."""


def strips(joint: Joint) -> tuple[SettingOut, ...]:
    """The rows that are drawn as strips: the main one, else those of the boards' own lines.

    Boards with the same marks share a strip; it has no waste where theirs is not the same.
    """
    if joint.main_row:
        return (joint.main_row,)
    alike = dict[SettingOut, list[SettingOut]]()
    for row in _own_rows(joint):
        alike.setdefault(_marks_alone(row), []).append(row)
    return tuple(
        row if all(one.waste == row.waste for one in others) else replace(row, waste=())
        for row, *others in alike.values()
    )


def set_out_by(joint: Joint, row: SettingOut) -> list[Member]:
    """The boards that a strip is for: a row's own, and those with the same marks for it."""
    rows = joint.rows if joint.main_row else _own_rows(joint)
    alike = {one.role for one in rows if _marks_alone(one) == _marks_alone(row)}
    return [one for one in joint.members if one.role in alike]


def _marks_alone(row: SettingOut) -> SettingOut:
    """What boards share whose marks mean the same."""
    return replace(row, role="", main=False, waste=())


def arrises_at(part: Part, row: SettingOut, position: Fraction) -> Faces:
    """The faces to whose arrises a line comes at a mark of a row of a board's own lines."""
    return _marks(part, row.face).get(-position if row.back else position, ()) if row.face else ()


def unmarked(part: Part, row: SettingOut) -> Sequence[Fraction]:
    """How far lines lie beyond a row's start that no strip has: within reach of a gauge there."""
    places = _marks(part, row.face) if row.face and row.start == SQUARED_LINE else ()
    beyond = sorted(abs(at) for at in places if at and (at < 0) != row.back)
    return beyond if beyond and beyond[-1] < GAUGED else ()


def waste_faces(part: Part, row: SettingOut) -> Faces:
    """The faces from which a row's waste is taken: along an edge broad ones, across it the edge."""
    found = {_wasted(part, row, bay) for bay in row.waste}
    return found.pop() if len(found) == 1 else ()


def waste_along(part: Part, row: SettingOut) -> tuple[Span, ...]:
    """Between which marks a board loses its wood.

    None where it loses it from several sides, or along an edge slanting beside a mark; what goes
    right through is left out where more goes from one face alone.
    """
    marks = [mark.position for mark in row.marks]
    bays = pairwise((ZERO, *marks))
    wasted = {bay: faces for bay in bays if (faces := _wasted(part, row, bay))}
    if len({*wasted.values()}) > 1:
        wasted = {bay: faces for bay, faces in wasted.items() if len(faces) == 1}
    slanting = {*marks} - {at for bay in wasted for at in bay} if row.face in EDGES else ()
    return tuple(wasted) if len({*wasted.values()}) == 1 and not slanting else ()


def _own_rows(joint: Joint) -> list[SettingOut]:
    return [row for member in joint.members for row in _rows_along(member)]


def _rows_along(member: Member) -> Iterator[SettingOut]:
    """They count from the board's end, or from a stretch's squared line, to both sides of it.

    The far edge has rows of its own where its marks differ, a broad face where no edge has any,
    and where none has any either there is one through the thickness.
    """
    part, shown = member.part, list[dict[Fraction, Faces]]()
    if part.slant:
        return
    start = "end" if part.place(member.hand).end else SQUARED_LINE
    for face in (*EDGES, *reversed(BROAD)):
        marks = _marks(part, face)
        if marks and marks not in shown and (face in EDGES or not shown):
            shown.append(marks)
            yield from _rows(member, f"the {face}", start, [*marks], face)
    if through := {} if shown else _marks(part, Face.END_GRAIN):
        thickness = part.board.thickness
        row = _row(member, ACROSS_EDGE, Face.OUTSIDE, [*through, thickness], Face.END_GRAIN)
        to_arris = Mark(thickness, Face.INSIDE, at=At.EDGE)
        yield replace(row, marks=(*row.marks[:-1], to_arris), use=GAUGE)
    for face in reversed(BROAD) if start != "end" else ():
        for row in _rows(member, f"the {start}", REFERENCE_EDGE, _across(part, face)):
            yield replace(row, waste=_wasted_across(part, face, row), use=STOPS)


def _rows(
    member: Member, title: str, start: str, places: Sequence[Fraction], face: Face | None = None
) -> Iterator[SettingOut]:
    """A row for each side of its start; none where all of it lies within reach of a gauge."""
    for back in (False, True):
        far = sorted(abs(place) for place in places if place and (place < 0) == back)
        if far and far[-1] >= GAUGED:
            yield _row(member, title, start, far, face, back)


def _row(
    member: Member,
    title: str,
    start: str,
    places: Sequence[Fraction],
    face: Face | None,
    back: bool = False,
) -> SettingOut:
    """A row of lines, the nearest first, with the waste between them."""
    long = max(places[-1] + PAST, LEAST)
    marks = tuple(Mark(place, "line") for place in places)
    row = SettingOut(
        title, member.role, long, marks, start=start, along_end=False, face=face, back=back
    )
    return replace(row, waste=waste_along(member.part, row), use=COPY)


@lru_cache(maxsize=256)
def _marks(part: Part, face: Face) -> dict[Fraction, Faces]:
    """By the second coordinate of each line: which arrises it comes to.

    Lines are those to an arris or square across; where on an edge a long slant ends at a flat, as
    beside a scarf's key, a line is squared there.
    """
    layout, found = laid_out(part, face), dict[Fraction, set[Face]]()
    arrises = ARRISES.get(face, ())
    sides = dict(zip((0, layout.width), arrises, strict=False))
    lines = [line for line in layout.lines if line.surface is not Surface.GROOVE]
    flats = {at for line in lines if line.start[0] == line.end[0] for at in (line.start, line.end)}
    for line in lines:
        across, along = (abs(a - b) for a, b in zip(line.start, line.end, strict=True))
        is_long = face in EDGES and 0 < across < along
        for x, y in (line.start, line.end):
            if x in sides or not along or (is_long and (x, y) in flats):
                found.setdefault(y, set()).update({sides[x]} if x in sides else ())
    return {y: tuple(one for one in arrises if one in found[y]) for y in sorted(found)}


def _across(part: Part, face: Face) -> list[Fraction]:
    """The x of every line that runs along the board on a broad face, as a stop's."""
    lines = [line for line in laid_out(part, face).lines if line.surface is not Surface.GROOVE]
    return sorted({line.start[0] for line in lines if line.start[0] == line.end[0]})


def _wasted_across(part: Part, face: Face, row: SettingOut) -> tuple[Span, ...]:
    """Where waste lies along the line that is squared across a face, up to the strip's end."""
    wasted = [shape.extent for shape in laid_out(part, face).waste if not shape.is_groove]
    bays = pairwise((ZERO, *(mark.position for mark in row.marks), row.width))
    return tuple(
        (low, high)
        for low, high in bays
        if any(left <= low and high <= right for (left, _), (right, _) in wasted)
    )


def _wasted(part: Part, row: SettingOut, bay: Span) -> Faces:
    """From which arrises all goes between two marks to one depth; none if it slants there.

    None either where it goes from both and wood stays between them, as a tenon.
    """
    if row.face not in ARRISES:
        return ()
    low, high = (-bay[1], -bay[0]) if row.back else bay
    found = list[Span]()
    layout = laid_out(part, row.face)
    for shape in layout.waste:
        up_to = shape.clipped(HalfPlane(ZERO, ONE, high))
        within = up_to and up_to.clipped(HalfPlane(ZERO, -ONE, -low))
        if within and within.has_area and not shape.is_groove:
            (left, _), (right, _) = within.extent
            if within.area == (right - left) * (high - low):
                found.append((left, right))
    found.sort()
    if not found or any(ends != starts for (_, ends), (starts, _) in pairwise(found)):
        return ()
    # What leaves in stages lies side by side.
    reached = found[0][0], found[-1][1]
    sides = zip((0, layout.width), ARRISES[row.face], strict=True)
    return tuple(face for x, face in sides if x in reached)
