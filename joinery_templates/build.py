"""The way through the house, one stage a line: job, joints, patterns, sheets, PDF.

The only place where a joint meets its drawings: what is drawn takes plain lengths and
words, and what is laid out knows no paper.
"""

from collections.abc import Callable, Iterator
from fractions import Fraction

from msgspec.structs import replace

from joinery_templates.drawings.bench import Bench, bench_page
from joinery_templates.drawings.board_patterns import views
from joinery_templates.drawings.direction import isolated, with_names_isolated
from joinery_templates.drawings.figure import Figure, Pattern
from joinery_templates.drawings.labels import Place
from joinery_templates.drawings.lettering import Lettering, shortened
from joinery_templates.drawings.manner import Manner
from joinery_templates.drawings.plan import corner_plan
from joinery_templates.drawings.setting_out import (
    DrawnLength,
    DrawnSlope,
    Row,
    settings_cards,
    strip,
)
from joinery_templates.errors import Finding, advice
from joinery_templates.exact import degrees_of
from joinery_templates.jobs.job import Corner, Job, JointJob
from joinery_templates.joints.joint import Joint, LengthSetting, Member, SettingOut, SlopeSetting
from joinery_templates.joints.tool_fit import tool_rows
from joinery_templates.lengths import Units, both_units, decimal_text, length_text
from joinery_templates.sheets.bind import Contents, Reading, Wishes, bind, text_height, text_width
from joinery_templates.sheets.correction import Correction
from joinery_templates.sheets.frame import FOOT_CAP, Frame
from joinery_templates.sheets.overview import Opening
from joinery_templates.sheets.page import Booklet
from joinery_templates.sheets.roll import cut_off
from joinery_templates.wood.board import Face, Hand
from joinery_templates.wood.faces import end_at, lay_out

JOB_FILE = "job.toml"
"""What the attached job is called inside every PDF."""
DRAWN, LAID_OUT = 40, 80
"""Hundredths of the work done when the patterns are drawn, and when the pages are made up."""
SETTING_OUT = "Setting out"


