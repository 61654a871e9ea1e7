"""`compare`: several layouts of one joint beside each other, and the one that is picked."""

import re
import shlex
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path
from shutil import get_terminal_size
from textwrap import wrap
from typing import Annotated

import typer
from msgspec.structs import replace

from joinery_templates.choices import (
    Choice,
    all_figures,
    asked_for,
    bold_to_fine,
    combined,
    differing_figures,
)
from joinery_templates.cli.files import (
    STANDARD,
    check_target,
    is_own_pdf,
    nothing,
    place_of,
    read_given,
    write_result,
)
from joinery_templates.cli.job_input import job_from, job_of_kind
from joinery_templates.cli.messages import note, number_of, say, say_json, tell_findings
from joinery_templates.cli.options import FILE, AsJson, Force, Open, PaperName, UnitsName, asked
from joinery_templates.cli.parameter_options import as_written
from joinery_templates.cli.viewer import check_viewed, view
from joinery_templates.drawings.choice import seen_face, set_out_first
from joinery_templates.drawings.figure import Figure
from joinery_templates.drawings.sketch import sketched
from joinery_templates.errors import Level, mistake, refusal, refuse
from joinery_templates.jobs.job import Job
from joinery_templates.jobs.kept_tools import kept_tools
from joinery_templates.jobs.overrides import Overrides, joint_changed
from joinery_templates.jobs.source import decoded
from joinery_templates.joints.catalogue import kinds
from joinery_templates.joints.kind import Kind
from joinery_templates.joints.parameter import Parameter, Quantity, guessed, names_of, parameter_of
from joinery_templates.joints.reading import clipped
from joinery_templates.lengths import Units
from joinery_templates.wood.board import EDGES, Face

MOST_IN_A_RANGE = 20
INDENT = "   "
USUAL, WIDEST = 75, 120
"""Signs on a line: where no terminal is, and of a sketch at the most."""
_OTHER_PICTURES = (".jpg", ".jpeg", ".gif", ".webp", ".bmp", ".tif", ".tiff")


def compare(
    subject: Annotated[
        str, typer.Argument(metavar="JOB|KIND", help="A job file, or a kind of joint.")
    ],
    joint: int = asked("<number>", "Which joint of the job, counted from 1.", 1),
    tails: str | None = asked("<counts>", "Numbers of tails, such as 3..6 or 3,5."),
    pin: str | None = asked("<lengths>", "Widths of the pins, such as 3, 5, 8 mm."),
    half_pin: str | None = asked("<lengths>", "Widths of the half pins, such as 6, 9 mm."),
    slope: str | None = asked("<slopes>", "Slopes, such as 1:6, 1:8."),
    spacing: str | None = asked("<styles>", "Styles of spacing, such as even, graded."),
    vary: list[str] | None = asked(
        "<name=values>", "Anything else of the joint, such as fingers=5..9."
    ),
    cutter: str | None = asked(
        "<{ ... }>",
        "Also show the layout that a router's cutter makes, such as "
        "'{ diameter = 12.7, side_angle = 14 }'.",
    ),
    width: str | None = asked("<length>", "With a KIND: width of the boards."),
    thickness: str | None = asked("<length>", "With a KIND: their thickness."),
    second_thickness: str | None = asked(
        "<length>", "With a KIND: the second board's, if it differs."
    ),
    paper: PaperName = None,
    units: UnitsName = None,
    output: Annotated[
        str | None,
        typer.Option(
            "--output", "-o", metavar=FILE, help="Where to write: a .pdf, full size; .svg or .png."
        ),
    ] = None,
    pick: str | None = asked("<letter>", "Write this layout into the job file."),
    force: Force = False,
    json: AsJson = False,
    open_it: Open = False,
) -> None:
    """Unless you say what is to differ, you get a spread from bold to fine.

    Without --output the layouts are sketched here. A PDF shows them full size, to be laid
    against the board. --pick B writes layout B into the job file and keeps your remarks; for
    a KIND it prints the command that draws it.
    """
    lists = {"tails": tails, "pin": pin, "half_pin": half_pin, "slope": slope, "spacing": spacing}
    sizes = {"width": width, "thickness": thickness, "second_thickness": second_thickness}
    given = {name: value for name, value in sizes.items() if value is not None}
    check_viewed(output, open_it)
    with _job(subject, given, Overrides(paper, units)) as job:
        number = _number(joint, job)
        choices = _choices(job, number, _listed(lists, vary or []), cutter)
        if pick is not None:
            _pick(subject, given, job, number, _picked(choices, pick))
        elif output is not None:
            _write(job, choices, output, force)
            view(output, open_it)
        elif json:
            say_json([_figures(choice, job.units) for choice in choices])
        else:
            say(*_sketches(choices, job))


