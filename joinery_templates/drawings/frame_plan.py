"""A piece whose boards lie in one plane, from the front and to proportion: a frame, a carcase.

Of a frame the outside faces are seen, of a carcase the front edges. Each board is drawn as its
joints cut it; of what lies over each other only the front is drawn.
"""

from collections.abc import Hashable, Iterator, Sequence
from functools import cached_property
from itertools import chain, pairwise, product

from msgspec import Struct

from joinery_templates.drawings.arrangement import (
    BY_FACES,
    Arrangement,
    FlatPlacement,
    Junction,
    Laid,
    face_seen,
)
from joinery_templates.drawings.direction import reopened
from joinery_templates.drawings.figure import Align, Figure, Point, Role, Stroke, Text
from joinery_templates.drawings.from_above import GAP
from joinery_templates.drawings.lettering import LINE_PITCH, Lettering, Row, extent, fitted, wrapped
from joinery_templates.drawings.look import BODY, HEADING
from joinery_templates.drawings.placing import Ground
from joinery_templates.drawings.plan import Sizes, Sketched, sizes_told, with_corners
from joinery_templates.drawings.waste_words import MIDDLE, rows_about
from joinery_templates.exact import ZERO, Fraction
from joinery_templates.lengths import Tell
from joinery_templates.wood.board import EDGES, Board, Face, Hand
from joinery_templates.wood.cut import groove_depth
from joinery_templates.wood.faces import laid_out

WIDEST, HIGHEST = Fraction(60), Fraction(48)
NAME = Fraction(26)
"""Room for a place's name beside the piece; a longer one takes several lines."""
STUB = 2
"""A board of which nobody says where it ends is shown so many widths past the joint."""
LANE = Fraction(3)
"""From the piece to a line with figures, and from one such line to the next."""
TICK, LEAST = Fraction(1), Fraction(1, 20)
FARTHEST = 6
"""So many half rows beside a slanting board there may be its name."""
FURTHEST = 60
"""So many millimetres out of its best place there may be a label."""
NARROWEST = Fraction(24)
"""Where so little is left between labels at both sides, they stand above and below the piece."""
NEAR_SIDE = Fraction(1, 4)
"""A place within this share of the width is named beside the piece; others above or below."""
ROW, AIR = BODY * LINE_PITCH, Fraction(1, 2)

Span = tuple[Point, Point]
Ring = tuple[Point, ...]


def frame_plan(
    arrangement: Arrangement,
    alike: Sequence[Sequence[Junction]],
    room: Fraction,
    tell: Tell,
    lettering: Lettering,
    without: Sequence[str] = (),
) -> Sketched:
    """The piece from the front, and a line for each corner.

    Args:
        arrangement: where its boards lie.
        alike: its joints, and those of each piece that is like it.
        room: width that the sketch may have.
        tell: says lengths.
        lettering: how wide words run.
        without: boards that meet its own at corners, and are in no plan from the front.
    """
    frame = _Frame(arrangement, tell, lettering)
    told = "Seen from the front, outside faces "
    if arrangement.axis == BY_FACES:
        told += f"towards you, reference edges {frame.edges_look()}."
    else:
        told = "Seen from the front, reference edges towards you."
    told += frame.from_where()
    if not arrangement.is_known:
        told += " Not to proportion: not all lengths are given."
    return with_corners(frame.figure(room), (told, frame.sizes(without)), alike, frame.place)


