"""The housing, or dado: through or stopped, for a whole shelf or for a tongue on its end."""

from collections.abc import Iterator

from joinery_templates.errors import COMMON, OURS, Finding, advice, mistake
from joinery_templates.exact import Fraction
from joinery_templates.joint import Clearing, LengthSetting, Pose, Size, Step, Task
from joinery_templates.joints.checks import loose_fit, too_short
from joinery_templates.joints.gauge import gauge
from joinery_templates.joints.housings.boards import DADO, SAWN_FROM
from joinery_templates.joints.housings.trench import Housing, Parameters
from joinery_templates.joints.kind import Example, Kind
from joinery_templates.joints.layout import pose
from joinery_templates.joints.sources import JOYCE, NOYES
from joinery_templates.joints.words import BESIDE, PEEL, beside, dashed_line, measure_again

WIDTH = f"{NOYES}, pp. 157-158: as wide as the shelf itself, which is laid on"
FULL = f"{JOYCE}, chapter on housings: it takes the full thickness; a groove takes a tongue"
CALLED = ", the shelf's upper face the outside face and its lower face the inside face"
"""On the templates."""
DEEPEST_SHOULDER = Fraction(1, 2)
"""A shelf that loses more of its thickness hangs on a weak tongue (our judgement)."""


def _order_of_work(housing: Housing) -> Iterator[Step]:
    """The housing first, then the shelf's end is fitted to it."""
    yield from _marking(housing)
    yield from _housing(housing)
    yield from _shelf_end(housing)
    bears = " End grain holds little: what carries the shelf is the lower wall."
    yield Step(
        Task.FIT,
        "Fit",
        f"{PEEL} The shelf goes in by hand, square to the inside face, with light taps. If it is a "
        f"hair too thick, plane a shaving off {_lower(housing)}, which bears no mark; leave the "
        "housing alone.",
    )
    yield Step(
        Task.GLUE,
        "Glue",
        "Lay one side down, inside face up. Brush glue on the bottom and both walls of every "
        "housing, press each shelf in, and lower the other side on. Clamp "
        "across the sides with a stiff block over each joint. Check both diagonals."
        f"{'' if housing.is_partition else bears}",
    )


def _marking(housing: Housing) -> Iterator[Step]:
    text, stop = housing.text, housing.given.stop
    (upper, lower), inside = housing.shelf_faces, housing.inside_faces
    edge = "back edge" if stop else "front edge"
    edges = "the back edge" if stop else "both edges"
    across = (
        f"{inside}, stopping {text(stop)} from the front edge"
        if stop
        else f"{inside} and the back edge"
    )
    yield Step(
        Task.PREPARE,
        "Prepare",
        f"{housing.marking(CALLED)}, ends square, and plane it to its last thickness before you "
        f"mark from it. {measure_again(with_width=False)}",
    )
    yield Step(
        Task.GAUGE,
        "Square the line",
        f"{housing.squaring(edge, f'{edge}s')}; carry it from there across {across}. Gauge the "
        f"depth, {text(housing.depth)}, on {edges} with the stock on the inside face.",
        (1,),
    )
    shown = (
        "the one for the far (back) edge: it shows" if stop else "those for both edges: they show"
    )
    yield Step(
        Task.LAY_ON,
        f"Lay on {housing.named(1)}",
        f"Lay the inside face's template with the {dashed_line(is_cut=True)} on the squared line, "
        f"▲ towards the {housing.up_end(1)}, flush with the front edge; glue it, or tape it and "
        f"prick it through at the small rings. Do the same with {shown} how deep it goes.",
    )
    if not housing.given.shoulder:
        yield Step(
            Task.GAUGE,
            "Try the shelf itself",
            f"Stand the shelf's end on the inside face, its {upper} on the squared line. Its "
            f"{lower} must come to the {'other' if housing.is_partition else 'lower'} line"
            f"{_less_fit(housing)}; where they differ the shelf is right: knife its line, and pay "
            "no heed to the printed one.",
        )


