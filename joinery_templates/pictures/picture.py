"""A joint's pictures as figures: apart, together, with its waste; and one for each step."""

from collections.abc import Iterable, Iterator, Sequence
from math import dist

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.drawings.arrangement import BY_EDGES, BY_FACES, seen_axis
from joinery_templates.drawings.figure import Align, Figure, Role, joined
from joinery_templates.drawings.lettering import Lettering, Paragraph, Row, column, wrapped
from joinery_templates.drawings.look import BODY, HATCH_RISE
from joinery_templates.exact import Fraction, as_float
from joinery_templates.joint import Joint, Loose, Member
from joinery_templates.pictures import solid
from joinery_templates.pictures.paper import MARGIN, SWING, Drawn, boxed, ruled
from joinery_templates.pictures.pieces import (
    Piece,
    apart,
    eye_of,
    grain,
    hatching,
    piece,
    placed,
    seen_among,
    zone,
)
from joinery_templates.pictures.seen import Box, Frame, InFront, Segment, in_front, visible
from joinery_templates.pictures.stages import View, WorkedPiece, finished, views, with_waste
from joinery_templates.pictures.words import Said, Spot, Writer
from joinery_templates.wood.board import BROAD, Face
from joinery_templates.wood.placement import Placement

APART, TOGETHER, WASTE, HATCHED, HOLES = "Apart", "Together", "Waste", "Waste, hatched", "Holes"
FEWEST, SHORTEST = 4, 0.6
"""So many lines of hatching, each longer than so many mm, are seen as such."""
WIDEST_NAMES = Fraction(30), Fraction(17)
"""A longer name takes several lines."""
NARROWEST, GAP = Fraction(52), Fraction(3)
"""Room across for a picture of the joint, and what is left between two."""
HEIGHT, OF_SEVERAL = Fraction(58), Fraction(48)
"""Room upwards for the pictures of a job's only joint, and of one of several."""
DOT = 0.7
"""A pointer ends in a dot so wide on the face that it names (as ISO 128 has it, from memory)."""
WORDS_BESIDE = 9.0
"""Room that is left for words beside the pieces, all round."""
HATCHING = tuple((pitch, rise) for pitch in (1.5, 0.7) for rise in (HATCH_RISE, -HATCH_RISE))
"""From one line of hatching to the next, upright on the paper, and how steep it is: as on the
patterns, or where too little of that falls on narrow waste, the other way or closer."""
WIDE, VERY_WIDE = 9, 13
"""A board more than so many times as wide as thick is shown only so many times as wide."""
PAST, LEAST_PAST = 3, Fraction(20)
"""So many thicknesses of a board are shown behind its joint."""
GAP_APART, MOST_APART = 2.1, 5.9
"""Between pieces that are shown apart, and how far one is moved at most, in thicknesses. Odd
shares, so that no edge comes to lie just behind another."""
FRONT = {BY_FACES: Face.OUTSIDE, BY_EDGES: Face.REFERENCE_EDGE}
"""What a plan shows of boards that lie flat."""
HERE: solid.Spot = (0.0, 0.0, 0.0)


class _Stand(Struct, frozen=True):
    """Where a piece stands: its frame in the first one's, and whether it is let into boards."""

    member: Member
    at: Placement | None
    is_let_in: bool


class _Scene(Struct, frozen=True):
    """A view as it is looked at.

    Attributes:
        pieces: each with its frame, and with what is seen of its lines.
        scale: of the paper.
        middle: of the pieces before anything was cut, on the paper.
    """

    pieces: tuple[tuple[Piece, Frame, list[Segment]], ...]
    scale: float
    middle: Spot