@contextmanager
def _job(subject: str, sizes: Mapping[str, str], overrides: Overrides) -> Iterator[Job]:
    """The job that is named, or one of a kind of joint on boards of the sizes given."""
    kind = kinds().get(subject)
    if kind is None:
        if sizes:
            message = "The sizes stand in the job."
            raise refusal("option-surplus", message, "Leave them out.", f"--{next(iter(sizes))}")
        with job_from(subject, overrides) as job:
            yield job
        return
    missing = [name for name in ("width", "thickness") if name not in sizes]
    refuse(
        mistake("missing", f"The {one} is missing.", "Say how large.", f"--{one}")
        for one in missing
    )
    said = {"units": overrides.units, "paper": overrides.paper}
    given = {**sizes, **{name: value for name, value in said.items() if value}}
    yield job_of_kind(kind, given, kept_tools())


def _number(joint: int, job: Job) -> int:
    if 1 <= joint <= len(job.joints):
        return joint - 1
    raise refusal(
        "out-of-limits",
        f"The job has no joint {joint}.",
        f"Its last is joint {len(job.joints)}.",
        "--joint",
    )


def _choices(
    job: Job, number: int, lists: Mapping[str, str], cutter: str | None
) -> tuple[Choice, ...]:
    """The layouts to compare: those asked for, else a spread; the routed one comes last."""
    kind = kinds()[job.joints[number].joint.kind]
    wanted = combined({name: _values(kind, name, typed) for name, typed in lists.items()})
    if not lists:
        wanted = [choice.values for choice in bold_to_fine(job, number)]
    if cutter is not None:
        _known(kind, "cutter")
        open_to_it = ("tails", "tail", "pin", "half_pin", "half_pin_far", "spacing", "slope")
        wanted.append({**dict.fromkeys(open_to_it), "cutter": cutter})
    choices, refused = asked_for(job, number, wanted)
    tell_findings(replace(one, level=Level.ADVICE) for one in refused)
    return choices


def _listed(lists: Mapping[str, str | None], vary: Sequence[str]) -> dict[str, str]:
    """By the parameters' names, what was typed."""
    typed = {name: words for name, words in lists.items() if words is not None}
    for words in vary:
        name, sign, values = words.partition("=")
        if not sign:
            message = f'"{clipped(words)}" names no values.'
            raise refusal("no-values", message, "Write for example fingers=5..9.", "--vary")
        typed[name.strip().replace("-", "_")] = values
    return typed


def _known(kind: Kind, name: str) -> Parameter:
    known = names_of(kind.parameter_class)
    if name not in known:
        message = f"Joints of this kind have no {clipped(name)}."
        remedy = guessed(name, known) or f"They have: {', '.join(known)}."
        raise refusal("unknown-name", message, remedy)
    return parameter_of(kind.parameter_class, name)


def _values(kind: Kind, name: str, typed: str) -> Sequence[object]:
    """The values in a list, or in a range of whole numbers such as 3..6."""
    declared = _known(kind, name)
    both = re.fullmatch(r"\s*(\d{1,4})\s*\.\.\s*(\d{1,4})\s*", typed)
    if both and declared.quantity is Quantity.COUNT:
        low, high = sorted(map(int, both.groups()))
        return range(low, min(high, low + MOST_IN_A_RANGE) + 1)
    if declared.quantity is Quantity.LENGTH:
        several = as_written(replace(declared, quantity=Quantity.LENGTHS), typed)
        return several if isinstance(several, list) else [several]
    parts = [part.strip() for part in typed.split(",") if part.strip()]
    if declared.quantity is Quantity.COUNT:
        return [int(part) if part.isdecimal() else part for part in parts]
    return parts


