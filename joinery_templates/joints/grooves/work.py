"""A joint with its grooves: their wood, sizes and advice, and when they are ploughed.

The steps are common practice, no source.
"""

from collections.abc import Callable, Iterator, Sequence

from msgspec.structs import replace

from joinery_templates.errors import OURS, Finding, advice, mistake
from joinery_templates.joint import Joint, Step, Task
from joinery_templates.joints.checks import refuse
from joinery_templates.joints.corners.layout import CornerLayout
from joinery_templates.joints.grooves.corner import CornerGroove, Crossed, Ending
from joinery_templates.joints.grooves.parameters import GROOVE_DEPTH_RULE, Channel

USUAL_DEPTH = "About a third of the board is usual."


def with_grooves(
    joint: Joint,
    corner: CornerLayout,
    channels: Sequence[Channel],
    crossed: Callable[[Channel], Crossed],
) -> Joint:
    """A joint with its grooves and rebates; of those outside there is only a step.

    Args:
        joint: without them.
        corner: its layout.
        channels: where they lie across the width.
        crossed: what a channel lies in where the boards cross.

    Raises:
        InputError: where one goes through a board, or two run into each other.
    """
    grooves = [CornerGroove(corner, one, crossed(one)) for one in channels if not one.outside]
    refuse(_faults(grooves))
    first, second = (
        replace(member.part, cuts=(*member.part.cuts, *(one.cut(number) for one in grooves)))
        for number, member in enumerate(joint.members)
    )
    filled = joint.filled
    for groove in grooves:
        filled = tuple(part for region in filled for part in groove.outside_of(region))
    rules = (
        f"Depth of the {one.channel.name}: {GROOVE_DEPTH_RULE}."
        for one in grooves
        if one.channel.depth is None
    )
    return replace(
        joint,
        members=(replace(joint.members[0], part=first), replace(joint.members[1], part=second)),
        filled=filled,
        sizes=(*joint.sizes, *(size for groove in grooves for size in groove.sizes)),
        rules=(*joint.rules, *rules),
        findings=(*joint.findings, *_advice(grooves)),
        steps=tuple(_with_ploughing(joint.steps, corner, grooves, channels)),
    )


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


def _with_ploughing(
    steps: Sequence[Step],
    corner: CornerLayout,
    grooves: Sequence[CornerGroove],
    channels: Sequence[Channel],
) -> Iterator[Step]:
    """The steps with the grooves inside before the boards are joined, those outside after it."""
    joining = next(step for step in steps if step.task in (Task.FIT, Task.GLUE))
    for step in steps:
        if step is joining:
            yield from (_plough(groove) for groove in grooves)
        yield step
        if step.task is Task.GLUE:
            yield from (_round_the_corner(corner, one) for one in channels if one.outside)


def _plough(groove: CornerGroove) -> Step:
    """A groove is ploughed; a rebate, open at an edge, is planed."""
    corner, channel, endings = groove.corner, groove.channel, groove.endings
    is_rebate = channel.name == "rebate"
    verb = "plane" if is_rebate else "plough"
    words = [f"On both inside faces, {_gauged(corner, channel)}, {corner.text(groove.depth)} deep."]
    if is_rebate:
        words.append("Use a fillister plane, or a rebate plane against a fence.")
    for number, ending in enumerate(endings):
        stop = f" {corner.text(groove.start(number))} from the end"
        how = f"{ending}{stop if ending is Ending.STOPPED else ''}"
        words.append(f"On {corner.named(number)} it {how}.")
    if Ending.STOPPED in endings:
        words.append(
            f"Where it is stopped, knife a line across at that distance and, before you {verb}, "
            "chop the last of it out with a chisel, as long as the plane's toe needs: were it to "
            "run on, a hole would show outside."
        )
    else:
        words.append(f"At this corner nothing shows: {verb} right out at these ends.")
    if {*endings} != {Ending.STOPPED}:
        name = channel.name
        words.append(
            f"Where a board's other end has another joint, the {name} ends there as that joint's "
            "own pages say."
        )
    lies_in = "the bottom or the lid" if is_rebate else "the bottom"
    words.append(f"Try {lies_in} in the corner before you glue.")
    return Step(Task.PLOUGH, f"{verb.capitalize()} the {channel.name}", " ".join(words))


def _gauged(corner: CornerLayout, channel: Channel) -> str:
    """Where a groove or rebate lies, as it is gauged from an edge."""
    if channel.name == "groove":
        low, high = corner.text(channel.low), corner.text(channel.high)
        return f"from {low} to {high} from the reference edge"
    edge = "far" if channel.low else "reference"
    return f"{corner.text(channel.width)} from the {edge} edge"


def _round_the_corner(corner: CornerLayout, channel: Channel) -> Step:
    return Step(
        Task.FINISH,
        f"Cut the {channel.name} outside",
        f"It is not drawn. When the glue is hard and the corner planed flush, cut it right round "
        f"the outside, {_gauged(corner, channel)}.",
    )
