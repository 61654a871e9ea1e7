"""What is said in waste on a face, or beside a hole: when it leaves, how deep and how wide."""

from collections.abc import Container, Iterator, Sequence
from functools import lru_cache
from itertools import chain

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.drawings.face_view import PRICK_RADIUS, Lie, drawn_face
from joinery_templates.drawings.figure import DIRECTION, Align, Point, Role, Stroke, Text
from joinery_templates.drawings.lettering import (
    ASCENT,
    DESCENT,
    LINE_PITCH,
    Lettering,
    text_corners,
)
from joinery_templates.drawings.look import BODY
from joinery_templates.drawings.placing import Ground
from joinery_templates.drawings.trimming import HOLD
from joinery_templates.exact import Fraction
from joinery_templates.lengths import Units, told_text
from joinery_templates.wood.board import BROAD, EDGES, Face
from joinery_templates.wood.cut import Part
from joinery_templates.wood.faces import FaceLayout, laid_out
from joinery_templates.wood.polygons import Mouth, Waste

MIDDLE = (ASCENT - DESCENT) / 2
"""From the foot of letters to the middle of the room that they take, in heights of a capital."""
SHARES = tuple(Fraction(share, 8) for share in (4, 2, 6, 1, 7))
"""Where along a long piece words are tried."""
CLEAR_OF_PRICKS = PRICK_RADIUS / 2
FROM_RIM = Fraction(1)
"""Between a hole and the words beside it."""
ORDER = ("1st", "2nd", "3rd", "4th", "5th", "6th", "7th", "8th", "9th")
"""In which order waste that leaves at several stages is cut."""
OTHER_EDGE = {
    Face.REFERENCE_EDGE: Face.FAR_EDGE,
    Face.FAR_EDGE: Face.REFERENCE_EDGE,
}
AT_ZERO = Lie(Fraction(0), 1, Fraction(0), -1)


class Saying(Struct, frozen=True):
    """How words are said on a face.

    Attributes:
        lettering: how wide they run.
        units: of depths.
        kerf: how wide the saw cuts, where that is drawn.
    """

    lettering: Lettering
    units: Units
    kerf: Fraction | None = None


class _Told(Struct, frozen=True):
    """What there is to say of a piece of waste.

    Attributes:
        piece: the waste.
        order: at which of several stages it leaves; empty where all leaves at once.
        work: what is done at that stage.
        measures: how wide a hole is, and how deep all goes that stops.
    """

    piece: Waste
    order: str
    work: str
    measures: tuple[str, ...]

    @property
    def ways(self) -> tuple[tuple[str, ...], ...]:
        """All of it, in parts that may stand in rows; of several stages at least in which."""
        if not self.order:
            return (self.measures,)
        return (f"{self.order}: {self.work}", *self.measures), (self.order,)


def waste_words(
    part: Part,
    layout: FaceLayout,
    lie: Lie,
    saying: Saying,
    ground: Ground,
    turn: int = 0,
    beside: Container[str] = (),
) -> Iterator[Text]:
    """The words in every piece of waste of a face, or its number where they have no room.

    What has none stands in one row below the joint, or in the label if that row is too long.

    Args:
        part: the board's end or stretch.
        layout: of the face.
        lie: where it lies on the paper.
        saying: how it is said.
        ground: what stands on the paper; words are written on it.
        turn: 180 where the face is read upside down.
        beside: what is said in the waste of a face beside this one. A row, which stands on wood
            that stays, does not say it again of waste that has its number.
    """
    is_numbered = True
    for count, one in enumerate(_told(part, layout, saying.units)):
        ways = (_ways(one.piece, said, layout, lie, saying, turn) for said in one.ways)
        # Where a seam cuts one piece, what is said in the others stays.
        told = f"{layout.face} waste {count}"
        texts = ground.placed_together(chain.from_iterable(ways))
        is_numbered &= bool(texts)
        leeway = _leeway(one.piece, texts, lie, saying.lettering) if texts else None
        # Of several rows each would be turned round by itself, and the last would be read first.
        yield from (
            replace(text, part=told, leeway=leeway, either_way=text.turn == 90 and len(texts) == 1)
            for text in texts
        )
    row = _untold(part, layout.face, saying)
    if is_numbered and row in beside:
        return
    if row and _has_row(part, layout, row, saying):
        across = _middle_of(part, layout, row, saying)
        middle = lie.point((across, part.reach + HOLD / 2 + CLEAR_OF_PRICKS))
        yield from ground.placed_together([rows_about(middle, (row,), turn, row, opaque=True)])


