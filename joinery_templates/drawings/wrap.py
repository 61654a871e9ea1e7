"""The wrap: outside face, end grain and inside face in one piece that folds over an end.

Printed side towards you::

    +-- trim ----------------+
    |  label (upside down)   |
    |  inside face           |   v = far fold + y
    +== fold ================+   v = far fold = fold + T + thickness of the paper
    |  end grain             |   v = fold + z
    +== fold ================+   v = fold
    |  outside face          |   v = fold - y
    |  label                 |
    +-- trim ----------------+
"""

from collections.abc import Container, Iterator
from functools import lru_cache

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.drawings.face_view import Lie, drawn_face, lie_across, seen_mirrored
from joinery_templates.drawings.figure import (
    HATCHES,
    Align,
    Figure,
    Pattern,
    Role,
    Text,
    distinct,
    joined,
    line,
)
from joinery_templates.drawings.grooves import groove_words
from joinery_templates.drawings.labels import face_label
from joinery_templates.drawings.look import BODY, HEADING, TITLE
from joinery_templates.drawings.placing import BESIDE, Ground
from joinery_templates.drawings.setup import DrawingSetup
from joinery_templates.drawings.trimming import EDGE, HOLD, SIDE, across, outline
from joinery_templates.drawings.waste_words import Saying, waste_in_label, waste_words
from joinery_templates.exact import Fraction
from joinery_templates.joint import Placed
from joinery_templates.wood.board import Face, Hand
from joinery_templates.wood.cut import Part
from joinery_templates.wood.faces import laid_out

CLOSE = Fraction(1, 2)
"""Between the board's edge and the word on a tick."""
ABOVE = Fraction(7, 5)
"""Between a tick and the foot of the word above it."""
ASIDE = Fraction(9, 4)
"""From the board's edge to the foot of the words along it: clear of prick points."""

FROM_TRIM = Fraction(1)
"""From a trim line to the words along the board's edge: as far from the folds as can be."""


class Spread(Struct, frozen=True):
    """Where the parts of a wrap lie on the paper.

    Attributes:
        part: the board's end.
        hand: which end of the board it is.
        label_height: paper kept for the label below a face.
        paper: thickness of the paper.
        kerf: how wide the saw cuts, where that is to be seen.
    """

    part: Part
    hand: Hand
    label_height: Fraction
    paper: Fraction
    kerf: Fraction | None = None

    @property
    def shown(self) -> Fraction:
        """How much of the board is shown from its end on."""
        return self.part.reach + HOLD + self.label_height

    @property
    def mirrored(self) -> bool:
        """Whether x runs to the left on the outside face as drawn."""
        return seen_mirrored(Face.OUTSIDE, self.hand)

    @property
    def fold(self) -> Fraction:
        """Where the fold on the outside arris is."""
        return EDGE + self.shown

    @property
    def far_fold(self) -> Fraction:
        """Where the fold on the inside arris is."""
        return self.fold + self.part.board.thickness + self.paper

    @property
    def lies(self) -> dict[Face, Lie]:
        """Where the faces lie."""
        u0, sign = lie_across(SIDE, self.part.board.width, self.mirrored)
        return {
            Face.OUTSIDE: Lie(u0, sign, self.fold, -1),
            Face.END_GRAIN: Lie(u0, sign, self.fold, 1),
            Face.INSIDE: Lie(u0, sign, self.far_fold, 1),
        }

    @property
    def size(self) -> tuple[Fraction, Fraction]:
        """Width and height of the whole pattern."""
        return self.part.board.width + 2 * SIDE, self.far_fold + self.shown + EDGE


def wrap(placed: Placed, setup: DrawingSetup) -> Pattern:
    """Outside face, end grain and inside face in one piece that folds over the end."""
    # A smaller name before fewer words: else, of like boards, one would say less than its twin.
    for largest, small, cut in (
        (TITLE, False, False),
        (HEADING, False, False),
        (HEADING, True, False),
        (TITLE, False, True),
    ):
        labels, spread = _labels(placed, replace(setup, largest=largest), small, cut)
        if setup.takes(*spread.size):
            break
    outside, inside = labels
    lines = _lines(spread)
    words = joined(
        lines.width,
        lines.height,
        (
            outside.moved(SIDE, EDGE),
            inside.turned().turned().moved(SIDE, lines.height - EDGE - inside.height),
            _line_words(spread, setup.saying),
        ),
    )
    called = placed.board.called
    u0, sign = lie_across(SIDE, placed.board.width, spread.mirrored)
    seams = tuple(sorted(u0 + sign * seam for seam in setup.seams))
    return Pattern(f"{called} template", placed.corner.name, (lines, words), seams, called)


def _labels(
    placed: Placed, setup: DrawingSetup, small: bool, cut: bool
) -> tuple[tuple[Figure, Figure], Spread]:
    """The labels of the outside and the inside face, and the wrap that they lead to."""
    untold = waste_in_label(placed.member.part, Face.END_GRAIN, setup.saying)
    # A stage, such as "2nd: edge", has a colon of its own.
    on_end = f"on the end grain{',' if ':' in untold else ':'} {untold}" if untold else ""

    def label(face: Face, words: str, told: DrawingSetup) -> Figure:
        return face_label(placed, face, placed.board.width, told, words, small=small, cut=cut)

    less = replace(setup, also="") if small else setup
    outside, inside = label(Face.OUTSIDE, on_end, less), label(Face.INSIDE, "", setup)
    if small and inside.height > outside.height:
        inside = label(Face.INSIDE, "", less)
    height = max(outside.height, inside.height)
    spread = Spread(placed.member.part, placed.hand, height, setup.paper, setup.kerf)
    return (outside, inside), spread


