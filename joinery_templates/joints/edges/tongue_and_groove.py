r"""Tongue and groove: boards edge to edge, with a tongue on the one or loose in both.

Seen on the ends; the first board's far edge meets the second's reference edge, so that a third
follows in the same way. Both are gauged from the outside face::

         outside faces                            outside faces
    ----------+-----------------             --------+-------------------
       first  +---.  second                      .---+---.
              +---'                              `---+---'  loose
    ----------+-----------------             --------+-------------------
"""

from collections.abc import Iterator

from joinery_templates.errors import OURS, Finding, mistake
from joinery_templates.joint import Clearing, LengthSetting, Size, Step, Task
from joinery_templates.joints.edges.boards import AS_DEEP, CENTRED, SPARE, THIRD, Edges, Parameters
from joinery_templates.joints.gauge import gauge
from joinery_templates.joints.kind import Example, Kind
from joinery_templates.joints.tongues import no_room_beside, unusual_tongue
from joinery_templates.joints.words import PEEL, measure_again


def impossible(edges: Edges) -> Iterator[Finding]:
    """What cannot be cut."""
    text = edges.text
    yield from no_room_beside(edges, edges.tongue)
    if edges.depth <= edges.long:
        yield mistake(
            "no-room",
            f"A groove {text(edges.depth)} deep is no deeper than the tongue is long, "
            f"{text(edges.long)}: the tongue would strike before the edges close.",
            f"Make it a little deeper, such as {text(edges.long + SPARE[edges.units])}.",
            "depth",
        )
    for number, board in enumerate(edges.boards):
        taken = edges.long if edges.is_solid and not number else edges.depth
        if taken >= board.width:
            yield mistake(
                "no-room",
                f"The joint takes {text(taken)} of the width of "
                f'"{board.name}", which is {text(board.width)} wide.',
                "Give a shorter tongue, or a wider board.",
                "tongue_length" if edges.given.tongue_length else "",
            )


def advise(edges: Edges) -> Iterator[Finding]:
    """What is unwise though it can be cut."""
    yield from unusual_tongue(edges, edges.tongue, f"{THIRD}; a quarter to two fifths: {OURS}")


def rules_of(edges: Edges) -> Iterator[str]:
    """What was decided by a rule."""
    given, text = edges.given, edges.text
    if given.tongue is None:
        wide = edges.tongue
        share = f"about a third of the board{edges.by_chisel(wide)}"
        yield f"Tongue: {text(wide)} thick, {share} ({THIRD})."
    if given.tongue_length is None:
        yield f"Tongue: {text(edges.long)} long, as long as it is thick ({AS_DEEP})."
    if given.depth is None:
        yield f"Groove: {text(edges.depth)} deep, a little more than the tongue is long ({OURS})."


def order_of_work(edges: Edges) -> Iterator[Step]:
    """The order of work (common practice, no source)."""
    text, (one, other) = edges.text, (edges.named(0), edges.named(1))
    also, more = tuple("" for _ in edges.boards), ""
    if edges.count > 2:
        more = (
            f" Use that for the far edge of {one} on every board but the last, and that for the "
            f"reference edge of {other} on every board but the first."
        )
        also = (", and of every other one but the last,", ", and of every one after it,")
    yield Step(
        Task.PREPARE,
        "Prepare",
        f"Mark the outside face and the reference edge of {one} and {other}. Shoot the far edge of "
        "the first and the reference edge of the second straight and square, until they close "
        f"without light between them. {_side_by_side(edges)} {measure_again('all')}",
    )
    yield Step(
        Task.LAY_ON,
        "Lay on the templates",
        f"Set a mortise gauge to {text(edges.tongue)}, by the chisel or plough iron itself, and "
        f"its nearer point {text(edges.low)} from the stock; leave it so. With the "
        "stock on the outside face each time, scribe both edges that meet, and their ends. "
        f"Lay each template on the end that it names: its lines must meet the scribed ones.{more}",
        (0, 1),
    )
    plough = (
        f"{text(edges.depth)} deep, with a plough plane whose fence runs on the outside face. "
        "Begin at the far end with short strokes and work backwards"
    )
    if edges.is_solid:
        yield Step(
            Task.SAW_FIRST,
            "Plane the tongue",
            f"Along the far edge of {one}{also[0] or ','} scribe the shoulders {text(edges.long)} "
            "from the edge on both faces, deep enough to cut the fibres. Plane the rebate on "
            "either side of the tongue with a rebate plane, down to the middle of the scribed "
            "lines; then take a shaving off each arris of the tongue.",
        )
        yield Step(
            Task.CUT_SECOND,
            "Plough the groove",
            f"Plough the reference edge of {other}{also[1]} {plough}.",
        )
        fit = "The tongue goes in by hand over its whole length, and the shoulders close on both"
    else:
        yield Step(
            Task.SAW_FIRST,
            "Plough the first board",
            f"Plough the far edge of {one}{also[0]} {plough}.",
        )
        yield Step(
            Task.CUT_SECOND,
            "Plough the second board",
            f"Plough the reference edge of {other}{also[1]} as deep, the fence on the "
            "outside face again.",
        )
        each = f" Each of the {edges.count - 1} seams has one." if edges.count > 2 else ""
        yield Step(
            Task.MAKE_KEYS,
            "Make the tongue",
            f"Plane wood to {text(edges.tongue)}, to go in with the push of a thumb, and cut it "
            f"{text(2 * edges.long)} across, its grain across the joint; thin plywood will do. "
            f"Short lengths follow each other along the groove.{each}",
        )
        fit = "Put the tongue into one groove and the other board on it; the edges close on both"
    heading, last = "Fit and glue", "Glue along the edges, and clamp it flat."
    if not edges.given.glued:
        heading, last = (
            "Fit and fix",
            "No glue between the boards: fix each along its middle or at one edge, so that it can "
            "swell and shrink. Put up boards that are quite dry with a gap as thick as a card at "
            "every shoulder, for they will swell.",
        )
    yield Step(
        Task.GLUE,
        heading,
        f"{PEEL} {fit} faces; where they do not, the groove is not deep enough."
        f"{edges.stands_inside} {last}",
    )