class _Bar(Struct, frozen=True, dict=True):
    """A board's face as far as it is shown.

    Attributes:
        board: what it is cut from.
        lie: how it lies.
        has_ends: whether its left-hand and its right-hand end are known.
        span: from where to where along it.
        edges: its own, and where it ends.
        ring: its corners.
        worked: the joints' lines on it.
        waste: what leaves it.
    """

    board: Board
    lie: FlatPlacement
    has_ends: tuple[bool, bool]
    span: tuple[Fraction, Fraction]
    edges: tuple[Span, ...]
    ring: Ring
    worked: tuple[Span, ...]
    waste: tuple[Ring, ...]

    @property
    def is_level(self) -> bool:
        """Whether it lies more level than upright."""
        return abs(self.lie.along[0]) > abs(self.lie.along[1])

    def lies_beyond(self, other: "_Bar", edge: Face) -> bool:
        """Whether another that runs the same way lies beyond one of its edges, clear of it."""
        (x, y), across = self.lie.origin, self.lie.across
        places = [(a - x) * across[0] + (b - y) * across[1] for a, b in other.ring]
        middle = self.board.width / 2
        is_clear = min(places) > middle if edge is Face.FAR_EDGE else max(places) < middle
        return is_clear and self.is_level == other.is_level

    def is_gone(self, point: Point) -> bool:
        """Whether its waste takes a point, the rim of the waste among it."""
        return any(_holds(sides, point, with_rim=True) for sides in self.sides[1:])

    def covers(self, point: Point) -> bool:
        """Whether its wood lies over a point."""
        return _holds(self.sides[0], point, with_rim=False) and not self.is_gone(point)

    @cached_property
    def sides(self) -> tuple[list[Span], ...]:
        """Of the whole board, and of each piece of its waste."""
        return tuple([*pairwise((*ring, ring[0]))] for ring in (self.ring, *self.waste))


def _looks(across: Point) -> str:
    """Which way a reference edge looks, from which a board's width runs so."""
    if abs(across[1]) > abs(across[0]):
        return "down" if across[1] > 0 else "up"
    return "to the left" if across[0] > 0 else "to the right"


