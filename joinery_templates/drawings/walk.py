"""The divider walk: how a row is stepped off on the wood with dividers, and no template at all.

Of tails and pins that are all alike the starts stand one step apart, and so do the ends. A
walk from the first line pricks the ones, a walk back from the last line the others; between the
two, and past the last line, lies the width of a pin.
"""

from collections.abc import Iterator
from itertools import pairwise

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.drawings.figure import Align, Figure, Pattern, Role, Text, line, prick_point
from joinery_templates.drawings.fingerprint import JOB
from joinery_templates.drawings.lettering import Paragraph, column
from joinery_templates.drawings.look import BODY, HEADING
from joinery_templates.drawings.placing import Ground
from joinery_templates.drawings.settings import MARK_HALF, card_room, cards, length_lines
from joinery_templates.drawings.setup import DrawingSetup
from joinery_templates.drawings.with_words import MARGIN, with_words
from joinery_templates.exact import Fraction
from joinery_templates.joint import At, Mark, SettingOut
from joinery_templates.lengths import Units, told_text

ARM = Fraction(1)
GAP = Fraction(3)
NO_HOLD = Fraction(1)
"""Nearer to an edge dividers find no hold (our judgement)."""
AT_THE_EDGES = (
    " The last one comes to the very edge of the board: clamp a scrap against each edge first, "
    "flush with the end, for the point to stand on."
)


class Walk(Struct, frozen=True):
    """A row that dividers can step off; lengths from the row's start.

    Attributes:
        first: the line where the first walk starts.
        last: the line where the walk back starts.
        step: what the dividers are set to.
        count: how many steps.
        pin: how far the last point lands from `last`; past it where the edges carry half pins,
            short of it where they carry half tails.
        width: of the row.
        beside: what is gauged before the first line and behind the last, from the board's edges:
            where a mitred edge ends, or where a narrower board's edge comes.
    """

    first: Fraction
    last: Fraction
    step: Fraction
    count: int
    pin: Fraction
    width: Fraction
    beside: tuple[Mark | None, Mark | None]

    @property
    def past(self) -> bool:
        """Whether the last point lands past the line."""
        return self.first + self.count * self.step > self.last

    @property
    def ends_at_edge(self) -> bool:
        """Whether the last point of a walk comes so near to an edge that the dividers slip off."""
        return self.past and self.pin > min(self.first, self.width - self.last) - NO_HOLD

    def there(self) -> list[Fraction]:
        """The points of the first walk, the start left out."""
        return [self.first + n * self.step for n in range(1, self.count + 1)]

    def back(self) -> list[Fraction]:
        """The points of the walk back."""
        return [self.last - n * self.step for n in range(1, self.count + 1)]


def walk_of(row: SettingOut) -> Walk | None:
    """How a row is stepped off; None where there is no walk, or there are no tails in it."""
    walk = _walk_or_reason(row)
    return walk if isinstance(walk, Walk) else None


def _walk_or_reason(row: SettingOut) -> Walk | str:
    """The walk, or why there is none."""
    row = row.along_line
    parts = _of_tails(row)
    marks = [mark.position for mark in parts]
    starts = [mark.position for mark in parts if mark.starts]
    ends = [mark.position for mark in parts if not mark.starts]
    if len(starts) < 2:
        return "there are too few tails"
    steps = {b - a for one in (starts, ends) for a, b in pairwise(one)}
    if len(starts) != len(ends) or len(steps) != 1:
        return "its parts are not all alike"
    (step,) = steps
    half_pins = marks[0] == starts[0]
    count = len(starts) if half_pins else len(starts) - 1
    pin = marks[2] - marks[1] if half_pins else marks[1] - marks[0]
    if half_pins and pin > min(marks[0], row.width - marks[-1]):
        return (
            "a pin is wider than the half pin at an edge, so its last step would land off the "
            "wood. The dividers' setting still steps off every mark, on from the first and back "
            "from the last"
        )
    first = None if row.marks[0] is parts[0] else row.marks[0]
    last = None if row.marks[-1] is parts[-1] else row.marks[-1]
    return Walk(marks[0], marks[-1], step, count, pin, row.width, (first, last))


