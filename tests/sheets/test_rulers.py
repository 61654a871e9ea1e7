"""The two check rulers where they share a corner: every graduation is there, and none crosses."""

from fractions import Fraction
from itertools import combinations

from joinery_templates.drawings.figure import Role, Stroke
from joinery_templates.sheets.rulers import drawn_rulers, longest_ruler

ORIGIN = (Fraction(20), Fraction(30))
RULERS = drawn_rulers(
    ORIGIN, longest_ruler(Fraction(60)), longest_ruler(Fraction(90)), Fraction(90), Fraction(130)
)
TICKS = [stroke for stroke in RULERS.strokes if stroke.role is Role.TICK]


def towards_drawing(upright: bool) -> list[Stroke]:
    """Graduations in mm of one ruler: they stand square to it, on the side of the drawing."""
    aside = 0 if upright else 1
    return [
        tick
        for tick in TICKS
        if tick.start[1 - aside] == tick.end[1 - aside] and tick.end[aside] > ORIGIN[aside]
    ]


def test_both_rulers_have_every_millimetre_from_nought_on():
    across = sorted(tick.start[0] - ORIGIN[0] for tick in towards_drawing(upright=False))
    along = sorted(tick.start[1] - ORIGIN[1] for tick in towards_drawing(upright=True))
    assert across == list(range(61))
    assert along == list(range(91))


def test_both_rulers_are_graduated_alike():
    def lengths(upright: bool) -> list[Fraction]:
        aside = 0 if upright else 1
        ticks = sorted(towards_drawing(upright), key=lambda tick: tick.start[1 - aside])
        return [tick.end[aside] - tick.start[aside] for tick in ticks][:61]

    assert lengths(upright=True) == lengths(upright=False)


def test_no_graduation_of_one_crosses_one_of_the_other():
    """They may touch at their ends."""
    for level, upright in combinations(TICKS, 2):
        if level.start[0] == level.end[0]:
            level, upright = upright, level  # noqa: PLW2901
        if level.start[1] != level.end[1] or upright.start[0] != upright.end[0]:
            continue
        (left, right), (low, high) = (
            sorted((stroke.start[axis], stroke.end[axis]))
            for stroke, axis in ((level, 0), (upright, 1))
        )
        assert not (left < upright.start[0] < right and low < level.start[1] < high)