class _Frame:
    """Where everything of a piece stands; lengths are the wood's until it is drawn."""

    def __init__(self, arrangement: Arrangement, tell: Tell, lettering: Lettering) -> None:
        self._all, self._tell, self._lettering = arrangement, tell, lettering
        self._bars = {laid.key: self._bar(laid) for laid in arrangement.laid()}
        xs, ys = zip(*(corner for bar in self._bars.values() for corner in bar.ring), strict=True)
        self._low, self._high = (min(xs), min(ys)), (max(xs), max(ys))
        self._runners = [*self._found_runners()]
        self._run_beside = {is_right for is_right, _, _ in self._runners}

    def _bar(self, laid: Laid) -> _Bar:
        """A board from end to end, or as far as is known of it, with all its joints."""
        lie, wide = laid.lie, self._wide(laid.board)
        low, high = (
            at if is_known else at + way * STUB * laid.board.width
            for at, way, is_known in zip(laid.span, (-1, 1), laid.has_ends, strict=True)
        )
        ring = tuple(
            lie.point(*at) for at in ((ZERO, low), (wide, low), (wide, high), (ZERO, high))
        )
        start, far, end, near = pairwise((*ring, ring[0]))
        ends = (one for one, is_known in zip((start, end), laid.has_ends, strict=True) if is_known)
        worked: list[Span] = []
        waste: list[Ring] = []
        for junction, number in self._all.at_piece(laid.key):
            if at := self._all.lie(junction, number):
                part = junction.both[number].member.part
                layout = laid_out(part, face_seen(self._all.axis))
                worked += (
                    (at.point(*edge.start), at.point(*edge.end))
                    for edge in layout.lines
                    if edge.surface
                )
                waste += (
                    tuple(at.point(*corner) for corner in shape.corners)
                    for shape in layout.waste
                    if not shape.is_groove
                )
        return _Bar(
            laid.board,
            lie,
            laid.has_ends,
            (low, high),
            (far, near, *ends),
            ring,
            tuple(worked),
            tuple(waste),
        )

    def place(self, junction: Junction) -> str:
        """Where on the piece two boards meet, in words."""
        x, y = self._middle(junction)
        side = "right" if self._is_beyond(x, 0) else "left"
        if junction.is_end_to_end:
            return ""
        if not self._all.is_corner(junction):
            return side
        return f"{'top' if self._is_beyond(y, 1) else 'bottom'} {side}"

    @property
    def _is_in_line(self) -> bool:
        """Whether all its boards run one way, as those of a scarf do."""
        return len({bar.lie.across for bar in self._bars.values()}) == 1

    def edges_look(self) -> str:
        """Which way the reference edges look: where boards lie in one line there is no inside.

        Of a board that is not at the piece's outside it is told by itself.
        """
        if not self._all.is_level:
            return "outwards"
        if self._is_in_line:
            return _looks(next(iter(self._bars.values())).lie.across)
        told = {
            "inwards"
            if self._looks_inwards(key)
            else f"{bar.board.called}'s {_looks(bar.lie.across)}": None
            for key, bar in self._bars.items()
        }
        words = "; ".join(sorted(told, key="inwards".__ne__))
        return words if "inwards" in told else f"thus: {words}"

    def _looks_inwards(self, key: Hashable) -> bool:
        """Whether all of a piece lies beyond a board's reference edge."""
        before, behind = (
            any(self._bars[key].lies_beyond(one, edge) for one in self._bars.values())
            for edge in EDGES
        )
        at_corner = any(self._all.is_corner(junction) for junction, _ in self._all.at_piece(key))
        return not behind and (before or at_corner)

    def from_where(self) -> str:
        """What places along boards count from and to, where any are told."""
        lines, sides = dict[str, None](), dict[str, None]()
        for one in self._all.junctions:
            if (let_in := self._let_in(one)) and (guide := one.both[let_in[0]].member.part.guide):
                mate = one.both[1 - let_in[0]]
                role, line = mate.member.role, guide[1].removeprefix("the ")
                lines[line.replace(role, mate.board.called)] = None
                sides[line.removeprefix(f"{role}'s ")] = None
        if not lines:
            return ""
        where = " or the ".join(lines)
        if len(lines) > len(sides) == 1 and " at " not in where:
            where = f"{next(iter(sides))} of the board that meets it there"
        return (
            " Places along a board are measured from its end as sawn, before anything is cleaned "
            f"off, to the {where}."
        )

    def sizes(self, without: Sequence[str]) -> str:
        """How large the piece is outside and inside, as far as that is known."""
        known = [
            (words, overall)
            for axis, words in enumerate(("long" if self._is_in_line else "wide", "high"))
            if (overall := self._overall(axis))
        ]
        outside = [(words, outer[1] - outer[0]) for words, (outer, _) in known]
        inside = [(words, inner[1] - inner[0]) for words, (_, inner) in known if inner]
        told = sizes_told(outside, inside, [*self._in_grooves(inside)], self._tell, without)
        rooms = [room for one in map(self._overall, (0, 1)) if one and (room := one[1])]
        return told + (self._openings(rooms) if len(rooms) == 2 else "")

    def _openings(self, rooms: Sequence[tuple[Fraction, Fraction]]) -> str:
        """What is left of the room from side to side and upwards by boards that run across it."""
        words = ""
        for axis, (way, first) in enumerate((("wide", "left"), ("high", "top"))):
            (low, high), (near, far) = rooms[axis], rooms[1 - axis]
            ends = [low]
            for bar in sorted(self._bars.values(), key=lambda bar: bar.ring[0][axis]):
                at, across = (sorted(one[turn] for one in bar.ring) for turn in (axis, 1 - axis))
                is_right_across = across[0] <= near and far <= across[-1] and not all(bar.lie.along)
                if low < at[0] and at[-1] < high and is_right_across:
                    ends += (at[0], at[-1])
            gaps = [b - a for a, b in zip(ends[::2], [*ends[1::2], high], strict=True)]
            if len(gaps) > 1 and min(gaps) > 0:
                *others, last = map(self._tell, gaps[:: -1 if axis else 1])
                words += f" Openings from the {first}: {', '.join(others)} and {last} {way}."
        return words

    def _in_grooves(self, inside: Sizes) -> Iterator[tuple[str, Fraction]]:
        """The room for a panel, where one groove of one depth runs round a frame of four boards."""
        joints = self._all.junctions
        parts = [one.member.part for junction in joints for one in junction.both]
        depths = {groove_depth(part, self._all.axis) for part in parts}
        if len(joints) == 4 and len(depths) == 1 and all(map(self._all.is_corner, joints)):
            yield from ((words, size + 2 * max(depths)) for words, size in inside)

    def _overall(
        self, axis: int
    ) -> tuple[tuple[Fraction, Fraction], tuple[Fraction, Fraction] | None] | None:
        """From where to where the finished piece reaches, and the room in it; None if unknown.

        An end that is a corner's reaches as far as the board that it meets: horns come off. One
        that runs on past that board and stays adds to the piece, and not to the room in it.
        Between boards that lean nothing is told: at their two ends it differs.
        """
        reached: list[tuple[Fraction, Fraction, bool | None]] = []
        run_on: list[Fraction] = []
        for key, bar in self._bars.items():
            at = sorted(corner[axis] for corner in bar.ring)
            if bar.is_level == (axis == 1):
                reached.append((at[0], at[-1], None if all(bar.lie.along) else True))
                continue
            corners = {
                one.both[number].hand: one.both[number].place
                for one, number in self._all.at_piece(key)
                if self._all.is_at_end(one, number) and not one.is_end_to_end
            }
            for number, hand in enumerate(Hand):
                edges = ZERO, self._wide(bar.board)
                ends = sorted(bar.lie.point(x, bar.span[number])[axis] for x in edges)
                if hand not in corners:
                    if not bar.has_ends[number]:
                        return None
                    reached.append((ends[0], ends[1], False))
                elif corners[hand].along and not corners[hand].has_horn:
                    run_on += ends
        if not self._all.is_known:
            return None
        low = min(reached, key=lambda one: one[0])
        high = max(reached, key=lambda one: one[1])
        if None in (low[2], high[2]) or low[2] != high[2] or low == high:
            return None
        inside = (low[1], high[0]) if low[2] and low[1] < high[0] else None
        return (min((low[0], *run_on)), max((high[1], *run_on))), inside

    def figure(self, room: Fraction) -> Figure:
        """The sketch with its words, within so much room from side to side."""
        labels = [(one, [*self._label(one, room)]) for one in self._all.junctions]
        words = [self._lettering.width(*row) for _, rows in labels for row in rows]
        wide = room - 2 * (3 * LANE + max(words, default=ZERO))
        near_side = NEAR_SIDE
        if wide < NARROWEST:
            # Nothing but lines with figures has room beside it, where half of a label may stand.
            wide = room - max(6 * LANE, *words)
            near_side = ZERO
        (left, low), (right, high) = self._low, self._high
        scale = min(min(WIDEST, wide) / (right - left), HIGHEST / (high - low))
        sheet = _Sheet(self._low, self._high, scale, near_side)
        spans = ((sheet.point(start), sheet.point(end)) for start, end in self._seen())
        # Where slanting edges all but meet they leave what is no line.
        seen = (
            span for span in spans if max(abs(b - a) for a, b in zip(*span, strict=True)) > LEAST
        )
        strokes = [Stroke(Role.FRAME, *span) for span in seen]
        strokes += self._running(sheet)
        texts = []
        for sides, figure in self._overall_figures(sheet):
            strokes += sides
            texts.append(figure)
        ground = Ground(self._lettering, strokes, texts)
        texts += self._labels(labels, sheet, ground)
        (left, low), (right, high) = extent(strokes, texts, self._lettering)
        spare = max(ZERO, room - (right - left)) / 2
        for side in (left - spare, right + spare):
            ground.rule((side, low - HIGHEST), (side, high + HIGHEST))
        spare = max(ZERO, HIGHEST - (high - low)) / 2
        for level in (low - spare, high + spare):
            ground.rule((left - room, level), (right + room, level))
        texts += self._board_names(sheet, ground)
        return fitted(tuple(strokes), tuple(texts), self._lettering)

    def _seen(self) -> Iterator[Span]:
        """All lines, as far as neither waste nor another board hides them."""
        bars = [*self._bars.values()]
        sides = [side for bar in bars for side in chain.from_iterable(bar.sides)]
        seen: dict[frozenset[Point], Span] = {}
        for bar in bars:
            others = [other for other in bars if other is not bar]
            for span in (*bar.edges, *bar.worked):
                for start, end in _broken(span, sides):
                    middle = (start[0] + end[0]) / 2, (start[1] + end[1]) / 2
                    is_gone = span in bar.edges and bar.is_gone(middle)
                    if not (is_gone or any(other.covers(middle) for other in others)):
                        seen.setdefault(frozenset((start, end)), (start, end))
        yield from seen.values()

    def _middle(self, junction: Junction) -> Point:
        """Where the middle lines of two boards cross; of two in one line, the joint's middle."""
        first, second = (self._lie(junction, number) for number in range(2))
        half, other = (self._wide(one.board) / 2 for one in junction.both)
        if junction.is_end_to_end:
            return first.point(half, junction.first.member.part.reach / 2)
        here, there = first.point(half, ZERO), second.point(other, ZERO)
        (right, up), (across, rise) = first.along, second.across
        far = (there[0] - here[0]) * across + (there[1] - here[1]) * rise
        return first.point(half, far / (right * across + up * rise))

    def _lie(self, junction: Junction, number: int) -> FlatPlacement:
        lie = self._all.lie(junction, number)
        assert lie
        return lie

    def _wide(self, board: Board) -> Fraction:
        return board.width if self._all.axis == BY_FACES else board.thickness

    def _is_beyond(self, at: Fraction, axis: int) -> bool:
        """Whether a place is to the right of the piece's middle, or above it."""
        middle: Fraction = (self._low[axis] + self._high[axis]) / 2
        return at > middle

    def _let_in(self, junction: Junction) -> tuple[int, Fraction] | None:
        """Of a joint at a told place along one of its boards: along which, and how far."""
        for number, one in enumerate(junction.both):
            part, along = one.member.part, one.place.along
            if one.place.end is None and along and part.guide:
                return number, along + part.guide[0]
        return None

    def _label(self, junction: Junction, most: Fraction) -> Iterator[Row]:
        """What a place is called, and how far it is from which end of the board there."""
        name, room = junction.first.corner.told, WIDEST if junction.is_end_to_end else NAME
        for row in wrapped(name, min(room, most / 2), HEADING, self._lettering, bold=True):
            yield row, HEADING, True
        if let_in := self._let_in(junction):
            number, far = let_in
            right, up = self._lie(junction, number).along
            level, upright = ("left" if right > 0 else "right"), ("bottom" if up > 0 else "top")
            is_level, hand = abs(right) > abs(up), junction.both[number].hand
            words = f"{self._tell(far)} from the {level if is_level else upright} end"
            if is_level and not hand.startswith(level):
                words += f" (its {hand})"
            for row in wrapped(words, NAME, BODY, self._lettering):
                yield row, BODY, False

    def _labels(
        self, labels: Sequence[tuple[Junction, Sequence[Row]]], sheet: "_Sheet", ground: Ground
    ) -> Iterator[Text]:
        """Each label beside the piece at its place's height, or above or below the piece."""
        # Of labels that are close to each other the lower place's stands lower or further out.
        from_top = sorted(labels, key=lambda one: -self._middle(one[0])[1])
        for junction, rows in from_top:
            yield from ground.placed_together(self._label_ways(junction, rows, sheet))

    def _label_ways(
        self, junction: Junction, rows: Sequence[Row], sheet: "_Sheet"
    ) -> Iterator[tuple[Text, ...]]:
        """Places of a label, the nearest to the piece first."""
        at = self._middle(junction)
        x, y = sheet.point(at)
        if sheet.near_side < x / sheet.right < 1 - sheet.near_side:
            is_above = self._is_beyond(at[1], 1) or junction.is_end_to_end
            nearest = sheet.top + GAP + _height(rows) if is_above else -2 * LANE - GAP
            for out in range(FURTHEST):
                yield (*_set(rows, (x, nearest + out * (1 if is_above else -1)), Align.CENTRE),)
            return
        is_right = self._is_beyond(at[0], 0)
        lanes = (is_right in self._run_beside) + (is_right and self._overall(1) is not None)
        away = LANE * lanes + GAP + (LANE / 2 + GAP if lanes else 0)
        top = y + HEADING * LINE_PITCH / 2
        for down, out in product(range(FURTHEST), range(int(LANE))):
            side = sheet.right + away + out if is_right else -away - out
            align = Align.LEFT if is_right else Align.RIGHT
            yield (*_set(rows, (side, top - down), align),)

    def _found_runners(self) -> Iterator[tuple[bool, FlatPlacement, list[Fraction]]]:
        """Upright boards at the piece's sides that others are let into: where, from their end."""
        found: dict[Hashable, tuple[bool, FlatPlacement, list[Fraction]]] = {}
        upright = [bar for bar in self._bars.values() if not bar.is_level]
        left = min((x for bar in upright for x, _ in bar.ring), default=ZERO)
        right = max((x for bar in upright for x, _ in bar.ring), default=ZERO)
        for one in self._all.junctions:
            if not (let_in := self._let_in(one)):
                continue
            number, far = let_in
            bar, lie = self._bars[one.pieces[number]], self._lie(one, number)
            sides = [corner[0] for corner in bar.ring]
            if bar.is_level or (min(sides) != left and max(sides) != right):
                continue
            is_right = self._is_beyond((min(sides) + max(sides)) / 2, 0)
            start = lie.moved(-(one.both[number].place.along or ZERO))
            key = one.pieces[number], one.both[number].hand
            found.setdefault(key, (is_right, start, []))[2].append(far)
        yield from found.values()

    def _running(self, sheet: "_Sheet") -> Iterator[Stroke]:
        """Lines beside the piece from a board's end to what is let in, with a tick at each."""
        for is_right, lie, fars in self._runners:
            x = sheet.right + LANE if is_right else -LANE
            heights = [sheet.point(lie.point(ZERO, far))[1] for far in (ZERO, *sorted(fars))]
            yield Stroke(Role.DIMENSION, (x, heights[0]), (x, heights[-1]))
            for y in heights:
                yield Stroke(Role.DIMENSION, (x - TICK, y), (x + TICK, y))

    def _overall_figures(self, sheet: "_Sheet") -> Iterator[tuple[list[Stroke], Text]]:
        """The finished size below the piece and at its right, each with its line."""
        for axis in range(2):
            if not (overall := self._overall(axis)):
                continue
            (outer, _), is_upright = overall, axis == 1
            low, high = (sheet.point((at, at))[axis] for at in outer)
            words, middle = self._tell(outer[1] - outer[0]), (low + high) / 2
            half = self._lettering.width(words, BODY) / 2 + AIR
            beside = sheet.right + LANE * (1 + (True in self._run_beside)) if is_upright else -LANE

            def at(
                place: Fraction, off: Fraction, beside: Fraction = beside, turned: bool = is_upright
            ) -> Point:
                return (beside + off, place) if turned else (place, beside + off)

            if high - low > 2 * (half + TICK):
                spans = ((low, middle - half), (middle + half, high))
                lines = [Stroke(Role.DIMENSION, at(a, ZERO), at(b, ZERO)) for a, b in spans]
                lines += (
                    Stroke(Role.DIMENSION, at(one, -TICK), at(one, TICK)) for one in (low, high)
                )
                foot = BODY * MIDDLE * (1 if is_upright else -1)
                turn = 90 if is_upright else 0
                yield lines, Text(words, at(middle, foot), BODY, Align.CENTRE, turn)

    def _board_names(self, sheet: "_Sheet", ground: Ground) -> Iterator[Text]:
        """Each board's name on it, or beside it, where between its joints most of it is free."""
        # A long name has the fewest places.
        longest = sorted(
            self._bars.items(), key=lambda one: -self._lettering.width(one[1].board.called, BODY)
        )
        for key, bar in longest:
            here = [one for one in self._all.junctions if key in one.pieces]
            stops = sorted({*bar.span, *(bar.lie.place(self._middle(one)) for one in here)})
            free = sorted(pairwise(stops), key=lambda gap: gap[0] - gap[1])
            ways = (self._ways(bar, (low + high) / 2, sheet) for low, high in free)
            yield from ground.placed_together(chain.from_iterable(ways))

    def _ways(self, bar: "_Bar", along: Fraction, sheet: "_Sheet") -> Iterator[tuple[Text, ...]]:
        """Ways to write a board's name so far along it, in rows where it must be."""
        name, wide = bar.board.called, self._wide(bar.board)
        is_slanting = all(bar.lie.along)
        ways = [*dict.fromkeys(((name,), tuple(reopened(name.split()))))]
        # Beside a slanting board words stay level, and stand farther off.
        steps = range(FARTHEST if is_slanting else 1)
        for step, rows in product(steps, ways):
            beside = ((len(rows) + step) * ROW / 2 + AIR) / sheet.scale
            for across in (*(() if step else (wide / 2,)), -beside, wide + beside):
                at = sheet.point(bar.lie.point(across, along))
                yield rows_about(at, rows, 0 if bar.is_level or is_slanting else 90)


