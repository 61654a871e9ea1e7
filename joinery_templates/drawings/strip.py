"""The setting-out strip: every mark of a row, to be laid along the line that it belongs to."""

from collections.abc import Iterator, Mapping, Sequence

from joinery_templates.drawings.figure import Figure, Pattern, Role, Text, box, cross, line
from joinery_templates.drawings.fingerprint import JOB
from joinery_templates.drawings.labels import named_together
from joinery_templates.drawings.lettering import DESCENT, LINE_PITCH, Lettering, Paragraph, column
from joinery_templates.drawings.look import BODY, HEADING
from joinery_templates.drawings.own_rows import (
    SQUARED_LINE,
    arrises_at,
    unmarked,
    waste_along,
    waste_faces,
)
from joinery_templates.drawings.placing import Ground
from joinery_templates.drawings.setup import DrawingSetup
from joinery_templates.drawings.walk import why_not
from joinery_templates.drawings.with_words import MARGIN, with_words
from joinery_templates.exact import Fraction
from joinery_templates.joint import REFERENCE_EDGE, At, Member, Placed, SettingOut
from joinery_templates.lengths import Units, told_text
from joinery_templates.wood.board import BROAD, EDGES, Face
from joinery_templates.wood.faces import end_at, laid_out

TICK = Fraction(7)
"""How long a setting-out mark is, from the strip's edge inwards."""
FIGURES = MARGIN + TICK + 1
"""Where the figures begin."""
SHORTEST = Fraction(12)
"""On a shorter strip words have no room."""
MOST_LEVELS = 6
"""Figures that find no room on so many levels are left out: the marks are what is used."""
ROW = BODY * LINE_PITCH
CLOSE = Fraction(3, 5)
"""Between the strip's ends and a figure."""
A_HAIR = Fraction(3, 10)
"""A mark so near to the strip's start or end falls together with it: nobody could set it out."""
MOST_NAMED = 4
"""Of more corners no more are named in a heading."""
TURNED = (
    "Printed side up, one long edge serves {} and the other {}: the arrow always points to the {}."
)

HOW_FAR = "to neither arris", "to the arris of the {} alone", "to both arrises"
"""Of a line on an edge, by the number of arrises that it comes to."""
FROM_WHERE = "", "on the {} alone", "right through"
"""Where waste on an edge is, by the number of faces from which it is taken."""
UNIT_WORDS = {Units.MM: "millimetres", Units.INCH: "inches"}