def _leeway(
    piece: Waste, texts: Sequence[Text], lie: Lie, lettering: Lettering
) -> tuple[Point, Point]:
    """How far words may be moved within the waste that they tell of, or beside its hole."""
    if piece.mouth:
        by = piece.mouth.diameter
        return (-by, by), (-by, by)
    around = map(lie.point, piece.extent)
    corners = chain.from_iterable(text_corners(text, lettering) for text in texts)
    across, up = (
        (min(there) - min(here), max(there) - max(here))
        for there, here in zip(zip(*around, strict=True), zip(*corners, strict=True), strict=True)
    )
    return across, up


def _middle_of(part: Part, layout: FaceLayout, row: str, saying: Saying) -> Fraction:
    """Where across a face a row of words stands: as near as it can to the one piece it tells of."""
    told = [piece for piece in layout.waste if ORDER[piece.stage.number - 1] in row]
    if len(told) != 1 or not _is_staged(part):
        return layout.width / 2
    (left, _), (right, _) = told[0].extent
    half = saying.lettering.width(row, BODY) / 2 + 1
    return min(max((left + right) / 2, half), layout.width - half)


def waste_in_label(part: Part, face: Face, saying: Saying) -> str:
    """What is to be said of a face's waste in its label; empty where all of it has room."""
    row = _untold(part, face, saying)
    return "" if _has_row(part, laid_out(part, face), row, saying) else row


def _has_row(part: Part, layout: FaceLayout, row: str, saying: Saying) -> bool:
    """Whether a broad face takes a row of words below the joint, where nothing else stands."""
    is_broad = layout.face in BROAD
    is_free = part.folds and not any(piece.is_groove for piece in layout.waste)
    return is_broad and is_free and saying.lettering.width(row, BODY) + 2 <= layout.width


@lru_cache(maxsize=256)
def _untold(part: Part, face: Face, saying: Saying) -> str:
    """What has no room in the waste of a face; empty where all has."""
    layout = laid_out(part, face)
    told = tuple(_told(part, layout, saying.units))
    if not told:
        return ""
    ends = [(edge.start, edge.end) for edge in layout.outline.edges]
    if part.guide and face is not Face.END_GRAIN:
        at = part.guide[0]
        ends.append(((Fraction(0), at), (layout.width, at)))
    around = (Stroke(Role.OUTLINE, *map(AT_ZERO.point, both)) for both in ends)
    drawn = drawn_face(layout, AT_ZERO, part.reach + HOLD, saying.kerf)
    ground = Ground(saying.lettering, (*drawn, *around))

    def has_room(piece: Waste, words: tuple[str, ...]) -> bool:
        return bool(ground.placed_together(_ways(piece, words, layout, AT_ZERO, saying, 0)))

    # What is alike deep is told together, by order and work of its stages.
    untold: dict[str, dict[tuple[str, str], list[Waste]]] = {}
    bare = set()  # stages with a piece that has no room for its number
    for one in told:
        in_full, *in_short = one.ways
        if not has_room(one.piece, in_full):
            stage, deep = (one.order, one.work or "hatched waste"), "".join(one.measures)
            if one.piece.mouth:
                stage, deep = ("", f"bore {', '.join(in_full)}"), ""
            untold.setdefault(deep, {}).setdefault(stage, []).append(one.piece)
            if in_short and not has_room(one.piece, *in_short):
                bare.add((one.order, one.work))
    rows = []
    for deep, by_stage in untold.items():
        who = []
        for (order, work), pieces in by_stage.items():
            count = sum((one.order, one.work) == (order, work) for one in told)
            is_told = (order, work) in bare or len(pieces) < count
            where = _where(pieces, count, layout) if is_told else ""
            who.append(f"{order}{where}: {work}" if order else work)
        rows.append(_of_all(tuple(who), deep))
    return "; ".join(rows)