class _Sheet(Struct, frozen=True):
    """From the plane of the wood to the paper, where the piece's lower left is at 0."""

    low: Point
    high: Point
    scale: Fraction
    near_side: Fraction

    @property
    def right(self) -> Fraction:
        """The right side of the piece."""
        return (self.high[0] - self.low[0]) * self.scale

    @property
    def top(self) -> Fraction:
        """Its upper side."""
        return (self.high[1] - self.low[1]) * self.scale

    def point(self, at: Point) -> Point:
        """A point on the paper."""
        return (at[0] - self.low[0]) * self.scale, (at[1] - self.low[1]) * self.scale


def _height(rows: Sequence[Row]) -> Fraction:
    return sum((cap * LINE_PITCH for _, cap, _ in rows), ZERO)


def _set(rows: Sequence[Row], at: Point, align: Align) -> Iterator[Text]:
    """Rows of words below each other, from a point at their top."""
    x, top = at
    for words, cap, bold in rows:
        top -= cap * LINE_PITCH
        yield Text(words, (x, top + cap * (LINE_PITCH / 2 - MIDDLE)), cap, align, bold=bold)


def _off(side: Span, point: Point) -> Fraction:
    """Twice the area in mm² between a line and a point, to its left above nothing."""
    (x, y), (x1, y1) = side
    return (x1 - x) * (point[1] - y) - (y1 - y) * (point[0] - x)


def _broken(span: Span, sides: Sequence[Span]) -> Iterator[Span]:
    """A line broken wherever the sides of some shapes cross it."""
    start, end = span
    shares = {Fraction(0), Fraction(1)}
    for side in sides:
        one, other = _off(side, start), _off(side, end)
        if one * other < 0:
            shares.add(one / (one - other))
    (x, y), (x1, y1) = span
    points = [(x + share * (x1 - x), y + share * (y1 - y)) for share in sorted(shares)]
    return pairwise(points)


def _holds(sides: Sequence[Span], point: Point, with_rim: bool) -> bool:
    """Whether a convex shape holds a point, whichever way round its corners go."""
    offs = [_off(side, point) for side in sides]
    if with_rim:
        return min(offs) >= 0 or max(offs) <= 0
    return min(offs) > 0 or max(offs) < 0