def _housing(housing: Housing) -> Iterator[Step]:
    text, stop = housing.text, housing.given.stop
    depth = text(housing.depth)
    if stop:
        yield Step(
            Task.CUT_SECOND,
            "Chop the stop",
            "Knife the stop and both walls against a square. "
            f"The housing stops {text(stop)} from the front edge. Behind that, chop a space about "
            f"{text(SAWN_FROM[housing.units])} long to the full depth and width: the saw's toe "
            "runs out into it.",
        )
    edges = "the back edge" if stop else "both edges"
    yield Step(
        Task.SAW_DOWN,
        "Saw the walls",
        f"{'' if stop else 'Knife both lines against a square. '}Pare a small groove to each from "
        "the waste. "
        "Clamp a straight block with a square edge on the wood that stays, its edge on the knifed "
        f"line, and saw against it, on the waste side, down to the gauged line on {edges}, "
        f"{depth}; then the other wall.",
        (1,),
    )
    from_where = "from the back edge towards the stop"
    if not stop:
        from_where = "from both edges, so that neither breaks away"
    yield Step(
        Task.CUT_SECOND,
        "Clear the housing",
        f"Chisel out the middle {from_where}, and bring the bottom level with a router plane set "
        f"to {depth}. Try the walls with a square.",
    )
    if housing.behind:
        yield Step(
            Task.PLOUGH,
            "Plane the rebate",
            "Once, when all housings are cut and the paper is peeled off. "
            "From end to end along the back edge of each side, on the inside face, "
            f"{text(housing.behind)} from the back edge and {text(housing.rebate_depth)} deep, "
            "with a fillister plane. The shelf ends where the rebate begins.",
            (1,),
        )


def _shelf_end(housing: Housing) -> Iterator[Step]:
    """What leaves the shelf's end, where anything does."""
    text, depth, lower = housing.text, housing.text(housing.depth), housing.shelf_faces[1]
    if not housing.parts[0].cuts:
        return
    yield Step(Task.LAY_ON, f"Lay on {housing.named(0)}", housing.laid_on())
    if housing.start:
        level = ", level with the tongue's shoulder" if housing.given.shoulder else ""
        yield Step(
            Task.SAW_FIRST,
            "Saw out the front corner",
            f"It goes {text(housing.start)} from the front edge and {depth} from the end. Knife "
            f"its line round the front edge first, for it shows; saw {BESIDE}, and pare to its "
            f"middle{level}.",
        )
    if housing.given.shoulder:
        yield Step(
            Task.SAW_FIRST,
            "Saw the tongue",
            f"Knife the shoulder across the {lower}, {depth} from the end, and saw "
            f"{beside('it')}, {text(housing.given.shoulder)} deep. Saw or plane the waste away to "
            f"the line on the end grain, so that a tongue {text(housing.tongue)} thick is left.",
        )


def _lower(housing: Housing) -> str:
    return "the tongue's lower side" if housing.given.shoulder else f"its {housing.shelf_faces[1]}"


def _less_fit(housing: Housing) -> str:
    fit = housing.given.fit
    if not fit:
        return ""
    return f" but for {housing.text(abs(fit))} {'of gap' if fit > 0 else 'that presses'}"