def _where(pieces: Sequence[Waste], count: int, layout: FaceLayout) -> str:
    """Which pieces of a stage are meant, by the side of the face that they lie at; else how many.

    Args:
        pieces: those that are meant.
        count: of the stage's pieces on the face.
        layout: of the face.
    """
    if count == 1:
        return ""
    spans = [piece.extent for piece in pieces]
    sides: list[tuple[int, str, Sequence[Face], Fraction]] = []
    if layout.face is Face.END_GRAIN or layout.face in BROAD:
        sides.append((0, "edges", EDGES, layout.width))
    if layout.face is Face.END_GRAIN:
        sides.append((1, "faces", BROAD, layout.height))
    for axis, both, names, far in sides:
        reached = sorted((low[axis] == 0, high[axis] == far) for low, high in spans)
        if reached == [(False, True), (True, False)]:
            return f" (at both {both})"
        for at, name in zip(((True, False), (False, True)), names, strict=True):
            if set(reached) == {at}:
                return f" (at the {name})"
    if len(pieces) == 1:
        return ""
    return " (twice)" if len(pieces) == 2 else f" ({len(pieces)} times)"


def _of_all(who: tuple[str, ...], deep: str) -> str:
    """What holds for each of some stages: ``1st: rebate and 2nd: chop, each 7 mm deep``."""
    told = " and ".join(filter(None, (", ".join(who[:-1]), who[-1])))
    return f"{told}, {'each ' if len(who) > 1 else ''}{deep}" if deep else told


def depth_words(depth: tuple[Fraction, Fraction], units: Units) -> str:
    """How deep waste goes: one depth, or from the least to the greatest."""
    low, high = (told_text(one, units) for one in depth)
    if low == high:
        return f"{high} deep"
    return f"{low.removesuffix(f' {units}')} to {high} deep"


def _how_far(part: Part, layout: FaceLayout, piece: Waste, units: Units) -> str:
    """How deep waste goes; of a housing or a groove across the board, where it stops."""
    assert piece.depth
    low, high = piece.depth
    (left, _), (right, _) = piece.extent
    left_over = part.board.width - high
    is_across = left_over < high
    if left > 0 and right < layout.width:
        # What lies open in a mitre runs along it: from the edge that is its length, however long.
        is_across = _is_laid_open(layout, piece)
    if layout.face in OTHER_EDGE and left_over > 0 and is_across and low in (0, high):
        narrows = "" if low else "narrows till it "
        return f"{narrows}stops {told_text(left_over, units)} before the {OTHER_EDGE[layout.face]}"
    if piece.deepens and part.folds and low and not piece.extent[0][1]:
        end = piece.extent[1][1]
        where = "at the baseline" if part.guide == (end, "baseline") else "further in"
        return f"{depth_words((low, low), units)} at the end, {told_text(high, units)} {where}"
    return depth_words(piece.depth, units)


def _is_laid_open(layout: FaceLayout, piece: Waste) -> bool:
    """Whether waste lies behind the end and opens into what left right through there before it."""
    (_, start), _ = piece.extent
    return start > layout.low and any(
        one.depth is None
        and one.stage.number < piece.stage.number
        and one.extent[0][1] == layout.low
        and sum(map(one.holds, piece.corners)) > 1
        for one in layout.waste
    )


def _is_staged(part: Part) -> bool:
    return len({cut.stage for cut in part.cuts if not cut.is_groove}) > 1