def _of_tails(row: SettingOut) -> list[Mark]:
    """Where tails start and end; an edge is gauged, and no part of the spacing."""
    return [mark for mark in row.marks if mark.is_of_tail]


def walk_patterns(row: SettingOut, what: str, group: str, setup: DrawingSetup) -> Iterator[Pattern]:
    """The walk at full size with its points numbered, below what is done step by step.

    Where a seam will cut it, what is done is read on cards of its own.

    Args:
        row: what is stepped off.
        what: which board, corners and joint it is for.
        group: what it belongs to.
        setup: how patterns are drawn.
    """
    walk = walk_of(row)
    if walk is None:
        return
    title = f"Divider walk for {what}"
    drawn = _drawn(walk, row.start, setup).moved(MARGIN, MARGIN)
    drawn = replace(drawn, height=drawn.height + MARGIN)
    words = [
        Paragraph(title, HEADING, bold=True, after=Fraction(1)),
        Paragraph(f"{row.title} · {JOB}", BODY, after=Fraction(1)),
    ]
    told = [Paragraph(words, BODY, after=Fraction(1)) for words in _told(walk, row, setup.units)]
    is_cut = drawn.width + 2 * MARGIN > max(setup.sheet)
    if not is_cut:
        words += told
    figure = with_words(drawn, words, setup)
    yield Pattern(f"divider walk for {what}", group, (figure,), short="divider walk")
    if is_cut:
        room = card_room(setup, len(told))
        parts = (column((one,), room, setup.lettering) for one in told)
        steps = f"Steps of the divider walk for {what}"
        yield from cards(group, steps, parts, "divider walk", setup)


def _drawn(walk: Walk, start: str, setup: DrawingSetup) -> Figure:
    """The line across the board, both walks' points, and the two settings to be picked up."""
    settings = tuple(_settings(walk, setup.units))
    number, pitch = BODY + 2, 2 * MARK_HALF + BODY + 2
    middle = GAP + len(settings) * pitch + number + 2 * ARM + GAP
    strokes = [
        line(Role.OUTLINE, 0, middle, walk.width, middle),
        *(line(Role.OUTLINE, x, middle - 2 * GAP, x, middle + 2 * GAP) for x in (0, walk.width)),
        *(line(Role.MARK, x, middle - GAP, x, middle + GAP) for x in (walk.first, walk.last)),
    ]
    # Above, past the marks of lines and edges where a number has no room between them.
    above, below = middle + ARM + 1, middle - ARM - 1 - BODY
    walks = ((walk.there(), (above, above + 5)), (walk.back(), (below,)))
    strokes += (s for points, _ in walks for x in points for s in prick_point((x, middle), ARM))
    ground = Ground(setup.lettering, strokes)
    for edge in (-MARGIN, walk.width + MARGIN):
        ground.rule((edge, 0), (edge, 2 * middle))
    texts: list[Text] = []
    for points, heights in walks:
        for count, x in enumerate(points, 1):
            texts += ground.placed(
                Text(str(count), (x + aside, y), BODY, Align.CENTRE)
                for y in heights
                for aside in (0, 2, -2)
            )
    widest = walk.width
    for row, (words, length) in enumerate(reversed(settings)):
        low = GAP + row * pitch
        strokes += length_lines(Fraction(0), low, length)
        texts.append(Text(words, (Fraction(0), low + MARK_HALF + 1), BODY, stays=True))
        widest = max(widest, length, setup.lettering.width(words, BODY))
    top = above + 7 + BODY
    texts.append(Text(f"◄ {start}", (Fraction(0), top), BODY, stays=True))
    return Figure(widest, top + BODY, tuple(strokes), tuple(texts))