class Pictures:
    """All pictures of one joint; no piece is worked out twice.

    Args:
        joint: the joint.
        mirrored: whether it stands at a corner whose ends are the mirror image.
        lettering: how wide words run.
    """

    def __init__(self, joint: Joint, mirrored: bool, lettering: Lettering) -> None:
        self._joint, self._lettering = joint, lettering
        self._eyes = [eye_of(joint, mirrored, is_behind) for is_behind in (False, True)]
        thick = max(member.part.board.thickness for member in joint.members)
        places = zip(joint.members, (None, *joint.placements), strict=True)
        loose = [(one, at) for one in joint.loose for at in one.placements]
        if across := _across(joint, thick):
            # What stands in the part that is broken off is not drawn; what runs along is one.
            near = [
                (one, at)
                for one, at in loose
                if len(one.placements) == 1 or max(x for x, *_ in zone(one.member, at)) <= across
            ]
            loose, across = near or loose, None if loose and not near else across
        self._shown = solid.Shown(max(PAST * thick, LEAST_PAST), across)
        self._stands = (
            *(_Stand(one, at, is_let_in=False) for one, at in places),
            *(_Stand(one.member, at, not one.is_inside) for one, at in loose),
        )
        self._far = GAP_APART * as_float(thick), MOST_APART * as_float(thick)
        self._offs: dict[tuple[int, ...], solid.Spot] = {}
        self._corners = {
            id(one): solid.corners(solid.blank(one.part, self._shown)) for one in joint.all_members
        }
        self._pieces: dict[tuple[int, Frame], list[Piece]] = {}

    def rows(self, width: Fraction, height: Fraction = HEIGHT) -> Iterator[Figure]:
        """The pictures of the joint side by side, as many as have room in a column."""
        count = min(3, max(1, int(width / NARROWEST)))
        room = width / count
        figures = self.of_joint(room - GAP, height)
        for start in range(0, len(figures), count):
            row = figures[start : start + count]
            places = (one.moved(room * number, GAP) for number, one in enumerate(row))
            yield joined(width, max(one.height for one in row) + GAP, places)

    def of_joint(self, width: Fraction, height: Fraction) -> tuple[Figure, ...]:
        """The joint apart, together, and the board that is set out first with its waste.

        Args:
            width: of the box that each stands in the middle of.
            height: that one of them may have, its caption left aside.
        """
        shown = {
            APART: finished(self._joint, is_apart=True),
            TOGETHER: finished(self._joint),
        }
        if any(one.part.cuts for one in self._joint.members):
            shown[WASTE] = with_waste(self._joint)
        room = as_float(width), as_float(height)
        scale = self._scale(shown.values(), room, WORDS_BESIDE)
        figures = []
        for words, view in shown.items():
            scene = self._scene(view, scale)
            drawn, said = self._worded(scene, room, words != TOGETHER)
            told = self._marked(drawn) if words == WASTE else words + self._seen_from(scene)
            caption = Paragraph(told, BODY, align=Align.CENTRE)
            below = column((caption,), width, self._lettering)
            above = boxed(drawn, said, self._lettering, width, below.height + 1)
            figures.append(joined(width, above.height, (above, below)))
        return tuple(figures)

    def _seen_from(self, scene: _Scene) -> str:
        """From which side a corner is seen; what lies flat, where not from the front as its plan.

        Of a leg the faces are named instead.
        """
        joint, faces = self._joint, {face.name for face in scene.pieces[0][0].faces}
        axis = seen_axis(joint.placement, joint.at_corner)
        if axis != BY_FACES and all(Face.END_GRAIN in one.part.faces for one in joint.members):
            side = "outside" if Face.OUTSIDE in faces else "inside"
        else:
            is_behind = axis is not None and not joint.at_leg and FRONT[axis] not in faces
            side = "behind" if is_behind else ""
        return f", seen from {side}" if side else ""

    def _marked(self, drawn: Sequence[Drawn]) -> str:
        """What a picture shows on the boards: holes, or waste, whose hatching may be seen."""
        cuts = [cut for one in self._joint.members for cut in one.part.cuts if not cut.is_groove]
        if all(cut.bore for cut in cuts):
            return HOLES
        seen = [role for role, ends in drawn if role is Role.HATCH and dist(*ends) > SHORTEST]
        return HATCHED if len(seen) >= FEWEST else WASTE

    def of_steps(self, width: Fraction, height: Fraction) -> tuple[Figure | None, ...]:
        """For each step of the order of work how things are then; None where nothing new shows.

        They stand beside the words of their steps, and have none of their own. All are to one
        scale, but loose pieces by themselves, such as keys, are drawn larger.

        Args:
            width: that one of them may have.
            height: that one of them may have.
        """
        shown = [view and self._with_work(view) for view in views(self._joint)]
        room = as_float(width), as_float(height)
        beside = MARGIN + SWING
        scale = self._scale((view for view in shown if view), room, beside)

        def drawn(view: View) -> Figure:
            own = scale
            if not any(worked.member in self._joint.members for worked in view.pieces):
                own = max(scale, self._scale((view,), (room[0], room[1] * 3 / 4), beside))
            return boxed(_drawn(self._scene(view, own)), (), self._lettering)

        return tuple(drawn(view) if view else None for view in shown)

    def _with_work(self, view: View) -> View:
        """A view, from behind where nothing of the work on its one board would be seen else."""
        (worked, *others) = view.pieces
        if others or not (worked.taken or worked.waste):
            return view
        whole = View((WorkedPiece(worked.member),))
        seen, bare = (
            [self._piece(*one).lines for one in self._placed(each)] for each in (view, whole)
        )
        return replace(view, is_behind=seen == bare)

    def _scale(self, shown: Iterable[View], room: Spot, beside: float) -> float:
        """The largest at which all of several pictures fit, and not above full size."""
        scale = 1.0
        for view in shown:
            left, low, right, high = self._extent(view)
            for free, size in zip(room, (right - left, high - low), strict=True):
                scale = min(scale, (free - 2 * beside) / size)
        return scale

    def _extent(self, view: View) -> Box:
        """The box on the paper round the pieces as they are before anything is cut."""
        placed = (
            (self._corners[id(worked.member)], frame) for _, worked, frame in self._placed(view)
        )
        spots = [frame.spot(spot) for corners, frame in placed for spot in corners]
        across, up, _ = zip(*spots, strict=True)
        return min(across), min(up), max(across), max(up)

    def _placed(self, view: View) -> Iterator[tuple[int, WorkedPiece, Frame]]:
        """The pieces of a picture: their numbers, how far they are cut, where they stand."""
        shown = [worked.member for worked in view.pieces]
        let_in = [one for one in self._joint.let_in if one.member in shown]
        off = self._off(let_in) if view.is_apart else HERE
        for worked in view.pieces:
            for number, stand in enumerate(self._stands):
                if stand.member is worked.member:
                    comes_off = stand.is_let_in if let_in else stand.at is None
                    place = off if comes_off else HERE
                    yield number, worked, placed(self._eyes[view.is_behind], stand.at, place)

    def _off(self, let_in: Sequence[Loose]) -> solid.Spot:
        """How far what comes off is moved; worked out once for all pictures that show it."""
        which = tuple(map(id, let_in))
        if which not in self._offs:
            self._offs[which] = apart(self._joint, let_in, *self._far)
        return self._offs[which]

    def _scene(self, view: View, scale: float) -> _Scene:
        standing = [(self._piece(*one), one[-1]) for one in self._placed(view)]
        pressed = max(0.0, -as_float(self._joint.allowance))
        lines = seen_among([one for one, _ in standing], pressed)
        left, low, right, high = self._extent(view)
        middle = scale * (left + right) / 2, scale * (low + high) / 2
        pieces = ((*one, own) for one, own in zip(standing, lines, strict=True))
        return _Scene(tuple(pieces), scale, middle)

    def _piece(self, number: int, worked: WorkedPiece, frame: Frame) -> Piece:
        known = self._pieces.setdefault((number, frame), [])
        made = next((one for one in known if one.worked == worked), None)
        if made is None:
            made = piece(worked, frame, self._shown)
            known.append(made)
        return made

    def _worded(
        self, scene: _Scene, room: Spot, in_full: bool
    ) -> tuple[Sequence[Drawn], Sequence[Said]]:
        """A picture and its names; in full with faces and reference edges too."""
        (x, y), scale = scene.middle, scene.scale
        across, up = (free / 2 - MARGIN for free in room)
        drawn, faces = _drawn(scene), [face for one, *_ in scene.pieces for face in one.faces]
        lines = (line for role, line in drawn if role is not Role.HATCH)
        page = (x - across, y - up), (x + across, y + up)
        writer = Writer(faces, lines, scale, page, self._lettering)
        # Of pieces that are alike one is named; what must be told comes before what may be.
        unlike = {one[0].worked.member.role: one for one in reversed(scene.pieces)}
        pieces = list(unlike.values())[::-1]
        boards = [one for one in pieces if one[0].worked.member in self._joint.members]
        edges = boards if in_full else []
        for board in edges[:1]:
            writer.reference_edge(*board)
        # What lies inside boards shows least of itself, and has the first choice of a place.
        inside = [loose.member for loose in self._joint.loose if loose.is_inside]
        for one, *_ in sorted(pieces, key=lambda one: one[0].worked.member not in inside):
            writer.name(one, self._ways(one, in_full))
        for board in edges[1:]:
            writer.reference_edge(*board)
        along = (line for one, frame, _ in scene.pieces for line in grain(one, frame, self._shown))
        flowing = (line for one in visible(along, in_front(faces)) for _, line in ruled(one, scale))
        thin = (*writer.clear(flowing), *writer.pointers)
        dots = (((x - DOT / 2, y), (x + DOT / 2, y)) for (x, y), _ in writer.pointers)
        fine = (*((Role.THIN, line) for line in thin), *((Role.DOT, dot) for dot in dots))
        return [*drawn, *fine], writer.said

    def _ways(self, one: Piece, in_full: bool) -> Iterator[list[Row]]:
        """Ways to write a piece's name; in full with its role and face, where they fit."""
        member = one.worked.member
        face = next((face.name for face in one.faces if face.name in BROAD), "")
        role = member.also_called
        in_full = in_full and member in self._joint.members
        for more in ((role, face), (role,), ()) if in_full else ((),):
            for name in self._broken(member.part.board.called):
                yield [
                    *((words, BODY, True) for words in name),
                    *((words, BODY, False) for words in more if words),
                ]

    def _broken(self, name: str) -> Iterator[tuple[str, ...]]:
        """A name in as few lines as it may take, and in more where no word need be broken."""
        wide, narrow = (
            wrapped(name, room, BODY, self._lettering, bold=True) for room in WIDEST_NAMES
        )
        yield wide
        if narrow != wide and " ".join(narrow) == " ".join(wide):
            yield narrow


def _across(joint: Joint, thick: Fraction) -> Fraction | None:
    """How much of very wide boards is shown, where the joint runs along both their ends."""
    is_along = all(at.rows[0][0] == 1 and not at.shift[0] for at in joint.placements)
    widest = max(member.part.board.width for member in joint.members)
    return WIDE * thick if is_along and widest > VERY_WIDE * thick else None


def _drawn(scene: _Scene) -> Sequence[Drawn]:
    """All lines of a picture, its waste hatched."""
    faces = in_front(face for one, *_ in scene.pieces for face in one.faces)
    lines = [line for *_, own in scene.pieces for line in own]
    for one, *_ in scene.pieces:
        lines += _hatched(one, faces, scene.scale)
    return [one for line in lines for one in ruled(line, scene.scale)]


def _hatched(one: Piece, faces: InFront, scale: float) -> list[Segment]:
    """The waste of a piece, hatched in the first way that is seen as such, else in the last."""
    lines: list[Segment] = []
    for pitch, rise in HATCHING:
        lines = [*visible(hatching(one, pitch / scale, rise), faces)]
        if sum(line.length * scale > SHORTEST for line in lines) >= FEWEST:
            break
    return lines
