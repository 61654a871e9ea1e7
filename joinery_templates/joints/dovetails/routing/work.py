"""What is said of a dovetail that is routed: tool settings, sizes and the order of work.

All steps are common practice, no source.
"""

from collections.abc import Iterator

from msgspec.structs import replace

from joinery_templates.errors import COMMON
from joinery_templates.joint import Joint, LengthSetting, Size, Step, Task
from joinery_templates.joints.dovetails.corner import DovetailCorner
from joinery_templates.joints.dovetails.routing.advice import Routing, advise_on_cutter
from joinery_templates.joints.dovetails.routing.cutter import RoutedParameters
from joinery_templates.joints.dovetails.steps import sockets
from joinery_templates.joints.words import slope_text
from joinery_templates.wood.cut import unsawn

_OF_HAND_WORK = frozenset({"slope-flat", "slope-steep"})
"""Advice on slopes that hand work keeps to; here the cutter has settled the slope."""
_OF_THE_SAW = frozenset({"pin-below-kerf"})
"""Advice for the saw, which does not touch a space that the cutter has cut."""


def with_cutter(joint: Joint, corner: DovetailCorner) -> Joint:
    """A joint as cut by hand, with what a cutter adds where there is one."""
    given = corner.request.given
    if not isinstance(given, RoutedParameters) or given.cutter is None:
        return joint
    routing = Routing(corner, given.cutter)
    routed = _routed_steps(routing)
    dropped = _OF_HAND_WORK | _OF_THE_SAW if routing.routs_spaces else _OF_HAND_WORK
    kept = (finding for finding in joint.findings if finding.code not in dropped)
    steps = [step for one in joint.steps for step in routed.get(one.task, (one,))]
    members = (
        replace(member, part=unsawn(member.part)) if task in routed else member
        for member, task in zip(joint.members, (Task.SAW_FIRST, Task.CUT_SECOND), strict=True)
    )
    return replace(
        joint,
        members=tuple(members),
        lengths=(*joint.lengths, *_settings(routing)),
        sizes=(*joint.sizes, *_sizes(routing)),
        rules=(*joint.rules, *_wide_spaces(routing)),
        findings=(*kept, *advise_on_cutter(routing, given)),
        steps=(_CAUTION, *steps) if routed else joint.steps,
        clearings=tuple(one for one in joint.clearings if one.task not in routed),
    )


def _wide_spaces(routing: Routing) -> Iterator[str]:
    if routing.routs_spaces and not routing.one_pass_each:
        yield (
            f"Spaces wider at the end than one pass of {routing.corner.text(routing.one_pass)}: "
            f"two or more passes each ({COMMON})."
        )


def _sizes(routing: Routing) -> Iterator[Size]:
    if routing.routs_laps:
        narrow, wide = routing.radii
        yield Size("radius of the cutter in a socket, at the lap line", wide)
        yield Size("radius of the cutter in a socket, on the inside face", narrow)


def _settings(routing: Routing) -> Iterator[LengthSetting]:
    """Of what the dovetail cutter cuts; none where it cuts nothing."""
    boards = [
        *(["tail board"] if routing.routs_spaces else []),
        *(["pin board"] if routing.routs_laps else []),
    ]
    if boards:
        which = "both boards" if len(boards) > 1 else boards[0]
        yield LengthSetting("cutter", "largest diameter, at its tip", routing.cutter.diameter)
        yield LengthSetting("router", f"depth of cut, {which}", routing.corner.tail_length)
    if routing.routs_spaces:
        yield from _guide(routing)


def _guide(routing: Routing) -> Iterator[LengthSetting]:
    """Where the spaces between the tails come."""
    corner, pitch = routing.corner, routing.corner.spacing.step
    if corner.spacing.pins:
        before, after = corner.spacing.tails[:2]
        first = corner.margins[0] + (before.right + after.left) / 2
        yield LengthSetting("guide", "reference edge to the middle of the first whole space", first)
    if pitch is not None:
        yield LengthSetting("guide", "pitch, from space to space", pitch)
        if routing.at_once:
            use = "pin board aside of the tail board, half a pitch"
            yield LengthSetting("guide", use, pitch / 2)


def _routed_steps(routing: Routing) -> dict[Task, tuple[Step, ...]]:
    """What the cutter does in the place of saw and chisel; a task that it cannot do is left."""
    by_router: dict[Task, tuple[Step, ...]] = {}
    if routing.routs_spaces:
        by_router |= {Task.SAW_FIRST: (_rout_tails(routing),), Task.CLEAR_FIRST: ()}
    if routing.routs_laps:
        by_router[Task.CUT_SECOND] = (_rout_sockets(routing),)
    elif not routing.is_lapped:
        by_router[Task.CUT_SECOND] = (_rout_pins(routing),)
    return by_router


_CAUTION = Step(
    Task.PREPARE,
    "Before routing",
    "Where your machine's manual says otherwise, follow the manual. Keep its guards on, and "
    "protect eyes and ears. Pull the plug before you touch or change the cutter; put the shank "
    "into the collet as far as the manual says, and tighten the collet. Take tape and loose paper "
    "out of the cutter's way. Clamp board and guide, and back the work with scrap where the cutter "
    "leaves it. Keep both hands on the router and away from the cutter. Wherever only one side "
    "of the cutter cuts, as when you creep up to a line, feed against its rotation: fed with "
    "it, the router runs away. Never lift it within a dovetailed cut, and elsewhere only when "
    "the cutter stands still. First cut a test joint in waste wood of the same thickness.",
)