def _settings(walk: Walk, units: Units) -> Iterator[tuple[str, Fraction]]:
    """What is picked up off the paper."""
    near, far = walk.beside
    lines = (
        (walk.first, _included(near, near.position, units) if near else ""),
        (walk.width - walk.last, _included(far, walk.width - far.position, units) if far else ""),
    )
    edges = ("each edge",) if lines[0] == lines[1] else ("the reference edge", "the far edge")
    for edge, (length, more) in zip(edges, lines, strict=False):
        yield f"from {edge} of the board to the line {told_text(length, units)}{more}", length
    yield f"step {told_text(walk.step, units)}", walk.step


def _included(mark: Mark, width: Fraction, units: Units) -> str:
    told = told_text(width, units)
    if mark.at is At.MITRE:
        return f", the mitre of {told} included"
    return f", the {told} to the {mark.name} included"


def _told(walk: Walk, row: SettingOut, units: Units) -> Iterator[str]:
    pin = told_text(walk.pin, units)
    lands = "past" if walk.past else "short of"
    along = "" if row.along_end else ", along the line that the rebate is scribed to"
    prick = "distance from edge to line, and prick it in from each edge of the board"
    if len(tuple(_settings(walk, units))) > 2:
        prick = (
            "distance from the reference edge to its line, and prick that in; then set them anew "
            "for the far edge"
        )
    yield (
        f"1. Set the dividers by the rings to the {prick}{along}. These are the two lines."
        f"{_gauged(walk)}"
    )
    yield (
        f"2. Set them to the step. Start on the line at the {row.start} and walk without pricking: "
        f"{walk.count} steps must land about {pin} {lands} the other line. That is the width of a "
        "pin." + (AT_THE_EDGES if walk.ends_at_edge else "")
    )
    wider, narrower = ("Open", "Close") if walk.past else ("Close", "Open")
    yield (
        f"3. {wider} the dividers a shade for wider pins, {narrower.lower()} them for narrower "
        f"ones: each pin changes {walk.count} times as much."
    )
    yield (
        "4. When the pin suits you, walk again and prick (figures above the line), then walk back "
        "from the other line and prick (figures below). The points stand in pairs, a pin apart."
    )
    yield f"5. {_lines_drawn(walk, row)}"
    yield (
        "The walk does the work of strip and templates. If your step is not the printed one, leave "
        "them off, and mark the other board from the one that you have cut."
    )


def _lines_drawn(walk: Walk, row: SettingOut) -> str:
    """What is drawn from the points: the last ones past the other line lie in a half pin."""
    points = "each point and from both lines"
    if walk.past:
        points += f", but not from the two points {walk.count}"
    if row.stretch != 1:
        return (
            f"Draw the lines from {points}, over the end grain and down the faces, with the "
            "bevels set as the tool settings say: neither is square to a slanting end."
        )
    if any(mark.at is At.SOCKET for mark in row.marks):
        where = "end" if row.along_end else "step of the rebate, once that is cut,"
        return (
            f"Square a line down the face to the baseline from {points}. Draw the slopes on the "
            f"{where} with the bevel: each pin grows narrower towards the outside."
        )
    return (
        f"Square a line over the end grain from {points}. Draw the slopes on the faces from there "
        "with the bevel: each tail grows narrower towards the baseline."
    )


def _gauged(walk: Walk) -> str:
    """A mitre, or where a narrower board's edges come: no dividers find them."""
    marks = [mark for mark in walk.beside if mark]
    edges = [f"the {mark.name}" for mark in marks if mark.at is At.EDGE]
    mitre = " Scribe the mitre with a gauge, from the edge, too." if len(edges) < len(marks) else ""
    level = f" Gauge {' and '.join(edges)} too, as the tool settings say." if edges else ""
    return mitre + level


def why_not(row: SettingOut) -> str:
    """Why there is no walk along a row of tails; nothing where there is one."""
    walk = _walk_or_reason(row)
    if isinstance(walk, Walk) or not _of_tails(row):
        return ""
    return f"No divider walk here: {walk}."
