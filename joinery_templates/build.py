"""The way through the house, one stage a line: job, joints, patterns, sheets, PDF.

The only place where a joint meets its drawings: what is drawn takes plain lengths and
words, and what is laid out knows no paper.
"""

from collections.abc import Callable, Iterator
from fractions import Fraction
from itertools import chain

from joinery_templates.drawings.bench import Bench, bench_blocks
from joinery_templates.drawings.board_patterns import views
from joinery_templates.drawings.figure import Pattern
from joinery_templates.drawings.labels import Place
from joinery_templates.drawings.lettering import Lettering
from joinery_templates.drawings.setting_out import DrawnLength, DrawnSlope, settings_card, strip
from joinery_templates.errors import Finding, advice
from joinery_templates.exact import degrees_of
from joinery_templates.jobs.job import Corner, Job, JointJob
from joinery_templates.joints.joint import Joint, LengthSetting, SlopeSetting
from joinery_templates.lengths import Units, decimal_text, inch_text, mm_text
from joinery_templates.sheets.bind import Contents, Reading, bind
from joinery_templates.sheets.frame import Frame
from joinery_templates.sheets.page import Booklet
from joinery_templates.wood.board import Hand

JOB_FILE = "job.toml"
"""What the attached job is called inside every PDF."""
SETTING_OUT = "Setting out"


def pdf_of(
    job: Job, progress: Callable[[int, int], None] = lambda done, total: None
) -> tuple[bytes, Booklet]:
    """The PDF of a job, and the pages that it was written from.

    Raises:
        InputError: where the paper is too small.
    """
    from joinery_templates.pdf.fonts import DejaVu
    from joinery_templates.pdf.writer import About, Attachment, write_pdf

    booklet = booklet_of(job, DejaVu())
    about = About(job.title, "Full-size templates; print at 100 %, not fitted to the page")
    attachment = Attachment(JOB_FILE, job.source.encode(), "the job that draws these pages")
    return write_pdf(booklet, about, attachment, progress), booklet


def booklet_of(job: Job, lettering: Lettering) -> Booklet:
    """The pages of a job.

    Raises:
        InputError: where the paper is too small.
    """
    patterns = tuple(
        chain.from_iterable(
            chain(setting_patterns(one, job.units, lettering), corner_patterns(one, lettering))
            for one in job.joints
        )
    )
    frame = Frame(job.paper, job.margins)
    contents = Contents(
        title=job.title,
        notes=(job.notes,) if job.notes else (),
        readings=tuple(_reading(one, job.units, frame, lettering) for one in job.joints),
        patterns=patterns,
        overlap=job.overlap,
    )
    return bind(contents, frame, lettering)


def corner_patterns(one: JointJob, lettering: Lettering) -> Iterator[Pattern]:
    """Both boards' patterns for every corner of a joint."""
    for corner in one.corners:
        for member in one.joint.members:
            hand = _hand(member.hand, corner)
            place = Place(corner.name, member.end.board.name, member.role, hand)
            yield from views(one.views, place, member.end, lettering)


def setting_patterns(one: JointJob, units: Units, lettering: Lettering) -> Iterator[Pattern]:
    """The setting-out strip and the card of tool settings."""
    joint = one.joint
    row = joint.main_row
    board = next(m.end.board.name for m in joint.members if m.role == row.role)
    marks = [mark.position for mark in row.marks]
    yield strip(SETTING_OUT, board, row.title, row.width, marks, units, lettering)
    yield settings_card(
        SETTING_OUT,
        f"tool settings, {one.name}",
        [
            DrawnLength(": ".join(_length_row(setting, units)), setting.length)
            for setting in joint.lengths
        ],
        [DrawnSlope(": ".join(_slope_row(setting)), setting.slope) for setting in joint.slopes],
        lettering,
    )


def missing_signs_of(job: Job) -> tuple[Finding, ...]:
    """Advice on signs in the job's words that the fonts lack."""
    from joinery_templates.pdf.fonts import STAND_IN, missing_signs

    words = [job.title, job.notes]
    for one in job.joints:
        words += [one.name, *(corner.name for corner in one.corners)]
        words += [member.end.board.name for member in one.joint.members]
    lacking = missing_signs(" ".join(words))
    if not lacking:
        return ()
    return (
        advice(
            "sign-not-in-font",
            f"The fonts have no sign for {' '.join(lacking[:20])}; {STAND_IN} is printed instead.",
            "the embedded fonts",
            "Write the name in other letters.",
        ),
    )


def _hand(hand: Hand, corner: Corner) -> Hand:
    return hand.other if corner.mirrored else hand


def both_units(length: Fraction, units: Units) -> str:
    """A length in the person's units and, in brackets, in the other."""
    metric, inches = mm_text(length), inch_text(length)
    return f"{metric} ({inches})" if units is Units.MM else f"{inches} ({metric})"


def setting_rows(joint: Joint, units: Units) -> tuple[tuple[str, str], ...]:
    """Tool settings, each a name and a figure."""
    return (
        *(_length_row(setting, units) for setting in joint.lengths),
        *(_slope_row(setting) for setting in joint.slopes),
    )


def size_rows(joint: Joint, units: Units) -> tuple[tuple[str, str], ...]:
    """Sizes, each a name and a figure."""
    return tuple((size.name, both_units(size.length, units)) for size in joint.sizes)


def _length_row(setting: LengthSetting, units: Units) -> tuple[str, str]:
    return f"{setting.tool}, {setting.use}", both_units(setting.length, units)


def _slope_row(setting: SlopeSetting) -> tuple[str, str]:
    angle = f"{degrees_of(setting.slope, Fraction(1)):.2f}°"
    note = f", {setting.note}" if setting.note else ""
    return f"bevel, {setting.use}", f"1:{decimal_text(1 / setting.slope, 2)} ({angle}){note}"


def _reading(one: JointJob, units: Units, frame: Frame, lettering: Lettering) -> Reading:
    joint = one.joint
    boards = " and ".join(member.end.board.name for member in joint.members)
    bench = Bench(
        heading=f"Bench page: {one.name}, {boards}",
        settings=setting_rows(joint, units),
        sizes=size_rows(joint, units),
        steps=[(step.heading, step.words) for step in joint.steps],
        rules=joint.rules,
        advice=[finding.told() for finding in joint.findings],
    )
    blocks = tuple(bench_blocks(bench, frame.area.width, lettering))
    return Reading(f"Bench page: {one.name}", blocks)
