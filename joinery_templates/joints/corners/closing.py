r"""How corners are put together, clamped and tested, also those that lean or form a ring.

Tails close along the grain of their pin board and no other way. In a piece of four sides,
square in plan, both pin boards' grain runs one way, whatever the lean, for it lies level: one
tail board goes on both pin boards, then the other does. In a ring the directions differ::

        pin          Six sides, tail and pin boards in turn. A tail board goes on both its
       _____         neighbours at once only if these move outwards too, by half as much: all
  tail/     \tail    six must be drawn in together. A chain with one corner open, or two
      \     /        halves with two, are rigid, and the open corners want two directions.
    pin`---´pin

Fingers have level sides and close in any level direction that brings each board's inside
face onto the other's end. Two halves of a ring have such a direction in common. One board
between two neighbours has one only where the corners are no wider than 90 degrees.
"""

from joinery_templates.joint import Step, Task
from joinery_templates.joints.corners.layout import CornerLayout
from joinery_templates.joints.corners.steps import TRY
from joinery_templates.joints.words import ONE_BY_ONE, SQUARED_UP
from joinery_templates.lengths import decimal_text
from joinery_templates.wood.leaning import SQUARE

_DRY_RUN = "Make a dry run first, and have all at hand before any glue is spread."


def join_tails(corner: CornerLayout, flush: str) -> tuple[Step, ...]:
    """How a dovetailed piece is fitted, closed and glued.

    Args:
        corner: the corner.
        flush: what is planed flush in the end, in words; empty where nothing is.
    """
    along = "The boards slide together along the grain of the pin board."
    glue = f"Glue, {clamp(corner, (0,))}, and {check_the_angle(corner)}.{flush}"
    if corner.pair.is_square_in_plan:
        words = f"{along} {TRY} {both_ends_at_once(corner)} {glue}"
        return (Step(Task.GLUE, "Fit and glue", words),)
    parallel = (
        "Where all pin boards lie parallel, as they may in a piece of four sides, put one tail "
        "board on both and then the other. "
    )
    if (corner.boards[1].pieces or 0) > 2:
        parallel = ""
    return (
        Step(Task.FIT, "Fit", f"{along} {TRY}"),
        Step(
            Task.GLUE,
            "Close the ring and glue",
            "Round a ring the pin boards' grain runs in different directions: when all corners but "
            "one are driven home, the last cannot be entered, and two halves cannot be joined "
            "either. Stand the boards on the bench, start all corners, then draw them in "
            "together, a little at a time, with a band clamp round the outside. "
            f"{parallel}{_DRY_RUN} {glue}",
        ),
    )


def both_ends_at_once(corner: CornerLayout) -> str:
    """In which order a piece of three or four sides goes together (common practice, no source)."""
    return f"Put {corner.named(0)} on{ONE_BY_ONE[corner.request.around.first_is_between]}."


def join_fingers(corner: CornerLayout, flush: str) -> tuple[Step, ...]:
    """The same for fingers; round a ring of sharp corners the last board goes straight in."""
    pressed = "clamp both ways, over straight battens as cauls"
    if any(past > 0 for past in corner.pair.past):
        pressed = (
            "clamp both ways, over battens as cauls, notched to clear the other board's proud "
            "ends, so that each presses on its own board's fingers"
        )
    if corner.pair.is_slanted:
        pressed = clamp(corner, (0, 1))
    glue = (
        "Glue all sides of the fingers, for nothing locks this joint "
        f"but glue; {pressed}, and {check_the_angle(corner)}.{flush}"
    )
    if corner.pair.angles.plan_deg <= SQUARE:
        four = f"{both_ends_at_once(corner)} " if corner.pair.is_square_in_plan else ""
        return (Step(Task.GLUE, "Fit and glue", f"{TRY} {four}{glue}"),)
    return (
        Step(Task.FIT, "Fit", TRY),
        Step(
            Task.GLUE,
            "Close the ring and glue",
            "No board can be put in last between two others: its ends do not pass their fingers. "
            "Put the ring together as two halves, with all their corners home, and then push the "
            f"halves straight together, so that both open corners close at once. {_DRY_RUN} {glue}",
        ),
    )


def clamp(corner: CornerLayout, pressed: tuple[int, ...]) -> str:
    """How it is clamped: level, though the boards' faces lean.

    Args:
        corner: the corner.
        pressed: the boards that clamps bear on where the corner is square in plan.
    """
    square = corner.pair.is_square_in_plan
    leans = corner.pair.angles.leans_deg
    leaning = [number for number in (pressed if square else (0, 1)) if leans[number]]
    start, level = ("clamp", "clamps lie level")
    if not square:
        start, level = ("draw it up with a band clamp", "band cannot ride up")
    if not leaning:
        return start
    told = " and ".join(
        dict.fromkeys(f"{decimal_text(abs(leans[number]), 2)}°" for number in leaning)
    )
    boards = "boards lean" if len(leaning) > 1 else f"{corner.roles[leaning[0]].words} leans"
    clear = ", clear of the proud ends" if any(past > 0 for past in corner.pair.past) else ""
    blocks = f"over blocks bevelled as the {boards}, {told} off square"
    return f"{start} {blocks}, so that the {level}{clear}"


def check_the_angle(corner: CornerLayout) -> str:
    """What is tested before the glue sets."""
    if corner.pair.is_square_in_plan:
        return f"check before it sets that {SQUARED_UP[corner.request.around.is_closed]}"
    plan = decimal_text(corner.pair.angles.plan_deg, 2)
    level = ", held level," if not corner.pair.is_upright else ""
    return f"test every corner inside with the bevel{level} at {plan}° before it sets"
