"""A joint with its grooves: their wood, sizes and advice, and when they are ploughed.

The steps are common practice, no source.
"""

from collections.abc import Iterator, Sequence

from msgspec.structs import replace

from joinery_templates.errors import OURS, Finding, advice, mistake, refuse
from joinery_templates.joint import Joint, Step, Task
from joinery_templates.joints.grooves.corner import CornerGroove, Crossed, Ending
from joinery_templates.joints.grooves.parameters import GROOVE_DEPTH_RULE
from joinery_templates.wood.cut import Part

USUAL_DEPTH = "About a third of the board is usual."


def with_grooves(joint: Joint, grooves: Sequence[CornerGroove]) -> Joint:
    """A joint with its grooves and rebates; of those outside there is only a step.

    Raises:
        InputError: where one goes through a board, or two run into each other.
    """
    inside = [groove for groove in grooves if not groove.channel.outside]
    refuse(_faults(inside))
    rules = (
        f"Depth of the {one.channel.name}: {GROOVE_DEPTH_RULE}."
        for one in inside
        if one.channel.depth is None
    )
    return replace(
        joint,
        members=tuple(
            replace(member, part=_grooved(member.part, number, inside))
            for number, member in enumerate(joint.members)
        ),
        sizes=(*joint.sizes, *(size for groove in inside for size in groove.sizes)),
        rules=(*joint.rules, *rules),
        findings=(*joint.findings, *_advice(inside)),
        steps=tuple(_with_ploughing(joint.steps, grooves)),
    )


def _grooved(part: Part, number: int, grooves: Sequence[CornerGroove]) -> Part:
    more = (groove.cut(number) for groove in grooves if number in groove.lies_in)
    return replace(part, cuts=(*part.cuts, *more))


def _faults(grooves: Sequence[CornerGroove]) -> Iterator[Finding]:
    """Wood must be left behind each, and between two."""
    for groove in grooves:
        corner, name = groove.corner, groove.channel.name
        if groove.depth >= corner.thinner.thickness:
            yield mistake(
                f"{name}-too-deep",
                f"A {name} {corner.text(groove.depth)} deep goes right through "
                f'"{corner.thinner.name}", {corner.text(corner.thinner.thickness)} thick.',
                USUAL_DEPTH,
                name,
            )
    if len(grooves) > 1 and grooves[0].channel.meets(grooves[1].channel):
        yield mistake(
            "groove-in-rebate",
            "The groove and the rebate run into each other.",
            "Move the groove, or give a narrower rebate.",
            "groove",
        )


def _advice(grooves: Sequence[CornerGroove]) -> Iterator[Finding]:
    """A groove that leaves little of a board."""
    for groove in grooves:
        corner, name = groove.corner, groove.channel.name
        if groove.depth * 2 > corner.thinner.thickness:
            yield advice(
                f"{name}-deep",
                f"A {name} {corner.text(groove.depth)} deep takes more than half "
                f'of "{corner.thinner.name}".',
                OURS,
                USUAL_DEPTH,
                name,
            )


def _with_ploughing(steps: Sequence[Step], grooves: Sequence[CornerGroove]) -> Iterator[Step]:
    """The steps with the grooves inside before the boards are joined, those outside after it."""
    joining = next(step for step in steps if step.task in (Task.FIT, Task.GLUE))
    for step in steps:
        if step is joining:
            yield from (_plough(groove) for groove in grooves if not groove.channel.outside)
        yield step
        if step.task is Task.GLUE:
            yield from (_round_the_corner(groove) for groove in grooves if groove.channel.outside)


_OTHER_END = (
    "Where a board's other end has another joint, the {name} ends there as that joint's own pages "
    "say."
)


_BARE = "Peel the paper off the inside faces first: it is needed no more. "


