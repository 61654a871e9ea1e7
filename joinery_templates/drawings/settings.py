"""Tool settings: in words, and drawn as the lengths and angles that they are."""

from collections.abc import Iterable, Iterator, Sequence

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.drawings.figure import (
    Align,
    Columns,
    Figure,
    Pattern,
    Role,
    Section,
    Stroke,
    Text,
    box,
    joined,
    line,
    prick_point,
)
from joinery_templates.drawings.labels import job_words
from joinery_templates.drawings.lettering import LINE_PITCH, Lettering, Paragraph, column
from joinery_templates.drawings.look import BODY, HEADING
from joinery_templates.drawings.setup import DrawingSetup
from joinery_templates.exact import Fraction, degrees_of
from joinery_templates.joint import Joint, SlopeSetting
from joinery_templates.lengths import Tell, decimal_text

MARGIN = Fraction(4)
CARD = Fraction(110)
"""Width of a card of one column, unless a length is longer or the sheet narrower."""
NARROWEST = Fraction(65)
"""Of two columns each is no narrower than this."""
BEVEL_RUN = Fraction(45)
"""How far along the grain a slope is drawn."""
GAP = Fraction(2)
"""Between a drawing and the words above it."""
STEEP = Fraction(1, 2)
"""No one sets a steeper slope as a ratio (our judgement)."""
FLAT = Fraction(1, 20)
"""Of a flatter slope no one sets a tenth (our judgement)."""
MARK_HALF = Fraction(2)
"""How far the marks at the ends of a length reach to either side."""
BEVEL = "bevel"
SHORT = "tool settings"
HINT = "Lay the bevel's stock along the long line and its blade along a sloping line."


class ToolSetting(Struct, frozen=True):
    """What is set on a tool once, whatever it is used for.

    Attributes:
        tool: such as gauge.
        figure: what it is set to, in the person's units.
        other: the same in the other units, or as an angle.
        use: for which lines.
        length: where it is set to a length.
        slope: where it is set to a slope.
        leans_to: where the blade's tip leans, where all its uses have it lean there.
    """

    tool: str
    figure: str
    other: str
    use: str
    length: Fraction = Fraction(0)
    slope: Fraction = Fraction(0)
    leans_to: str = ""


def tool_settings(joint: Joint, tell: Tell) -> Iterator[ToolSetting]:
    """Tool settings in the order in which they are set; what is set alike is told once."""
    roles = [member.role for member in joint.members]
    lengths: dict[tuple[str, Fraction], list[str]] = {}
    for setting in joint.lengths:
        lengths.setdefault((setting.tool, setting.length), []).append(setting.use)
    for (tool, length), uses in lengths.items():
        figure, _, other = tell(length).partition(" (")
        yield ToolSetting(tool, figure, other.rstrip(")"), _used(uses, roles), length=length)
    slopes: dict[Fraction, list[SlopeSetting]] = {}
    for one in joint.slopes:
        slopes.setdefault(one.slope, []).append(one)
    for slope, alike in slopes.items():
        figure, other = _slope_words(slope)
        use = _used([one.use for one in alike], roles)
        ways = {one.leans_to for one in alike}
        leans_to = ways.pop() if len(ways) == 1 else ""
        yield ToolSetting(BEVEL, figure, other, use, slope=slope, leans_to=leans_to)


def _used(uses: Sequence[str], roles: Sequence[str]) -> str:
    """What one setting is for; what holds for every board is told of both at once."""
    without = [use.removeprefix(f"{role}'s ") for use, role in zip(uses, roles, strict=False)]
    if len(uses) == len(roles) and len(set(without)) == 1 and without[0] != uses[0]:
        return f"both boards: {without[0].replace(' its ', ' the ')}"
    return "; ".join(uses)


def setting_rows(joint: Joint, tell: Tell) -> tuple[tuple[str, str], ...]:
    """Tool settings, each a name and a figure."""
    return (
        *((f"{one.tool}, {one.use}", tell(one.length)) for one in joint.lengths),
        *((f"{BEVEL}, {one.use}", _slope_text(one.slope)) for one in joint.slopes),
    )


def size_rows(joint: Joint, tell: Tell) -> tuple[tuple[str, str], ...]:
    """Sizes, each a name and a figure."""
    return tuple((size.name, tell(size.length)) for size in joint.sizes)


def _slope_words(slope: Fraction) -> tuple[str, str]:
    """A slope as it was given, and the other way; a steep one, as of a mitre, in degrees alone."""
    angle = f"{round(degrees_of(slope, Fraction(1)), 2):g}°"
    if slope > STEEP:
        return angle, ""
    one_in = decimal_text(1 / slope, 2)
    if one_in.startswith("≈"):  # it was given as an angle
        near = decimal_text(1 / slope, 1 if slope > FLAT else 0).removeprefix("≈")
        return angle, f"about 1:{near}"
    return f"1:{one_in}", angle


def _slope_text(slope: Fraction) -> str:
    figure, other = _slope_words(slope)
    if other.startswith("about"):
        return f"{figure}, {other}"
    return f"{figure} ({other})" if other else figure


def settings_cards(group: str, title: str, joint: Joint, setup: DrawingSetup) -> Iterator[Pattern]:
    """Cards on which dividers, gauges and the bevel are set directly.

    Args:
        group: what the cards belong to.
        title: on the first card.
        joint: whose tools are set.
        setup: how patterns are drawn.
    """
    settings = tuple(tool_settings(joint, setup.tell))
    longest = max((one.length for one in settings), default=Fraction(0)) + 2 * MARGIN
    room = card_room(setup, len(settings), longest)
    parts = (_part(one, room, setup.lettering) for one in settings)
    yield from cards(group, title, parts, SHORT, setup)


