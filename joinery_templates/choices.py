"""Several layouts of one joint, to choose between by eye: each is a job file of its own."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import product
from string import ascii_uppercase

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.errors import Finding, InputError, refusal
from joinery_templates.exact import Fraction
from joinery_templates.jobs.job import Job, JointJob
from joinery_templates.jobs.kept_tools import exact_text
from joinery_templates.jobs.overrides import joint_changed
from joinery_templates.jobs.reader import read_job
from joinery_templates.joint import Joint
from joinery_templates.joints.catalogue import known_kind
from joinery_templates.joints.spread import tails_and_spaces
from joinery_templates.joints.words import slope_text
from joinery_templates.lengths import Units, decimal_text, length_text

MOST = 12
"""More cannot be compared at a glance (our judgement)."""

SIZES = 2
"""So many of a joint's sizes are told: those at the edge and of the tails come first."""

Values = Mapping[str, object]
"""What makes a layout, by the parameters' names, as a job file says it; None leaves one out."""


class Choice(Struct, frozen=True):
    """One of the layouts.

    Attributes:
        letter: what it is called.
        values: what makes it.
        text: the job file that draws it.
        one: the joint.
    """

    letter: str
    values: Values
    text: str
    one: JointJob

    @property
    def said(self) -> Values:
        """What makes it, without what is left out."""
        return {name: value for name, value in self.values.items() if value is not None}

    @property
    def words(self) -> str:
        """What makes it."""
        return _words(self.values)


def bold_to_fine(job: Job, number: int) -> tuple[Choice, ...]:
    """A spread of layouts of one of a job's joints; none draws advice that it did not have.

    Raises:
        InputError: `nothing-to-choose`, where joints of this kind are all alike.
    """
    one = job.joints[number]
    kind = known_kind(one.joint.kind)
    if kind.spread is None:
        raise refusal(
            "nothing-to-choose",
            f"{kind.title}: no layouts are proposed for comparing.",
            f"Say what is to differ, such as --vary {kind.parameters[0].name}=…",
        )
    had = {finding.code for finding in one.joint.findings}
    spread = kind.spread(one.joint, job.units)
    made, _ = _made(job, number, map(_written, spread))
    return _lettered(c for c in made if had.issuperset(f.code for f in c.one.joint.findings))


def asked_for(
    job: Job, number: int, values: Sequence[Values]
) -> tuple[tuple[Choice, ...], tuple[Finding, ...]]:
    """The layouts that a person asks for, and why some of them cannot be made.

    Raises:
        InputError: where none can be made, or they are too many.
    """
    if len(values) > MOST:
        message = f"That makes {len(values)} layouts."
        raise refusal("too-many", message, f"Compare {MOST} at most.")
    made, refused = _made(job, number, values)
    choices = _lettered(made)
    if not choices:
        raise InputError(*refused)
    return choices, tuple(refused)


def combined(lists: Mapping[str, Sequence[object]]) -> list[Values]:
    """Every combination of the values listed for some names, the last name's the quickest."""
    return [dict(zip(lists, chosen, strict=True)) for chosen in product(*lists.values())]


def _made(job: Job, number: int, values: Iterable[Values]) -> tuple[list[Choice], list[Finding]]:
    made: list[Choice] = []
    refused: list[Finding] = []
    for said in values:
        text = joint_changed(job.source, number, said)
        try:
            read = read_job(text)
        except InputError as error:
            refused.extend(replace(finding, place=_words(said)) for finding in error.findings)
            continue
        made.append(Choice("", said, text, read.joints[number]))
    return made, refused


def _lettered(made: Iterable[Choice]) -> tuple[Choice, ...]:
    """Each layout once, with a letter."""
    different: dict[Joint, Choice] = {}
    for choice in made:
        different.setdefault(choice.one.joint, choice)
    lettered = zip(ascii_uppercase[:MOST], different.values(), strict=False)
    return tuple(replace(choice, letter=letter) for letter, choice in lettered)


def _words(values: Values) -> str:
    said = (
        f"{name.replace('_', ' ')} {value}" for name, value in values.items() if value is not None
    )
    return ", ".join(said)


def _written(values: Values) -> Values:
    return {
        name: exact_text(value) if isinstance(value, Fraction) else value
        for name, value in values.items()
    }


def differing_figures(joints: Sequence[Joint], units: Units) -> list[list[str]]:
    """What is told of each of several layouts: the figures by which they are told apart."""
    rows = [dict(all_figures(one, units)) for one in joints]
    differ = {name for row in rows for name in row if len({other.get(name) for other in rows}) > 1}
    return [
        [*_proportion(one), *[f"{name} {row[name]}" for name in row if name in differ]]
        for one, row in zip(joints, rows, strict=True)
    ]


def all_figures(joint: Joint, units: Units) -> Iterator[tuple[str, str]]:
    """The first sizes, the bevel, and what dividers and gauges are set to."""
    for size in joint.sizes[:SIZES]:
        yield size.name.partition(",")[0], length_text(size.length, units)
    for bevel in joint.slopes:
        yield f"bevel, {bevel.use}", slope_text(bevel.slope)
    for setting in joint.lengths:
        yield f"{setting.tool}, {setting.use}", length_text(setting.length, units)


def _proportion(joint: Joint) -> Iterator[str]:
    tails, spaces = tails_and_spaces(joint)
    if joint.main_row and tails and spaces and max(tails) != min(spaces):
        first = next(mark for mark in joint.main_row.marks if mark.starts)
        what = "tail" if first.is_of_tail else first.name.partition(" ")[0]
        times = decimal_text(max(tails) / min(spaces), 1).removeprefix("≈")
        yield f"at the end the widest {what} is {times} times the narrowest space"
