"""What is said alike of many joints: slopes, lines, templates, and boards measured again."""

from collections.abc import Sequence

from joinery_templates.exact import Fraction, degrees_of
from joinery_templates.lengths import decimal_text


def slope_text(slope: Fraction) -> str:
    """A slope as a joiner says it: ``1:6.5``, or ``9.5° (about 1:6)`` if it came as an angle."""
    ratio = decimal_text(1 / slope, 2)
    if not ratio.startswith("≈"):
        return f"1:{ratio}"
    near = decimal_text(1 / slope, 0 if slope <= Fraction(1, 3) else 1).removeprefix("≈")
    return f"{degrees_of(slope, Fraction(1)):.1f}° (about 1:{near})"


def listed(names: Sequence[str]) -> str:
    """Names one after the other, the last two joined by "and"."""
    return " and ".join(filter(None, (", ".join(names[:-1]), names[-1])))


def beside(line: str) -> str:
    """Where a saw or chisel goes: the middle of every line is the finished edge."""
    return f"beside {line}, on the waste side"


BESIDE = beside("the line")
PEEL = (
    "Peel off all paper first, for it takes up room in the joint. Where it sticks, warm it with an "
    "iron or a hair dryer: water would swell the joint. Scrape off what glue is left. Plane no "
    "marked face until the joint is together for good."
)


ONE_BY_ONE = {
    None: ": where it is joined at both ends, first one on both boards that meet it, then the "
    "other on both at once; where at one end, on the board that meets it",
    True: ": first one on both boards that meet it, then the other on both at once",
    False: " the board that meets it",
}
"""How the first boards go on, by whether that board is joined at both its ends."""
SQUARED_UP = {
    None: "the diagonals are equal, or in an open piece that it is as wide at its open end as at "
    "the joint",
    True: "the diagonals are equal",
    False: "the piece is as wide at its open end as at the joint",
}
"""What a piece is tested by, by whether all its boards are joined at both ends."""
PLACE_CHOSEN = ", at a place that you choose"
PLACED_ALIKE = f"{PLACE_CHOSEN}, alike on both of a pair"
"""Where on a board another comes, which nobody told."""
GAUGED_HOLD = (
    "On the end grain the printed lines must run on from those gauged on the edges; where they do "
    "not, the gauged ones hold."
)
"""Of paper that is laid over gauged lines (common practice, no source)."""
FALLS_IN = "Later a knife's point, pressed through the printed line, must find the scribed one."
"""The check of a scribed line that paper hides (common practice, no source)."""
PRINT_AGAIN = (
    "what stands on the templates, read on the first page how much is still good and when to print "
    "again"
)
"""What is done where a board is no longer as it was when it was measured."""


def past_far_edge(mate: str) -> str:
    """An end of a board, by what crosses it; where corners tell, it is called top or bottom end."""
    return f"end past the {mate}'s far edge"


def measure_again(boards: str = "both", with_width: bool = True) -> str:
    """What is measured before anything is marked: the thickness of some boards, and the width."""
    what, is_so = ("width and thickness", "they are") if with_width else ("the thickness", "it is")
    return f"Measure {what} of {boards} again: if {is_so} not {PRINT_AGAIN}."


TAPED_FIRST = "tape that of the end grain on by its tab, prick its lines through and take it off"
THEN_FACES = "then lay on those of the faces and edges, each with its end on the arris"
"""How flat templates of one end follow each other."""
CARRIED_ON = "Carry its lines on with square and bevel, down to the lines that are gauged."
"""What is done where the end grain alone has a template."""
FOLD_EACH = (
    "Trim each template along its outer lines and crease both folds over a rule, printed side out. "
    "Fold it over the squared end so that the fold lines sit on the arrises, its reference edge "
    "flush with the board's, and tape it: it serves again for every end that is alike."
)
"""How the templates of both boards are laid on, and used again."""
FACE_ON_ARRIS = (
    "Then lay on those of the outside and the inside face, each with the line of its end on the "
    "arris and its reference edge flush with the board's, and tape them. The lines must meet at "
    "the arrises; then prick through the small rings."
)
"""How the flat templates of an end that slants go on after that of the end grain."""


_FLAT = f"Trim the templates along their outer lines. First {TAPED_FIRST}."
LAID_FLAT = (
    f"{_FLAT} {THEN_FACES.capitalize()}; glue them, or tape them and prick through the small rings."
)
END_LAID_ON = f"{_FLAT} {CARRIED_ON}"
"""How flat templates are laid on where none that folds is printed."""


def fold_over(edge: str) -> str:
    """How a wrap is laid on a board's end; `edge` is what is laid flush."""
    return (
        "Trim the template along its outer lines and crease both folds over a rule, printed side "
        "out. Fold it over the end of the board so that the two fold lines sit on the arrises, "
        f"bring its {edge} flush with the board's, and glue it, or tape it and prick through "
        "the small rings."
    )


def dashed_line(is_cut: bool) -> str:
    """The line that a template is laid on, told from those to trim at; a wall may stand on it."""
    return f"dashed line that the label names{' (solid where it is cut)' if is_cut else ''}"