def _rout_tails(routing: Routing) -> Step:
    corner, cutter, text = routing.corner, routing.cutter, routing.corner.text
    pitch = "" if corner.spacing.step is None else f" and the pitch to {text(corner.spacing.step)}"
    passes = (
        "One pass, right through the thickness, cuts each space"
        if routing.one_pass_each
        else "Rout each space right through the thickness, the wider ones in several passes"
    )
    cut = (
        f"{passes}: at the baseline the cutter's tip stands between the printed lines."
        if corner.spacing.pins
        else "Keep the cutter's tip off the printed lines at the baseline."
    )
    edges = _at_edges(corner, 0, "Rout the half-pin waste at {edges} with scrap beside the board.")
    return Step(
        Task.SAW_FIRST,
        "Rout the tails",
        f"Stand {corner.named(0)} upright in the guide. With the dovetail cutter of "
        f"{text(cutter.diameter)} and {cutter.angle_text} set the depth of cut to "
        f"{text(corner.tail_length)}{pitch}. {cut}{edges}",
    )


def _rout_pins(routing: Routing) -> Step:
    corner, text = routing.corner, routing.corner.text
    off = corner.lean - corner.fit_across
    narrowest = min((tail.width_at(off) for tail in corner.spacing.whole_tails), default=None)
    size = "" if narrowest is None else f" no wider than {text(narrowest)}"
    edges = _at_edges(
        corner,
        1,
        "Take the half-tail waste off at {edges} in the same way, with scrap beside the board.",
    )
    return Step(
        Task.CUT_SECOND,
        "Rout the pins",
        f"The dovetail cutter does not cut these. Stand {corner.named(1)} upright and take a "
        f"straight cutter{size}, with the depth of cut set to {text(corner.pair.gauge(1))}. "
        f"Guide it along the slopes on the end grain, at {slope_text(corner.slope)}, and creep up "
        f"to the middle of the lines.{edges}",
    )


def _rout_sockets(routing: Routing) -> Step:
    corner, text = routing.corner, routing.corner.text
    lean, differs = text(corner.lean), any(corner.pair.insets)
    passes = "" if routing.one_pass_sockets else ", in several passes where a socket is wider"
    edges = _at_edges(
        corner,
        1,
        "At {edges}, where half a tail comes, clamp scrap beside the board and rout right to the "
        "edge.",
    )
    return Step(
        Task.CUT_SECOND,
        f"Rout the {sockets(corner)}",
        f"Lay {corner.named(1)} flat, inside face up. With the dovetail cutter and a depth of "
        f"cut of {text(corner.tail_length)}, which leaves the lap of {text(corner.lap)}, "
        f"rout in from the end{passes}.{edges} Stop where the cut, "
        f"seen on the inside face, is {lean} short of the baseline: down at the lap the tip "
        "reaches just to it. "
        # What the leaning side of the cutter leaves of a socket's back wall.
        f"The cutter leaves the back wall leaning, {lean} of wood too much at the inside face and "
        "none at the lap. Pare it away over the whole width, from the baseline straight down, and "
        f"the round corners with it, or the tail board will stand {lean} too far out. "
        f"{_at_once(corner) if routing.at_once else _WIDTHS_DIFFER if differs else _APART}",
    )


def _at_edges(corner: DovetailCorner, number: int, words: str) -> str:
    """How the waste at a board's edges is routed, and that beside wood which runs on."""
    edges, told = corner.open_edges(number), ""
    if edges:
        told = f" {words.format(edges=edges)}"
    if any(corner.stopped_at(number)):
        told += (
            f" Beside what runs on past the {corner.role(1 - number)} no cutter leaves a "
            "square side: saw that line straight down first, keep the cutter clear of it, and pare "
            "the rest."
        )
    return told


_APART = (
    "Cut each board on its own: both come out of the same cuts only where every socket "
    "and every space is one pass of the cutter."
)
_WIDTHS_DIFFER = "Cut each board on its own: they are not equally wide."


def _at_once(corner: DovetailCorner) -> str:
    """Of half tails one pass for each space leaves a half socket, of half pins a whole one."""
    first, second = (f"the {corner.role(number)}" for number in (0, 1))
    left = (
        f". One half socket of {second} is then left, where it stands out past {first}: take "
        f"{first} away before you cut it, or the cutter may bite into its edge, and clamp scrap in "
        "its place"
    )
    if corner.spacing.half_pins:
        left = (
            f", and one beside the outermost tail at the edge that {second} stands out past. Take "
            f"{second} away before you rout the rest of the half-pin waste, or the cutter bites "
            "into the pins"
        )
    return (
        f"Both boards can be cut at once: {first} upright in front, its inside face towards "
        f"you; {second} flat behind it, its end against {first}'s outside face, its inside face "
        f"level with {first}'s end, and aside by half the pitch, to either side. Make one pass "
        f"for each of {first}'s {len(corner.spacing.pins)} spaces{left}. The tails come out "
        "square, so the sockets' back walls are pared all the same. If the boards go together "
        "too loosely, cut a hair deeper; if too tightly, less deep."
    )
