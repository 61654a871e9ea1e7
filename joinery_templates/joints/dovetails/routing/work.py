"""What is said of a dovetail that is routed: tool settings, sizes and the order of work.

All steps are common practice, no source.
"""

from collections.abc import Iterator, Mapping
from fractions import Fraction

from msgspec.structs import replace

from joinery_templates.errors import COMMON
from joinery_templates.joint import Joint, LengthSetting, Size, Step, Task
from joinery_templates.joints.dovetails.corner import DovetailCorner
from joinery_templates.joints.dovetails.routing.advice import Routing, advise_on_cutter
from joinery_templates.joints.dovetails.routing.cutter import RoutedParameters
from joinery_templates.wood.cut import unsawn

_OF_HAND_WORK = frozenset({"slope-flat", "slope-steep"})
"""Advice on slopes that hand work keeps to; here the cutter has settled the slope."""
_OF_THE_SAW = frozenset({"pin-below-kerf"})
"""Advice for the saw, which does not touch a space that the cutter has cut."""


def with_cutter(joint: Joint, corner: DovetailCorner, rules: tuple[str, ...]) -> Joint:
    """The joint with what was settled first, and what the cutter adds where there is one.

    Args:
        joint: as cut by hand.
        corner: its layout.
        rules: what was decided before the tails were spaced.
    """
    given = corner.request.given
    assert isinstance(given, RoutedParameters)
    if given.cutter is None:
        return replace(joint, rules=(*rules, *joint.rules))
    routing = Routing(corner, given.cutter)
    routed = _routed(routing)
    kept = (finding for finding in joint.findings if finding.code not in _dropped(routing))
    one, other = (
        replace(member, part=unsawn(member.part)) if task in routed else member
        for member, task in zip(joint.members, (Task.SAW_FIRST, Task.CUT_SECOND), strict=True)
    )
    return replace(
        joint,
        members=(one, other),
        lengths=(*joint.lengths, *_settings(routing)),
        sizes=(*joint.sizes, *_sizes(routing)),
        rules=(*rules, *joint.rules, *_wide_spaces(routing)),
        findings=(*kept, *advise_on_cutter(routing, given)),
        steps=tuple(_steps(joint.steps, routed)),
        clearings=tuple(one for one in joint.clearings if one.task not in routed),
    )


def _dropped(routing: Routing) -> frozenset[str]:
    return _OF_HAND_WORK | _OF_THE_SAW if routing.routs_spaces else _OF_HAND_WORK


def _wide_spaces(routing: Routing) -> Iterator[str]:
    if routing.routs_spaces and not routing.one_pass_each:
        yield (
            f"Spaces wider at the end than one pass of {routing.text(routing.one_pass)}: two or "
            f"more passes each ({COMMON})."
        )


def _sizes(routing: Routing) -> Iterator[Size]:
    if routing.is_lapped and routing.routs_sockets:
        narrow, wide = routing.radii
        yield Size("radius of the cutter in a socket, at the lap line", wide)
        yield Size("radius of the cutter in a socket, on the inside face", narrow)


# Settings


def _settings(routing: Routing) -> Iterator[LengthSetting]:
    """Of what the dovetail cutter cuts; none where it cuts nothing."""
    if not routing.routs_by_cutter:
        return
    corner, sockets = routing.corner, routing.is_lapped and routing.routs_sockets
    yield LengthSetting("cutter", "largest diameter, at its tip", routing.cutter.diameter)
    one = "tail board" if routing.routs_spaces else "pin board"
    boards = "both boards" if sockets and routing.routs_spaces else one
    yield LengthSetting("router", f"depth of cut, {boards}", corner.tail_length)
    if routing.routs_spaces:
        yield from _guide(routing)


def _guide(routing: Routing) -> Iterator[LengthSetting]:
    """Where the spaces between the tails come."""
    corner = routing.corner
    if corner.spacing.pins:
        first = _first_middle(corner)
        yield LengthSetting("guide", "reference edge to the middle of the first space", first)
    if corner.spacing.step is not None:
        yield LengthSetting("guide", "pitch, from space to space", corner.spacing.step)
    if routing.at_once and corner.spacing.step is not None:
        half = corner.spacing.step / 2
        yield LengthSetting("guide", "pin board aside of the tail board, half a pitch", half)


def _first_middle(corner: DovetailCorner) -> Fraction:
    """From the reference edge to the middle of the first whole pin's space."""
    before, after = corner.spacing.tails[:2]
    return corner.mitres[0] + (before.right + after.left) / 2


# Order of work


def _steps(steps: tuple[Step, ...], routed: Mapping[Task, tuple[Step, ...]]) -> Iterator[Step]:
    """The order of work by hand, with what the cutter does in the place of saw and chisel."""
    if routed:
        yield _caution()
    for step in steps:
        yield from routed.get(step.task, (step,))