def pdf_of(
    job: Job, progress: Callable[[int], None] = lambda hundredths: None
) -> tuple[bytes, Booklet]:
    """The PDF of a job, and the pages that it was written from.

    Args:
        job: what to draw.
        progress: called with the hundredths of the work that are done.

    Raises:
        InputError: where the paper is too small.
    """
    from joinery_templates.pdf.fonts import DejaVu
    from joinery_templates.pdf.writer import About, Attachment, write_pdf

    def written(done: int, total: int) -> None:
        progress(LAID_OUT + (100 - LAID_OUT) * done // total)

    booklet = booklet_of(job, DejaVu(), progress)
    about = About(job.title, "Full-size templates; print at 100 %, not fitted to the page")
    attachment = Attachment(JOB_FILE, job.source.encode(), described(booklet))
    return write_pdf(booklet, about, attachment, written), booklet


def described(booklet: Booklet) -> str:
    """What the PDF says of the attached job: also which layout it led to when it was drawn."""
    return f"the job that draws these pages; layout {booklet.layout}"


def booklet_of(
    job: Job, lettering: Lettering, progress: Callable[[int], None] = lambda hundredths: None
) -> Booklet:
    """The pages of a job.

    Raises:
        InputError: where the paper is too small.
    """
    sheets = job.sheets
    words, printer = "", sheets.correction
    if printer is not None:
        words = with_names_isolated(printer.footer, (printer.name, printer.date))
    blank = _on_page(Frame(sheets.paper, sheets.margins), sheets.correction)
    footer = shortened(words, blank.area.width, FOOT_CAP, lettering)
    roll = replace(blank, footer=footer)
    patterns: list[Pattern] = []
    begun = {SETTING_OUT}
    corners = sum(len(one.corners) for one in job.joints)
    for pattern in _patterns(job, roll, lettering):
        patterns.append(pattern)
        begun.add(pattern.group)
        progress(min(LAID_OUT, DRAWN * (len(begun) - 1) // corners))
    frame = _on_page(cut_off(roll, patterns, job.units), sheets.correction)
    readings = tuple(_reading(one, job, frame, lettering) for one in job.joints)
    contents = Contents(_opening(job, frame, lettering), readings, tuple(patterns))
    wishes = Wishes(
        overlap=sheets.overlap,
        match_marks=sheets.marks,
        one_per_page=sheets.one_per_page,
        correction=sheets.correction,
        units=job.units,
    )
    return bind(contents, wishes, frame, lettering)


def _on_page(frame: Frame, correction: Correction | None) -> Frame:
    """The frame with margins that hold all of the page when it is drawn with a correction.

    How far a roll's page leans is known once it is cut.
    """
    if correction is None or frame.paper.is_open_roll:
        return frame
    margins = correction.kept_on_page(frame.margins, frame.width, frame.height)
    return replace(frame, margins=margins)


def _patterns(job: Job, frame: Frame, lettering: Lettering) -> Iterator[Pattern]:
    """Everything that is printed full size, joint by joint."""
    sheet = frame.largest_piece
    for one in job.joints:
        kerf = job.tools.drawn_kerf
        manner = Manner(lettering, job.sheets.thickness, sheet, one.seams, kerf)
        yield from setting_patterns(one, job.units, sheet, lettering)
        yield from corner_patterns(one, job.units, manner)


def corner_patterns(one: JointJob, units: Units, manner: Manner) -> Iterator[Pattern]:
    """Both boards' patterns for every corner of a joint."""
    first, second = one.joint.members
    loose = [(piece.member, None) for piece in one.joint.loose]
    for corner in one.corners:
        for member, mate in ((first, second), (second, first), *loose):
            place = Place(
                corner=isolated(corner.name),
                board=_board_name(member),
                role=member.role,
                hand=_hand(member, corner),
                sizes=f"{'board' if mate else 'stock'} {_section(member, units)}",
                mate=f"meets {_board_name(mate)}, {_where(mate, corner)}" if mate else "",
                where=_where(member, corner),
                up=member.part.up,
                reference=member.reference,
                is_loose=mate is None,
            )
            yield from views(one.views, place, member.part, manner, member.faces)


def setting_patterns(
    one: JointJob, units: Units, sheet: tuple[Fraction, Fraction], lettering: Lettering
) -> Iterator[Pattern]:
    """The setting-out strip and the cards of tool settings."""
    joint = one.joint
    if joint.main_row:
        yield strip(SETTING_OUT, _row(joint, joint.main_row), units, lettering)
    yield from settings_cards(
        SETTING_OUT,
        f"tool settings, {isolated(one.name)}",
        [DrawnLength(": ".join(_length_row(s, units)), s.length) for s in joint.lengths],
        [DrawnSlope(": ".join(_slope_row(s)), s.slope) for s in joint.slopes],
        sheet,
        lettering,
    )


def _row(joint: Joint, main: SettingOut) -> Row:
    member = next(member for member in joint.members if member.role == main.role)
    return Row(
        board=_board_name(member),
        line_words=main.title,
        width=main.width * main.stretch,
        marks=[mark.position * main.stretch for mark in main.marks],
        waste=[
            (low * main.stretch, high * main.stretch)
            for low, high in (_waste_along_end(member) if main.along_end else ())
        ],
        start=main.start,
        along_end=main.along_end,
    )


def _waste_along_end(member: Member) -> list[tuple[Fraction, Fraction]]:
    """Where the waste stands along a board's end, on the first broad face that shows any."""
    for face in (Face.OUTSIDE, Face.INSIDE):
        layout = lay_out(member.part, face, member.part.reach + 1)
        at_end = [
            [x for x, y in shape.corners if y == end_at(member.part, face, x)]
            for shape in layout.waste
        ]
        if any(at_end):
            return [(min(xs), max(xs)) for xs in at_end if xs]
    return []


def _opening(job: Job, frame: Frame, lettering: Lettering) -> Opening:
    """The top of the first page: notes, the boards, and which corner is where."""
    boards = {
        member.part.board.name: _board_words(member, job.units)
        for one in job.joints
        for member in one.joint.all_members
    }
    notes = [isolated(job.notes)] if job.notes else []
    notes.append(f"Boards: {'; '.join(boards.values())}. Measure them again before you cut.")
    return Opening(isolated(job.title), notes, tuple(_plans(job, text_width(frame), lettering)))


def _plans(job: Job, width: Fraction, lettering: Lettering) -> Iterator[Figure]:
    for one in job.joints:
        lettered = [corner for corner in one.corners if corner.letter and one.joint.at_corner]
        if lettered:
            first, second = one.joint.members
            sides, front = (second, first) if one.first_in_front else (first, second)
            ends = [(c.letter, _hand(sides, c), _hand(front, c)) for c in lettered]
            names = (_board_name(sides), _board_name(front))
            yield corner_plan(*names, ends, width, lettering)


def _board_name(member: Member) -> str:
    return isolated(member.part.board.name)


def _board_words(member: Member, units: Units) -> str:
    board = member.part.board
    length = f" × {length_text(board.length, units)}" if board.length else ""
    return f"{_board_name(member)} {_section(member, units)}{length}"


def _section(member: Member, units: Units) -> str:
    """A board's width and thickness."""
    board = member.part.board
    return f"{length_text(board.width, units)} × {length_text(board.thickness, units)}"


def missing_signs_of(job: Job) -> tuple[Finding, ...]:
    """Advice on signs in the job's words that the fonts lack."""
    from joinery_templates.pdf.fonts import STAND_IN, missing_signs

    words = [job.title, job.notes]
    for one in job.joints:
        words += [one.name, *(corner.name for corner in one.corners)]
        words += [member.part.board.name for member in one.joint.all_members]
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


def _hand(member: Member, corner: Corner) -> Hand:
    return member.hand.other if corner.mirrored else member.hand


def _where(member: Member, corner: Corner) -> str:
    return member.part.where(_hand(member, corner))


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
    one_in = decimal_text(1 / setting.slope, 2)
    # A ratio that had to be rounded was given as an angle.
    told = f"{angle}, about 1:{one_in[1:]}" if one_in.startswith("≈") else f"1:{one_in} ({angle})"
    return f"bevel, {setting.use}", told


def _reading(one: JointJob, job: Job, frame: Frame, lettering: Lettering) -> Reading:
    joint, units = one.joint, job.units
    names = [member.part.board.name for member in joint.all_members]

    def told(words: str) -> str:
        return with_names_isolated(words, names)

    boards = " and ".join(map(_board_name, joint.members))
    bench = Bench(
        heading=f"Bench page: {isolated(one.name)}, {boards}",
        settings=setting_rows(joint, units),
        sizes=size_rows(joint, units),
        tools=tool_rows(joint, job.tools, units),
        steps=[(told(step.heading), told(step.words)) for step in joint.steps],
        rules=[told(rule) for rule in joint.rules],
        advice=[told(finding.told()) for finding in joint.findings],
    )
    blocks = bench_page(bench, text_width(frame), text_height(frame), lettering)
    return Reading(f"Bench page: {isolated(one.name)}", blocks)