def _plough_right_out(groove: CornerGroove) -> Step:
    """One that passes the narrower board by."""
    corner, name, wider = groove.corner, groove.channel.name, groove.corner.pair.wider
    verb = "plane" if name == "rebate" else "plough"
    words = (
        f"{_BARE}On the inside face of {corner.named(wider)} alone, {_gauged(groove)}, "
        f"{corner.text(groove.depth)} deep: {verb} right out at this end. It passes "
        f"{corner.named(1 - wider)} by, so that what it holds can be pushed in from there when the "
        f"corner is glued, and reaches to its outside face. {_OTHER_END.format(name=name)}"
    )
    return Step(Task.PLOUGH, f"{verb.capitalize()} the {name}", words)


def _plough(groove: CornerGroove) -> Step:
    """A groove is ploughed; a rebate, open at an edge, is planed."""
    if groove.crossed is Crossed.NOTHING:
        return _plough_right_out(groove)
    corner, channel, endings = groove.corner, groove.channel, groove.endings
    is_rebate = channel.name == "rebate"
    verb = "plane" if is_rebate else "plough"
    deep = corner.text(groove.depth)
    words = [f"{_BARE}On both inside faces, {_gauged(groove)}, {deep} deep."]
    if is_rebate:
        words.append("Use a fillister plane, or a rebate plane against a fence.")
    for number, ending in enumerate(endings):
        stop = f" {corner.text(groove.start(number))} from the end"
        how = f"{ending}{stop if ending is Ending.STOPPED else ''}"
        words.append(f"On {corner.named(number)} it {how}.")
    if Ending.STOPPED in endings:
        words.append(
            f"Where it is stopped, knife a line across{_stopped_on(groove)} at that distance and, "
            f"before you {verb}, "
            "chop the last of it out with a chisel, as long as the plane's toe needs: were it to "
            "run on, it would show."
        )
    else:
        words.append(
            f"At this corner nothing shows: {verb} right out at these ends, a block of waste "
            "clamped behind each so that it does not break out."
        )
    if {*endings} != {Ending.STOPPED}:
        words.append(_OTHER_END.format(name=channel.name))
    is_above = channel.low + channel.high > corner.boards[0].width
    lies_in = "the bottom or the lid" if is_rebate or is_above else "the bottom"
    words.append(
        f"Make {lies_in} {corner.text(2 * groove.depth)} larger than the space between two boards "
        f"that have it, less a hair; where one of the two has none, {corner.text(groove.depth)} "
        "larger and as far on as it is to reach there. Try it in the corner before you glue."
    )
    return Step(Task.PLOUGH, f"{verb.capitalize()} the {channel.name}", " ".join(words))


def _gauged(groove: CornerGroove) -> str:
    """Where a groove or rebate lies, as it is gauged from an edge of each board."""
    corner, channel = groove.corner, groove.channel
    if channel.name == "groove":
        spans = {
            f"from {corner.text(one.low)} to {corner.text(one.high)} from the reference edge": n
            for n in groove.lies_in
            for one in [groove.on(n)]
        }
        if len(spans) == 1:
            return "".join(spans)
        return " and ".join(f"{span} of {corner.named(n)}" for span, n in spans.items())
    edge = "far" if channel.moved(corner.pair.shift_to(corner.pair.wider)).low else "reference"
    return f"{corner.text(channel.width)} from the {edge} edge"


def _stopped_on(groove: CornerGroove) -> str:
    """Where its end is marked, if a mitre has taken the inside face there."""
    one, other = sorted(board.thickness for board in groove.corner.boards)
    in_mitre = groove.crossed is Crossed.MITRE and other - groove.depth < one
    return " the mitre" if in_mitre else ""


def _round_the_corner(groove: CornerGroove) -> Step:
    name, corner = groove.channel.name, groove.corner
    where = "right round the outside"
    if groove.crossed is Crossed.NOTHING:
        where = f"along the outside of {corner.named(corner.pair.wider)} alone"
    return Step(
        Task.FINISH,
        f"Cut the {name} outside",
        f"It is not drawn. When the glue is hard and the corner planed flush, cut it {where}, "
        f"{_gauged(groove)}.",
    )
