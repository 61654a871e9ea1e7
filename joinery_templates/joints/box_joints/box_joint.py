r"""The box joint, or corner locking: square fingers of both boards interlock.

The first board's end, outside face, with 5 fingers and spaces in all::

    +----+    +----+    +----+  y = 0, the end
    |    |    |    |    |    |
    |    |____|    |____|    |  y = baseline
    finger space finger space finger

The second board has a finger where the first has a space, and the other way round.
"""

from collections.abc import Iterator

from msgspec.structs import replace

from joinery_templates.errors import COMMON, OURS, Finding, advice
from joinery_templates.joint import Joint, Step, Task
from joinery_templates.joints.box_joints import fingers
from joinery_templates.joints.box_joints.corner import FingerCorner
from joinery_templates.joints.checks import loose_fit
from joinery_templates.joints.corners import closing, steps
from joinery_templates.joints.corners.angles import pair_of
from joinery_templates.joints.corners.interlocked import no_room
from joinery_templates.joints.corners.meeting import Meeting
from joinery_templates.joints.kind import Example, Kind, Request
from joinery_templates.joints.sources import NOYES
from joinery_templates.joints.spread import more_or_fewer_fingers
from joinery_templates.joints.words import BESIDE, beside

SLIP_JOINT = f"{NOYES}, no. 46: the slip joint; several side by side are called corner locking"
FEWEST = 3
"""Both edges alike need no more fingers and spaces."""


class Parameters(Meeting, fingers.Parameters):
    """The parameters of a box joint."""


def _advise(corner: FingerCorner) -> Iterator[Finding]:
    """What is unwise though it can be cut."""
    finger, thin = corner.finger, corner.thinner.thickness
    edge = min(
        piece.width + corner.pair.past_the_other(0 if piece.finger else 1)[place]
        for place, piece in ((0, corner.divisions[0]), (1, corner.divisions[-1]))
    )
    wide = finger > thin
    # Fewer than three are no remedy: a narrow thick board has no more.
    if finger > 2 * thin or (finger < thin / 2 and len(corner.divisions) > FEWEST):
        yield advice(
            "finger-wide" if wide else "finger-narrow",
            f"Fingers of {corner.text(finger)} in boards {corner.text(thin)} thick make "
            f"{'fewer glue faces' if wide else 'more sawing'} than usual.",
            f"{COMMON}: about as wide as the stock is thick; half and twice that are our judgement",
            f"Give {'more' if wide else 'fewer'} fingers.",
            "fingers",
        )
    if edge < finger / 2:
        yield advice(
            "edge-finger-narrow",
            f"The pieces at the edges are only {corner.text(edge)} wide and may split away.",
            OURS,
            "Give another number of fingers, or leave `finger` out.",
            "finger",
        )
    yield from loose_fit(
        corner,
        corner.given.fit,
        "at each side is more than glue fills well, and glue alone holds this joint",
    )
    yield from corner.advise_on_strips()


def _order_of_work(corner: FingerCorner) -> Iterator[Step]:
    first = corner.named(0)
    yield from steps.set_out(corner)
    yield _saw_first(corner)
    yield steps.mark_from_first(corner, "finger", f": it has a space wherever {first} has a finger")
    yield _saw_second(corner)
    flush = corner.flush_words(("first board's fingers", "second board's fingers"))
    yield from closing.join_fingers(corner, flush)
    yield from steps.level_the_edges(corner)


def _saw_first(corner: FingerCorner) -> Step:
    own = sum(division.finger for division in corner.divisions)
    down = f"Saw straight down {BESIDE}"
    if corner.pair.is_slanted:
        down = (
            f"Saw along the grain {BESIDE}: down the face and along the line on the end grain, "
            "which does not run square across the end"
        )
    chopped = _chopped(corner, 0)
    waste = "; ".join(filter(None, (chopped, _off_at_edges(corner, 0))))
    words = (
        f"It keeps {own} finger{'' if own == 1 else 's'}. {down}, to the baseline and no further. "
        f"Knife the baseline across the waste. {waste[0].upper()}{waste[1:]}. Pare all to the "
        f"middle of the baseline{'' if chopped else _leaning(corner, 0)}."
    )
    return Step(Task.SAW_FIRST, _heading(corner, 0), words)


def _saw_second(corner: FingerCorner) -> Step:
    """As the first; but one of three fingers and spaces in all has nothing to chop."""
    chopped = "" if _chopped(corner, 0) else _chopped(corner, 1)
    sides = "the sides of the fingers are all that the glue holds"
    words = "; ".join(filter(None, (sides, chopped, _off_at_edges(corner, 1))))
    return Step(
        Task.CUT_SECOND,
        _heading(corner, 1),
        f"In the same way, {beside('the knifed lines')}: {words}.",
    )


def _heading(corner: FingerCorner, number: int) -> str:
    return f"Saw {'and chop ' if _chopped(corner, number) else ''}{corner.named(number)}"


def _chopped(corner: FingerCorner, number: int) -> str:
    """How the spaces with wood on both sides are cleared; empty where a board has none."""
    count = corner.spaces_between(number) + sum(corner.stopped_at(number))
    spaces = "space" if count == 1 else "spaces"
    how = f"with a chisel, half way from each face{_leaning(corner, number)}"
    return f"clear the {spaces} {how}" if count else ""


def _leaning(corner: FingerCorner, number: int) -> str:
    return f": {steps.chop_leaning(corner, number)}" if corner.pair.end_bevel(number) else ""


def _off_at_edges(corner: FingerCorner, number: int) -> str:
    edges = corner.open_edges(number)
    spaces = "spaces" if edges.startswith("both") else "space"
    line = f"{beside('the baseline')} (knife it there first)"
    return f"saw off the {spaces} at {edges} {line}" if edges else ""


class Stated(FingerCorner, frozen=True, dict=True):
    """All that is stated of a box joint."""

    advise = _advise
    steps = _order_of_work

    def impossible(self) -> Iterator[Finding]:
        """A finger or a space that comes to nothing."""
        what, remedy = "a finger or a space", "Give wider fingers, or another fit."
        return no_room(self.rows(), what, remedy, "fit" if self.given.fit else "finger")


def box_joint(request: Request) -> Joint:
    """Fingers where the boards meet at any angles.

    Raises:
        InputError: where it cannot be cut.
    """
    given: fingers.Parameters = request.given
    past = (given.first_proud, given.second_proud)
    pair = pair_of(request, "At a box-jointed corner", past)
    first, second = request.boards
    low, high = pair.shared
    level = replace(first, width=high - low)
    divisions, rules = fingers.lay_fingers(given, (level, second), request.units)
    return Stated(request, given, pair, divisions, rules).joint()


KIND = Kind(
    name="box-joint",
    title="Box joint",
    summary="Square fingers of both boards interlock (corner locking): boxes and trays.",
    roles=Stated.roles,
    parameter_class=Parameters,
    lay_out=box_joint,
    example=Example(
        width="84 mm",
        thicknesses=("12 mm", "12 mm"),
        parameters=(
            ("fingers", 7),
            ("first_proud", "0.3 mm"),
            ("second_proud", "0.3 mm"),
        ),
    ),
    also=("finger-joint", "comb-joint", "corner-locking"),
    sources=(SLIP_JOINT, "finger about as wide as the stock is thick: common practice, no source"),
    spread=more_or_fewer_fingers,
)
