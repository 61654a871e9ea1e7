"""Ploughing: where it comes in the order of work, and what is done (common practice, no source)."""

from collections.abc import Iterator

from joinery_templates.joint import Step, Task
from joinery_templates.joints.corners.layout import CornerLayout
from joinery_templates.joints.grooves.corner import CornerGroove, Ending
from joinery_templates.joints.grooves.parameters import Channel


def with_ploughing(
    corner: CornerLayout,
    steps: tuple[Step, ...],
    grooves: tuple[CornerGroove, ...],
    outside: tuple[Channel, ...],
) -> Iterator[Step]:
    """The steps with the grooves inside before the boards are joined, those outside after it."""
    joining = next(step for step in steps if step.task in (Task.FIT, Task.GLUE))
    for step in steps:
        if step is joining:
            yield from (_plough(groove) for groove in grooves)
        yield step
        if step.task is Task.GLUE:
            yield from (_round_the_corner(corner, channel) for channel in outside)


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
        words.append(f"Nothing shows: {verb} from end to end.")
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