def _routed(routing: Routing) -> dict[Task, tuple[Step, ...]]:
    """The steps that are replaced; one that the cutter cannot do is left."""
    by_router: dict[Task, tuple[Step, ...]] = {}
    if routing.routs_spaces:
        by_router |= {Task.SAW_FIRST: (_rout_tails(routing),), Task.CLEAR_FIRST: ()}
    if routing.routs_sockets:
        sockets = _rout_sockets(routing) if routing.is_lapped else _rout_pins(routing)
        by_router[Task.CUT_SECOND] = (sockets,)
    return by_router


def _caution() -> Step:
    return Step(
        Task.PREPARE,
        "Before routing",
        "Your machine's manual goes before what is said here. Keep its guards on, and protect eyes "
        "and ears. Pull the plug before you touch or change the cutter; put the shank into the "
        "collet as far as the manual says, and tighten the collet. Take tape and loose paper out "
        "of the cutter's way. Clamp board and guide, and back the work with scrap where the cutter "
        "leaves it. Keep both hands on the router and away from the cutter. Wherever only one side "
        "of the cutter cuts, as when you creep up to a line, feed against its rotation: fed with "
        "it, the router runs away. Never lift it within a dovetailed cut, and elsewhere only when "
        "the cutter stands still. First cut a test joint in waste wood of the same thickness.",
    )


def _rout_tails(routing: Routing) -> Step:
    corner, cutter = routing.corner, routing.cutter
    pitch = corner.spacing.step
    step = "" if pitch is None else f" and the pitch to {routing.text(pitch)}"
    passes = (
        "One pass, right through the thickness, cuts each space"
        if routing.one_pass_each
        else "Rout each space right through the thickness, the wider ones in several passes"
    )
    edges = (
        " Rout the half-pin waste at both edges with scrap clamped beside the board."
        if routing.corner.starts_with_half_pins
        else ""
    )
    cut = (
        f"{passes}: at the baseline the cutter's tip stands between the printed lines."
        if corner.spacing.pins
        else "Keep the cutter's tip off the printed lines at the baseline."
    )
    return Step(
        Task.SAW_FIRST,
        "Rout the tails",
        f"Stand {routing.corner.tail} upright in the guide. With the dovetail cutter of "
        f"{routing.text(cutter.diameter)} and {cutter.angle_text} set the depth of cut to "
        f"{routing.text(corner.tail_length)}{step}. {cut}{edges}",
    )


def _rout_pins(routing: Routing) -> Step:
    corner, off = routing.corner, routing.corner.fit_across
    whole = corner.spacing.whole_tails
    narrowest = min((tail.width_at(corner.lean - off) for tail in whole), default=None)
    size = "" if narrowest is None else f" no wider than {routing.text(narrowest)}"
    edges = (
        ""
        if routing.corner.starts_with_half_pins
        else " Take the half-tail waste off at both edges in the same way, with scrap beside them."
    )
    return Step(
        Task.CUT_SECOND,
        "Rout the pins",
        f"The dovetail cutter does not cut these. Stand {routing.corner.pin} upright and take a "
        f"straight cutter{size}, with the depth of cut set to {routing.text(corner.pin_depth)}. "
        f"Guide it along the slopes on the end, at {routing.corner.one_in}, and creep up to the "
        f"lines.{edges}",
    )


def _rout_sockets(routing: Routing) -> Step:
    corner, text = routing.corner, routing.text
    edges = (
        ""
        if routing.corner.starts_with_half_pins
        else " At both edges, where the half tails come, clamp scrap beside the board and rout "
        "right to the edge."
    )
    passes = "" if routing.one_pass_sockets else ", in several passes where a socket is wider"
    return Step(
        Task.CUT_SECOND,
        "Rout the sockets",
        f"Lay {routing.corner.pin} flat, inside face up. With the dovetail cutter and a depth of "
        f"cut of {text(corner.tail_length)}, which leaves the lap of {text(corner.lap)}, "
        f"rout in from the end{passes}.{edges} Stop where the cut, seen on the inside face, is "
        f"{text(corner.lean)} short of the baseline: down at the lap the tip reaches just to it. "
        f"{_pare(routing)} {_together(routing)}",
    )


def _pare(routing: Routing) -> str:
    """What the leaning side of the cutter leaves of a socket's back wall."""
    lean = routing.text(routing.corner.lean)
    return (
        f"The cutter leaves the back wall leaning, {lean} of wood too much at the inside face and "
        "none at the lap. Pare it away over the whole width, from the baseline straight down, and "
        f"the round corners with it, or the tail board will stand {lean} too far out."
    )


def _together(routing: Routing) -> str:
    """Whether both boards come out of the same cuts, and how they then lie."""
    if not routing.at_once:
        return (
            "Cut each board on its own: both come out of the same cuts only where every socket "
            "and every space is one pass of the cutter."
        )
    return (
        "Both boards can be cut at once: the tail board upright in front, its inside face towards "
        "you; the pin board flat behind it, its end against the tail board's outside face, its "
        "inside face level with the tail board's end, and aside by half the pitch. The tails then "
        "come out square, so the sockets' back walls are pared all the same. If the boards go "
        "together too loosely cut a hair deeper, if too tightly less deep."
    )