def _write(job: Job, choices: Sequence[Choice], output: str, force: bool) -> None:
    """The layouts as a PDF, full size, or as a picture."""
    from joinery_templates.build import choices_of, choices_picture

    ending = Path(output).suffix.lower()
    if ending in _OTHER_PICTURES:
        message = f"Pictures are not written as {ending} here."
        raise refusal("no-such-picture", message, "Write a .svg, a .png or a .pdf.", "--output")
    check_target(output, is_own_pdf, force)
    layouts = number_of(len(choices), "layout")
    if ending in (".svg", ".png"):
        write_result(output, choices_picture(job, choices, _image(ending)), nothing, force)
        note(f"{output}: {layouts}.")
        return
    content, booklet = choices_of(job, choices)
    write_result(output, content, is_own_pdf, force)
    pages, paper = number_of(len(booklet.pages), "page"), job.sheets.paper.name
    note(f"{place_of(output)}: {layouts}, full size, on {pages} of {paper}.")


def _image(ending: str) -> Callable[[Figure], bytes]:
    if ending == ".svg":
        from joinery_templates.images.svg import svg

        return svg
    from joinery_templates.images.png import png

    return png


def _sketches(choices: Sequence[Choice], job: Job) -> Iterator[str]:
    """Each layout in words and signs, as wide as the terminal is."""
    columns = min(WIDEST, get_terminal_size((USUAL, 0)).columns) - len(INDENT)
    joints = [choice.one.joint for choice in choices]
    for choice, figures in zip(choices, differing_figures(joints, job.units), strict=True):
        member = set_out_first(choice.one.joint)
        part = member.part
        yield f"{choice.letter}  {choice.words}"
        advice = (f"advice: {finding.message}" for finding in choice.one.joint.findings)
        for told in (*figures, *advice):
            yield from (f"{INDENT}{row}" for row in wrap(told, columns))
        for face in (seen_face(member), Face.END_GRAIN):
            if face in part.faces and (face is not Face.END_GRAIN or part.slant is None):
                is_edge = face in EDGES
                yield f"{INDENT}{face}, {'outside face' if is_edge else 'reference edge'} left"
                yield from (f"{INDENT}{line}" for line in sketched(part, face, columns))
        yield ""


def _figures(choice: Choice, units: Units) -> dict[str, object]:
    return {
        "letter": choice.letter,
        "figures": dict(all_figures(choice.one.joint, units)),
        "parameters": choice.said,
        "findings": [finding.message for finding in choice.one.joint.findings],
    }


def _picked(choices: Sequence[Choice], letter: str) -> Choice:
    found = [choice for choice in choices if choice.letter == letter.strip().upper()]
    if not found:
        letters = ", ".join(choice.letter for choice in choices)
        message = f'There is no layout "{clipped(letter)}".'
        raise refusal("choice-unknown", message, f"There are {letters}.", "--pick")
    return found[0]


def _pick(subject: str, sizes: Mapping[str, str], job: Job, number: int, choice: Choice) -> None:
    """Write a layout into the job file; for a kind of joint, print the command that draws it."""
    if subject in kinds():
        words = {**sizes, "units": str(job.units), **choice.said}
        options = (f"--{name.replace('_', '-')} {shlex.quote(str(words[name]))}" for name in words)
        say(f"joinery-templates quick {subject} {' '.join(options)}")
        return
    content = read_given(subject) if subject != STANDARD else job.source.encode()
    if is_own_pdf(content):
        message = "A layout is written into a job file, and this is a PDF."
        raise refusal("not-a-job-file", message, "Name the job file.", subject[:200])
    changed = joint_changed(decoded(content), number, choice.values).encode()
    if subject == STANDARD:
        write_result(STANDARD, changed, nothing)
        return
    write_result(subject, changed, lambda found: found == content, force=False)
    note(f"{subject}: layout {choice.letter} is written into it: {choice.words}.")