class Stated(Housing, frozen=True):
    """All that is stated of a housing."""

    rules = Housing.depth_rule
    steps = _order_of_work

    @property
    def pose(self) -> Pose:
        """The shelf is drawn out of the housing, or along it: forwards only where it stops."""
        forwards = [] if self.given.stop else [(-1, 0, 0)]
        return pose((0, 0, -1), (-2, 1, 0), (0, 1, 0), (1, 0, 0), *forwards)

    def clearings(self) -> Iterator[Clearing]:
        """The housing."""
        yield Clearing("housing", self.width, self.width, "fit")

    def sizes(self) -> Iterator[Size]:
        """Of the housing, and of the shelf's end."""
        yield Size("how far each end of the shelf is let in", self.depth)
        yield Size(
            "thickness of the side left behind the housing", self.side.thickness - self.depth
        )
        if self.given.shoulder:
            yield Size("tongue on the shelf's end", self.tongue)
        if self.start:
            yield Size("shelf's corner cut back, from the front edge", self.start)

    def lengths(self) -> Iterator[LengthSetting]:
        """Gauges, and dividers for the width."""
        given = self.given
        yield gauge("depth of the housing, from the inside face", self.depth)
        yield LengthSetting("dividers", "width of the housing", self.width)
        if given.stop:
            yield gauge("stop of the housing, from the front edge", given.stop)
        if given.shoulder:
            use = f"lower side of the tongue on the end grain, from the {self.shelf_faces[0]}"
            yield gauge(use, self.tongue)
            yield gauge("tongue's shoulder, from the shelf's end", self.depth)
        if self.start:
            yield gauge("shelf's corner cut back, from the front edge", self.start)
        if self.behind:
            yield gauge("rebate, from the back edge", self.behind)
            depth = "depth of the rebate, from the inside face"
            yield gauge(depth, self.rebate_depth)

    def impossible(self) -> Iterator[Finding]:
        """What cannot be cut."""
        shelf, side, text = self.shelf, self.side, self.text
        yield from self.too_wide()
        yield from self.too_deep()
        yield from self.stopped_too_late("The shelf's end")
        if self.width <= 0 or self.tongue <= 0:
            place = "shoulder" if self.given.shoulder else "fit"
            taken = f"a shoulder of {text(self.given.shoulder)} and " if place == "shoulder" else ""
            yield mistake(
                "no-room",
                f"{taken}a fit of {text(self.given.fit)}".capitalize()
                + f" leaves no housing for a shelf {text(shelf.thickness)} thick.",
                "Give a fit nearer to 0."
                if place == "fit"
                else f"Give a shoulder of at most {text(shelf.thickness * DEEPEST_SHOULDER)}.",
                place,
            )
        if self.behind and shelf.width <= side.width < shelf.width + self.behind:
            yield mistake(
                "widths-differ",
                f'The shelf "{shelf.name}", {text(shelf.width)} wide, runs into the rebate: the '
                f'side "{side.name}" leaves {text(side.width - self.behind)}.',
                "Make the shelf narrower by the rebate, or the rebate narrower.",
                "rebate",
            )
        if self.rebate_depth >= side.thickness:
            yield mistake(
                "rebate-too-deep",
                f"A rebate {text(self.rebate_depth)} deep goes right through the side, "
                f"{text(side.thickness)} thick.",
                "About a third is usual.",
                "rebate",
            )
        yield from too_short(self, (self.depth, self.width))

    def advise(self) -> Iterator[Finding]:
        """What is unwise though it can be cut."""
        text, shelf = self.text, self.shelf
        yield from self.deep()
        yield from self.stopped_too_soon()
        yield from self.near_an_end()
        yield from self.open_behind(self.behind)
        if self.given.shoulder > shelf.thickness * DEEPEST_SHOULDER:
            yield advice(
                "tongue-thin",
                f"The tongue is {text(self.tongue)} thick, less than half of the shelf.",
                OURS,
                "Give a narrower shoulder.",
                "shoulder",
            )
        yield from loose_fit(self, self.given.fit, "below the shelf shows at the front edge")


KIND = Kind(
    name="housing",
    title="Housing",
    summary="A square trench across a side takes a shelf's end or a tongue on it, through or "
    "stopped (dado): shelves and divisions.",
    roles=Stated.roles,
    parameter_class=Parameters,
    lay_out=Stated.joint_of,
    example=Example(
        width="250 mm",
        thicknesses=("18 mm", "20 mm"),
        parameters=(("depth", "6 mm"),),
        corners=(("Left end", "A"), ("Right end", "B")),
    ),
    also=("dado", "trench"),
    sources=(WIDTH, FULL, DADO, f"depth of a third: {COMMON}"),
)