@lru_cache(maxsize=256)
def _lines(spread: Spread) -> Figure:
    """The wrap's strokes; cached so that equal ends share one figure."""
    part = spread.part
    width, height = spread.size
    lies = spread.lies
    left, right = SIDE, SIDE + part.board.width
    # No gauge line is asked for on a face from which nothing is cut.
    layouts = {face: laid_out(part, face) for face in lies}
    strokes = [
        *(
            stroke
            for face, lie in lies.items()
            for stroke in drawn_face(
                layouts[face],
                lie,
                None if face is Face.END_GRAIN else part.reach + HOLD,
                spread.kerf,
            )
        ),
        *(across(Role.FOLD, left, right, v) for v in (spread.fold, spread.far_fold)),
        *(
            line(Role.GUIDE, left, v, right, v)
            for face, v in (
                (Face.OUTSIDE, spread.fold - part.reach),
                (Face.INSIDE, spread.far_fold + part.reach),
            )
            if layouts[face].waste and part.guide
        ),
        *outline(left, EDGE, right, height - EDGE),
    ]
    return Figure(width, height, distinct(strokes))


@lru_cache(maxsize=256)
def _line_words(spread: Spread, saying: Saying) -> Figure:
    """What is said in the wrap's waste and beside its lines; cached as they are."""
    lines, part = _lines(spread), spread.part
    ground = Ground(saying.lettering, lines.strokes)
    words = [
        *_side_words(spread, lines, ground),
        *groove_words(part, spread.lies[Face.INSIDE], ground, saying.units),
    ]

    def in_waste(face: Face, turn: int = 0, beside: Container[str] = ()) -> tuple[Text, ...]:
        layout, lie = laid_out(part, face), spread.lies[face]
        return tuple(waste_words(part, layout, lie, saying, ground, turn, beside))

    on_end = in_waste(Face.END_GRAIN)
    told = {text.paragraph for text in on_end}
    words += in_waste(Face.OUTSIDE, 0, told) + on_end + in_waste(Face.INSIDE, 180, told)
    return replace(lines, strokes=(), texts=tuple(words))


def _ends(lines: Figure, edge: Fraction) -> list[Fraction]:
    """How far up lines end at the board's edge: words level with them could be taken for a name.

    Only lines that are worked to count: a fold is a fold, and waste is no line.
    """
    return [
        at[1]
        for stroke in lines.strokes
        if stroke.role is not Role.FOLD and stroke.role not in HATCHES
        for at in (stroke.start, stroke.end)
        if at[0] == edge
    ]


def _side_words(spread: Spread, lines: Figure, ground: Ground) -> Iterator[Text]:
    """The words on the paper beside the board, which is trimmed away."""
    left, right = SIDE, lines.width - SIDE
    # On the ticks, and not beside them: the rim is kept for the check of the taping.
    # The far fold's go first: there a mitre's line may lie close by.
    sides = (
        (left - CLOSE, -1, Align.RIGHT, _ends(lines, left)),
        (right + CLOSE, 1, Align.LEFT, _ends(lines, right)),
    )
    for v in (spread.far_fold, spread.fold):
        for x, out, align, ends in sides:
            feet = sorted(
                (v + ABOVE, v - ABOVE - BODY),
                key=lambda foot: any(foot <= end <= foot + BODY for end in ends),
            )
            # A little further out where a prick point reaches past the board's edge.
            yield from ground.placed(
                Text("fold", (x + out * aside, y), BODY, align, stays=True)
                for aside in (0, 1)
                for y in feet
            )
    yield from _where_to_trim(spread, lines, ground)


def _where_to_trim(spread: Spread, lines: Figure, ground: Ground) -> tuple[Text, ...]:
    """Which edge each side is trimmed to: all in one wording where all have room for it."""
    left, right = SIDE - ASIDE, lines.width - SIDE + ASIDE + BODY
    left_edge, right_edge = "reference edge", "far edge"
    if spread.mirrored:
        left_edge, right_edge = right_edge, left_edge
    # They begin or end at the trim lines, away from the folds.
    low, high = EDGE + FROM_TRIM, lines.height - EDGE - FROM_TRIM
    sides = [
        [
            Text(words, (x, v), BODY, align, turn=90, either_way=True)
            for words in (f"✂ trim: {edge}", f"✂ {edge}", "✂")
        ]
        for v, align in ((low, Align.LEFT), (high, Align.RIGHT))
        for x, edge in ((left, left_edge), (right, right_edge))
    ]
    # The folds part the two on one side: what is clear of them is clear of each other.
    for four in zip(*(ways[:-1] for ways in sides), strict=True):
        if placed := ground.placed_together([four], BESIDE):
            return placed
    return tuple(text for ways in sides for text in ground.placed(ways[1:], BESIDE))