def _told(part: Part, layout: FaceLayout, units: Units) -> Iterator[_Told]:
    """The pieces of which there is something to say, in the order in which they leave."""
    is_staged = _is_staged(part)
    for piece in sorted(layout.waste, key=lambda piece: piece.stage.number):
        order, work = "", ""
        if is_staged:
            order, work = ORDER[piece.stage.number - 1], piece.stage.name
        depth = (_how_far(part, layout, piece, units),) if piece.depth else ()
        if piece.mouth:
            deep = depth[0].replace(f" {units} ", " ") if depth else "right through"
            yield _Told(piece, order, work, (told_text(piece.mouth.diameter, units), deep))
        elif (order or depth) and not piece.is_groove:
            yield _Told(piece, order, work, depth)


def _ways(
    piece: Waste,
    said: tuple[str, ...],
    layout: FaceLayout,
    lie: Lie,
    saying: Saying,
    turn: int,
) -> Iterator[tuple[Text, ...]]:
    """Ways to say something of waste: in it, or beside a hole."""
    if piece.mouth:
        return _beside(piece.mouth, said, layout, lie, saying, turn)
    return _inside(piece, said, lie, turn)


def _beside(
    mouth: Mouth,
    said: tuple[str, ...],
    layout: FaceLayout,
    lie: Lie,
    saying: Saying,
    turn: int,
) -> Iterator[tuple[Text, ...]]:
    """On each side of a hole, on the face, in one row or in several, along the page or up it."""
    x, y = lie.point(mouth.middle)
    (left, right), (low, high) = map(
        sorted,
        zip(
            lie.point((Fraction(0), layout.low)),
            lie.point((layout.width, layout.low + layout.height)),
            strict=True,
        ),
    )
    whole = ", ".join(said)
    for rows in dict.fromkeys(((whole,), said)):
        long = max(saying.lettering.width(words, BODY) for words in rows)
        tall = LINE_PITCH * BODY * len(rows)
        for turned, size in ((turn, (long, tall)), (90, (tall, long))):
            out = [mouth.diameter / 2 + FROM_RIM + extent / 2 for extent in size]
            for aside, up in ((1, 0), (0, -1), (-1, 0), (0, 1)):
                beside = x + aside * out[0], y + up * out[1]
                if (
                    left <= beside[0] - size[0] / 2
                    and beside[0] + size[0] / 2 <= right
                    and low <= beside[1] - size[1] / 2
                    and beside[1] + size[1] / 2 <= high
                ):
                    yield rows_about(beside, rows, turned, whole, opaque=True)


def _inside(piece: Waste, said: tuple[str, ...], lie: Lie, turn: int) -> Iterator[tuple[Text, ...]]:
    """In one row or in several, along the page or up it."""
    (left, low), (right, high) = piece.extent
    x, y = (sum(axis, Fraction(0)) / len(piece.edges) for axis in zip(*piece.corners, strict=True))
    broken = tuple(row for words in said for row in words.rsplit(" ", 1))
    places = [(x, y)]
    for share in SHARES:
        wide = right - left > high - low
        places.append(
            (left + share * (right - left), y) if wide else (x, low + share * (high - low))
        )
    whole = ", ".join(said)
    # Beside a slanting line the middle of the height may lie in wood that stays.
    places = [place for place in places if piece.holds(place)]
    for rows in dict.fromkeys(((whole,), said, broken)):
        for turned in (turn, 90):
            for place in places:
                yield rows_about(lie.point(place), rows, turned, whole, opaque=True)


def rows_about(
    middle: Point, rows: Sequence[str], turn: int = 0, whole: str = "", opaque: bool = False
) -> tuple[Text, ...]:
    """Rows of words about a point; `whole` is what they say together."""
    cosine, sine = DIRECTION[turn]
    texts = []
    for number, words in enumerate(rows):
        rise = ((len(rows) - 1) * LINE_PITCH / 2 - number * LINE_PITCH - MIDDLE) * BODY
        at = (middle[0] - sine * rise, middle[1] + cosine * rise)
        texts.append(Text(words, at, BODY, Align.CENTRE, turn, opaque=opaque, paragraph=whole))
    return tuple(texts)