def card_room(setup: DrawingSetup, count: int, longest: Fraction = Fraction(0)) -> Fraction:
    """How wide the parts of a card are: so that two stand side by side, if they may be so narrow.

    Args:
        setup: how patterns are drawn.
        count: of the parts.
        longest: what is drawn in one is so long.
    """
    whole = min(CARD, *setup.sheet) - 2 * MARGIN
    half = min(whole, (min(setup.sheet) - 3 * MARGIN) / 2)
    return half if count > 1 and half >= max(longest, NARROWEST) else max(whole, longest)


def cards(
    group: str, title: str, parts: Iterable[Figure], short: str, setup: DrawingSetup
) -> Iterator[Pattern]:
    """Parts on one card where the sheet takes it, else on as many as are needed.

    Args:
        group: what the cards belong to.
        title: on the first card.
        parts: of one width, in two columns where the sheet has room for these.
        short: what the cards are, in a word or two.
        setup: how patterns are drawn.
    """
    rows = tuple(replace(part, height=part.height + MARGIN) for part in parts)
    room = rows[0].width
    count = 2 if len(rows) > 1 and 2 * room + 3 * MARGIN <= min(setup.sheet) else 1
    left, number, name = Columns((Section(rows),), MARGIN, count), 1, title
    while left.rows:
        wide = min(count, left.rows) * (room + MARGIN) - MARGIN
        head = [Paragraph(name, HEADING, bold=True)]
        if number == 1:
            head.append(Paragraph(job_words(wide, setup), BODY))
        above = column(head, wide, setup.lettering)
        below, left = left.down_to(max(setup.sheet) - above.height - 2 * MARGIN, least=1)
        assert below
        yield Pattern(name, group, (_card(above, below),), short=short)
        number += 1
        name = f"{title}, part {number}"


def _card(above: Figure, below: Figure) -> Figure:
    """A heading and what stands below it, in a frame that is trimmed along."""
    width, height = above.width + 2 * MARGIN, below.height + above.height + 2 * MARGIN
    frame = Figure(width, height, box(Role.TRIM, 1, 1, width - 1, height - 1))
    parts = (above.moved(MARGIN, below.height + MARGIN), below.moved(MARGIN, MARGIN * 3 / 4))
    return joined(width, height, (frame, *parts))


def _part(setting: ToolSetting, room: Fraction, lettering: Lettering) -> Figure:
    """A setting in words, and drawn below them."""
    beside = f" ({setting.other})" if setting.other else ""
    told = f"{setting.tool} {setting.figure}{beside}"
    words = [Paragraph(told, BODY, bold=True), Paragraph(setting.use, BODY)]
    texts: tuple[Text, ...] = ()
    if setting.slope:
        words.append(Paragraph(HINT, BODY))
        lines, high = _bevel_lines(setting.slope, room)
        texts = _leaning_words(setting, lines, room, lettering)
        if setting.leans_to and not texts:
            words.append(Paragraph(f"The blade leans: {setting.leans_to}.", BODY))
    else:
        lines = tuple(length_lines(MARGIN, MARK_HALF, setting.length))
        high = 2 * MARK_HALF + GAP
    above = column(words, room, lettering)
    drawn = Figure(room, high, lines, texts)
    return joined(room, high + above.height, (drawn, above.moved(Fraction(0), high)))


def _leaning_words(
    setting: ToolSetting, lines: Sequence[Stroke], room: Fraction, lettering: Lettering
) -> tuple[Text, ...]:
    """Beside the foot of each sloping line, on the side to which it leans, where there is room.

    In two rows at need.
    """
    (left, base), (right, _) = (stroke.start for stroke in lines if stroke.role is Role.SETTING)
    if not (words := setting.leans_to):
        return ()
    pitch = BODY * LINE_PITCH
    ways: tuple[tuple[str, str], ...] = ((f"◄ {words}", f"{words} ►"),)
    aside = GAP + 2 * BODY * setting.slope

    def fit() -> bool:
        widest = max(lettering.width(one, BODY) for both in ways for one in both)
        return widest <= min(left, room - right) - aside

    if not fit():
        first, _, rest = words.partition(" ")
        ways = (rest, rest), (f"◄ {first}", f"{first} ►")
        aside += pitch * setting.slope
        if not fit():
            return ()
    return tuple(
        Text(said, (x, base + BODY + pitch * row), BODY, align)
        for row, both in enumerate(ways)
        for said, x, align in zip(
            both, (left - aside, right + aside), (Align.RIGHT, Align.LEFT), strict=True
        )
    )


def length_lines(left: Fraction, y: Fraction, length: Fraction) -> Iterator[Stroke]:
    """A length from `left` on at a height, to be picked up: points are set in the rings."""
    # On a short length these are no larger than leaves them apart.
    radius, right = min(Fraction(1), length / 3), left + length
    yield line(Role.DIMENSION, left, y, right, y)
    for x in (left, right):
        yield line(Role.SETTING, x, y - MARK_HALF, x, y + MARK_HALF)
        yield from prick_point((x, y), radius)


def _bevel_lines(slope: Fraction, room: Fraction) -> tuple[tuple[Stroke, ...], Fraction]:
    """A long line, and the slope leaning to either side from its middle; how high that is."""
    # Less high where it leans so much that it would leave the card.
    run, base = min(BEVEL_RUN, room / 3 / slope), Fraction(2)
    strokes = [line(Role.OUTLINE, 0, base, room, base)]
    for foot, lean in ((room * 3 / 7, -slope), (room * 4 / 7, slope)):
        strokes.append(line(Role.SETTING, foot, base, foot + lean * run, base + run))
        strokes.append(line(Role.GUIDE, foot, base, foot, base + run))
    return tuple(strokes), base + run + GAP