def _side_by_side(edges: Edges) -> str:
    """What each of several boards has, and how wide all are together."""
    far = "tongue on" if edges.is_solid else "groove in"
    both = f"a groove in the reference edge and a {far} the far edge"
    if edges.count == 2:
        follow = f"Where more boards follow, those between have {both}."
        if not edges.is_solid:
            return follow
        one = edges.named(0)
        return (
            f"{one[0].upper()}{one[1:]} loses {edges.text(edges.long)} of what shows to its "
            f"tongue: allow for that in the width of the whole. {follow}"
        )
    whole, gaps = "Closed up, the whole", "; add the gaps that you leave"
    if edges.given.glued:
        whole, gaps = "The whole", ""
    alone = "the first and the last have one groove"
    if edges.is_solid:
        alone = "the first has its tongue alone and the last its groove alone"
    return (
        f"Of the {edges.count} boards {alone}; those between have {both}. {whole} "
        f"measures {edges.text(edges.whole)} across{gaps}."
    )


class Stated(Edges, frozen=True):
    """All that is stated of tongue and groove."""

    impossible = impossible
    rules = rules_of
    advise = advise
    steps = order_of_work

    def clearings(self) -> Iterator[Clearing]:
        """The grooves."""
        wide = self.tongue
        yield Clearing("groove, by plough iron or chisel", wide, wide, "tongue", sawn=False)

    def sizes(self) -> Iterator[Size]:
        """Of the tongue, and what is left behind it."""
        yield Size("tongue, thickness", self.tongue)
        if self.is_solid:
            yield Size("tongue, length", self.long)
            yield Size("first board, width without the tongue", self.shows)
        else:
            yield Size("loose tongue, across the joint", 2 * self.long)
        for number, role in enumerate(self.roles):
            left = self.boards[number].thickness - self.high
            what = "groove" if number or not self.is_solid else "tongue"
            yield Size(f"{role.words}, behind the {what} on the inside", left)

    def lengths(self) -> Iterator[LengthSetting]:
        """Gauges, and a plough's depth stop."""
        use = "nearer side of tongue and groove, from the outside face of both"
        yield LengthSetting("mortise gauge", "its points, for tongue and groove", self.tongue)
        yield gauge(use, self.low)
        if self.is_solid:
            yield gauge("tongue's shoulders, from the first board's far edge", self.long)
        yield LengthSetting("depth stop", "groove", self.depth)


KIND = Kind(
    name="tongue-and-groove",
    title="Tongue and groove",
    summary="Boards edge to edge, a tongue on the one in a groove of the other, or a loose tongue "
    "in both: panels, backs and floors.",
    roles=Stated.roles,
    parameter_class=Parameters,
    lay_out=Stated.joint_of,
    example=Example(
        width="120 mm",
        thicknesses=("18 mm", "18 mm"),
        parameters=(("tongue", "6 mm"), ("tongue_length", "6 mm"), ("depth", "7 mm")),
        second_width="100 mm",
        corners=(("Seam 1", "A"),),
    ),
    sources=(CENTRED, THIRD, AS_DEEP),
)