def strip(
    group: str, row: SettingOut, placed: Sequence[Placed], joint: str, setup: DrawingSetup
) -> Pattern:
    """A strip to lay along the line of a row.

    The marks stand on both long edges, so that the strip serves the joint at a board's
    other end too. It is as high as its figures need.

    Args:
        group: what the strip belongs to.
        row: the marks.
        placed: the pieces that are set out by them, at each corner.
        joint: what the person calls the joint.
        setup: how patterns are drawn.
    """
    member = placed[0].member
    along = row.along_line
    waste = _waste_along_end(member, row.stretch) if row.along_end else along.waste
    lettering, width = setup.lettering, along.width

    def to_end(at: Fraction) -> Fraction:
        return Fraction(0) if at < A_HAIR else width if at > width - A_HAIR else at

    marks = [one.position for one in along.marks if to_end(one.position) == one.position]
    figures = [bare_figure(mark, setup.units) for mark in marks]
    level = max((lettering.width(words, BODY) for words in figures), default=Fraction(0)) + 2
    what = strip_heading(placed, joint)
    title = f"{what} · {row.title} · {JOB}"
    # The arrow points at the line, which is the other way.
    way = _which_way(row, placed)
    start = f"◄ {row.start}{way and f'; the strip runs {way}'}"
    said = (Paragraph(words, BODY, bold=True) for words in (start, title) if width >= SHORTEST)
    name = column(said, width - 2, lettering)
    band = name.height + ROW if name.texts else Fraction(0)
    texts = list(_figures(marks, figures, width, level, lettering))
    levels = max((1 + int((text.at[1] - FIGURES) // level) for text in texts), default=1)
    high = MARGIN + 2 * TICK + levels * level + band
    strokes = [*box(Role.OUTLINE, MARGIN, MARGIN, MARGIN + width, high)]
    for position in marks:
        x = MARGIN + position
        strokes.append(line(Role.MARK, x, MARGIN, x, MARGIN + TICK))
        strokes.append(line(Role.MARK, x, high - TICK, x, high))
    bays = ((to_end(low), to_end(end)) for low, end in waste)
    for low, end in (bay for bay in bays if bay[0] < bay[1]):
        arm = min(Fraction(2), (end - low) * 2 / 5)
        for v in (MARGIN + TICK / 2, high - TICK / 2):
            strokes.extend(cross(Role.CROSS, (MARGIN + (low + end) / 2, v), arm))
    texts += name.moved(MARGIN + 1, high - TICK - (ROW - BODY) - name.height).texts
    drawn = Figure(width, high, tuple(strokes), tuple(texts))
    which = f"strip for {what}{'' if row.main else f', {row.title}'}"
    named = Paragraph(f"Setting-out {which}", HEADING, bold=True)
    told = (*_where(placed), _what_to_do(row, placed, bool(waste), setup.units))
    words = (named, *(Paragraph(words, BODY) for words in told))
    figure = with_words(drawn, words, setup)
    return Pattern(which, group, (figure,), short=f"strip for {_boards(placed)} · {joint}")


def _figures(
    marks: Sequence[Fraction],
    figures: Sequence[str],
    width: Fraction,
    level: Fraction,
    lettering: Lettering,
) -> Iterator[Text]:
    """The figures over their marks, those of neighbours on two levels, on more where need be."""
    left, right, top = MARGIN, MARGIN + width, FIGURES + MOST_LEVELS * level
    ground = Ground(lettering, (line(Role.OUTLINE, x, 0, x, top) for x in (left, right)))
    for number, (position, words) in enumerate(zip(marks, figures, strict=True)):
        # Within the strip, even where the mark is close to its end.
        x = min(left + max(position + BODY / 2, BODY + CLOSE), right - BODY * DESCENT - CLOSE)
        yield from ground.placed(
            Text(words, (x, FIGURES + level * up), BODY, turn=90, either_way=True)
            for up in (number % 2, 1 - number % 2, *range(2, MOST_LEVELS))
        )


def bare_figure(length: Fraction, units: Units) -> str:
    """A length beside its mark, where the units are told once for all."""
    return told_text(length, units).replace(f" {units}", "")


def strip_heading(placed: Sequence[Placed], joint: str) -> str:
    """What a strip is for: boards, corners, and joint; ends where there is one or no corner."""
    corners = dict.fromkeys(one.corner for one in placed if one.corner.like)
    ends = dict.fromkeys(f"{one.board.called}, {one.place.words}" for one in placed)
    boards = " and ".join(ends) if len(ends) == 1 or not corners else _boards(placed)
    more = len(corners) - MOST_NAMED
    where = named_together([corner.name for corner in corners][:MOST_NAMED])
    where += f" and {more} more" if more > 0 else ""
    return " · ".join(filter(None, (boards, where, joint)))


def _boards(placed: Sequence[Placed]) -> str:
    return " and ".join(dict.fromkeys(one.board.called for one in placed))


def _where(placed: Sequence[Placed]) -> Iterator[str]:
    """Which end of which board it is for at which corners, where the heading does not say it."""
    several = len({one.board.called for one in placed}) > 1
    ends: dict[str, list[str]] = {}
    for one in (one for one in placed if one.corner.like):
        board = f"{one.board.called}, " if several else ""
        ends.setdefault(f"{board}{one.place.words}", []).append(one.corner.name)
    for end, corners in ends.items() if len(ends) > 1 else ():
        yield f"{end}: {named_together(corners)}"


def _what_to_do(row: SettingOut, placed: Sequence[Placed], crossed: bool, units: Units) -> str:
    """How the strip is laid on; which edge serves which end where it lies right across."""
    where = "the end of the board" if row.along_end else row.title.removeprefix("along ")
    along_corner = row.title.startswith("along ")
    lay = f"along {where}"
    if row.face is Face.END_GRAIN:
        lay = f"{row.title}, anywhere along it"
    across = row.start.endswith(REFERENCE_EDGE) and not along_corner
    turned = ""
    if across and len({one.hand for one in placed}) > 1:
        ends_last = sorted(placed, key=lambda one: one.place.end is not None)
        serves = {
            one.hand: f"{'a' if one.place.end else 'the'} {one.place.words}" for one in ends_last
        }
        turned = f" {TURNED.format(*sorted(serves.values()), row.start)}"
    crosses = f"; crosses stand in the waste{_from_where(row, placed)}" if crossed else ""
    waste = _waste_of_each(row, placed, units) if row.face and not crossed else ""
    way = _which_way(row, placed)
    return (
        f"Figures in {UNIT_WORDS[units]} from the {row.start}{way and f', {way}'}{crosses}. "
        f"{waste}Trim along the outline and lay an edge with marks {lay}, the arrow at the "
        f"{row.start}. {row.use}"
        f"{_on_one_arris(row, placed, units)}{''.join(_before_start(row, placed, units))}"
        f"{''.join(_beside_marks(row.along_line, units))}{turned} {why_not(row)}"
    )


def _which_way(row: SettingOut, placed: Sequence[Placed]) -> str:
    """Which way along the board a strip runs that starts at a line squared across it."""
    return _way(placed, row.back) if row.start == SQUARED_LINE else ""


def _way(placed: Sequence[Placed], to_end: bool) -> str:
    """Towards the end that lies up, or away from it."""
    ends = {one.up_end for one in placed}
    end = ends.pop() if len(ends) == 1 else placed[0].member.part.up
    return f"{'towards' if to_end else 'away from'} the {end}"


def _before_start(row: SettingOut, placed: Sequence[Placed], units: Units) -> Iterator[str]:
    """Lines too near to the start, on its other side, for a strip of their own."""
    found: dict[tuple[Fraction, ...], dict[str, None]] = {}
    for one in placed:
        found.setdefault((*unmarked(one.member.part, row),), {})[one.board.called] = None
    for lines, boards in found.items():
        if lines:
            far = " and ".join(told_text(at, units) for at in lines)
            on = f" on {' and '.join(boards)}" if len(found) > 1 else ""
            some, come = ("Lines", "come") if len(lines) > 1 else ("A line", "comes")
            yield (
                f" {some} without a mark {come}{on} {far} from the {row.start}, "
                f"{_way(placed, not row.back)}: measure from there."
            )


def _from_where(row: SettingOut, placed: Sequence[Placed]) -> str:
    """From which face of which board the waste is taken, where that is from one alone."""
    found = {one.board.called: waste_faces(one.member.part, row) for one in placed}
    if row.face not in EDGES or all(len(faces) != 1 for faces in found.values()):
        return ""
    return _by_board("of", FROM_WHERE, found)


def _waste_of_each(row: SettingOut, placed: Sequence[Placed], units: Units) -> str:
    """Between which marks each board has its waste, where theirs is not the same."""
    told = {
        one.board.called: " and ".join(
            f"{bare_figure(low, units)} to {bare_figure(high, units)}" for low, high in bays
        )
        for one in placed
        if (bays := waste_along(one.member.part, row))
    }
    waste = "; ".join(f"{board} {between}" for board, between in told.items())
    return f"Waste: {waste}. " if told else ""


def _on_one_arris(row: SettingOut, placed: Sequence[Placed], units: Units) -> str:
    """The marks of an edge whose line does not go from arris to arris."""
    lines = dict[str, list[str]]()
    for mark in row.marks if row.face in EDGES else ():
        found = {
            one.board.called: arrises_at(one.member.part, row, mark.position) for one in placed
        }
        if any(len(faces) < len(EDGES) for faces in found.values()):
            # No mark stands so near to the start: the line is where the strip begins.
            at = f"the {row.start}" if mark.position < A_HAIR else bare_figure(mark.position, units)
            lines.setdefault(_by_board("on", HOW_FAR, found), []).append(at)
    return "".join(
        f" The line{'s' if at[1:] else ''} at {' and '.join(at)} come{'' if at[1:] else 's'}{far}."
        for far, at in lines.items()
    )


def _by_board(which: str, by_count: Sequence[str], found: Mapping[str, Sequence[Face]]) -> str:
    """What is said of each board by the number of its faces, once where it is the same for all."""
    told = {board: by_count[len(faces)].format(*faces) for board, faces in found.items()}
    if len(set(told.values())) == 1:
        return f" {next(iter(told.values()))}"
    return ",".join(f" {which} {board} {words}" for board, words in told.items())


def _beside_marks(row: SettingOut, units: Units) -> Iterator[str]:
    """Where an edge or a face comes, and what stays beside a mark although no tail or pin is there.

    That is a strip that is mitred.
    """
    for mark in row.marks:
        at = bare_figure(mark.position, units)
        if mark.at is At.EDGE:
            yield f" The {mark.name} comes at {at}."
        elif mark.at is At.MITRE:
            side, edge = ("Past", EDGES[1]) if mark.starts else ("Up to", EDGES[0])
            yield f" {side} {at} the mitred strip of the {edge} stays for now."


def _waste_along_end(member: Member, stretch: Fraction) -> Sequence[tuple[Fraction, Fraction]]:
    """Where the waste stands along a board's end, on the first broad face that shows any.

    A mitred strip stays until last; of that no more than a hair goes on its outside face.
    """
    for face in BROAD:
        found = []
        for shape in laid_out(member.part, face).waste:
            xs = [x for x, y in shape.corners if y == end_at(member.part, face, x)]
            (_, low), (_, high) = shape.extent
            if xs:
                found.append((high - low, (min(xs) * stretch, max(xs) * stretch)))
        if found:
            longest, _ = max(found)
            return [bay for long, bay in found if 2 * long > longest]
    return []
