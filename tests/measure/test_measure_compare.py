"""A page that was changed on its way is named, with what was done to it."""

import io
from itertools import pairwise

import pikepdf
import pypdf
import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from joinery_templates.measure.causes import likely_cause
from joinery_templates.measure.compare import (
    ExpectedStroke,
    Tolerance,
    compare_pages,
)
from joinery_templates.measure.plane import Box, Matrix, Segment
from joinery_templates.measure.strokes import PageStrokes
from tests.measure.measured_pages import (
    MM,
    canvas,
    expected_page,
    expected_pages,
    read,
    template,
    through,
)
from tests.strategies import PROPERTY


def changed(data: bytes, change) -> bytes:
    """A PDF after `change` was called with pypdf's writer."""
    writer = pypdf.PdfWriter(clone_from=io.BytesIO(data))
    change(writer)
    buffer = io.BytesIO()
    writer.write(buffer)
    return buffer.getvalue()


def transformed(data: bytes, *matrix: float) -> bytes:
    def change(writer: pypdf.PdfWriter) -> None:
        for page in writer.pages:
            page.add_transformation(matrix)

    return changed(data, change)


def test_an_untouched_file_is_true_to_size():
    report = compare_pages(expected_pages(4), read(template(4)))
    assert report.true_to_size
    assert report.in_order
    assert [page.number for page in report.pages] == [1, 2, 3, 4]
    for page in report.pages:
        assert (page.scale_across, page.scale_along) == pytest.approx((1, 1), abs=1e-6)
        assert page.worst_error < 2e-4
        assert page.text_seen


def test_a_drawing_moved_beside_its_rulers_shows_as_far_as_it_moved():
    report = compare_pages(expected_pages(1), read(template(1, moved=(0.3, -0.4))))
    page = report.pages[0]
    assert not report.true_to_size
    assert page.worst_error == pytest.approx(0.5, abs=1e-3)
    assert page.worst_role in {"tail side", "tail end", "scribe line", "board edge"}
    assert page.scale_across == pytest.approx(1, abs=1e-6)


def test_errors_are_told_in_true_millimetres_on_a_shrunk_page():
    data = transformed(template(1, moved=(0.5, 0)), 0.9, 0, 0, 0.9, 20, 30)
    page = compare_pages(expected_pages(1), read(data)).pages[0]
    assert page.scale_across == pytest.approx(0.9, abs=1e-6)
    assert page.worst_error == pytest.approx(0.5, abs=1e-3)


@pytest.mark.parametrize("scale", [0.707, 0.9, 0.96, 0.9985, 1.0015, 1.03, 1.414])
def test_a_scaled_page_shows_its_scale_and_no_error(scale):
    report = compare_pages(
        expected_pages(2), read(transformed(template(2), scale, 0, 0, scale, 3, -7))
    )
    page = report.pages[1]
    assert not report.true_to_size
    assert (page.scale_across, page.scale_along) == pytest.approx((scale, scale), abs=2e-6)
    assert page.worst_error < 1e-3
    assert page.missing == 0


def test_a_scale_within_tolerance_passes_and_can_be_tightened():
    found = read(transformed(template(1), 1.0008, 0, 0, 1.0008, 0, 0))
    assert compare_pages(expected_pages(1), found).true_to_size
    assert not compare_pages(expected_pages(1), found, Tolerance(scale=5e-4)).true_to_size


def test_axes_and_skew_are_told_apart():
    """Columns (1.01, 0) and (s, 0.99): the upright ruler leans by atan(s / 0.99)."""
    found = read(transformed(template(1), 1.01, 0, -0.99 * 0.01, 0.99, 5, 5))
    page = compare_pages(expected_pages(1), found).pages[0]
    assert page.scale_across == pytest.approx(1.01, abs=1e-5)
    assert page.scale_along == pytest.approx(0.99 * (1 + 1e-4) ** 0.5, abs=1e-5)
    assert page.skew_deg == pytest.approx(0.57294, abs=1e-4)


@pytest.mark.parametrize("turn", [90, 180, 270])
def test_a_page_turned_by_a_viewer_flag_is_still_true(turn):
    data = changed(template(1), lambda writer: writer.pages[0].rotate(turn))
    report = compare_pages(expected_pages(1), read(data))
    assert report.true_to_size
    assert report.pages[0].turned_deg == pytest.approx(360 - turn)


def test_a_mirrored_page_is_not_taken_for_the_page():
    report = compare_pages(expected_pages(1), read(transformed(template(1), -1, 0, 0, 1, 595, 0)))
    assert (report.missing_pages, report.surplus_pages, report.unruled_pages) == ((1,), (), (1,))
    assert not report.true_to_size


def test_a_cropped_page_is_named():
    def change(writer: pypdf.PdfWriter) -> None:
        writer.pages[1].cropbox = pypdf.generic.RectangleObject((0, 0, 595, 400))

    report = compare_pages(expected_pages(2), read(changed(template(2), change)))
    assert [page.cropped for page in report.pages] == [False, True]
    assert not report.true_to_size


def test_lines_that_were_taken_away_are_counted():
    found = read(template(1))[0]
    edge = [line for line in found.segments if line.length == pytest.approx(180, abs=0.01)]
    assert len(edge) == 1
    rest = tuple(line for line in found.segments if line not in edge)
    less = found._replace(segments=rest)
    page = compare_pages(expected_pages(1), [less]).pages[0]
    assert (page.missing, page.missing_roles) == (1, ("board edge",))


@pytest.mark.parametrize("dropped", [1, 3, 5])
def test_a_dropped_page_is_named_by_its_own_number(dropped):
    """Page 3 has nothing but rulers on it, which every other page has too."""
    pages = list(read(template(5, plain=(3,))))
    del pages[dropped - 1]
    report = compare_pages(expected_pages(5, plain=(3,)), pages)
    assert report.missing_pages == (dropped,)
    assert report.surplus_pages == ()
    assert len(report.pages) == 4
    assert not report.true_to_size


def test_pages_too_many_and_out_of_order_are_named():
    first, second, third = read(template(3))
    report = compare_pages(expected_pages(3), [third, first, second, second])
    assert report.missing_pages == ()
    assert len(report.surplus_pages) == 1
    assert report.surplus_pages[0] in {3, 4}
    assert not report.in_order
    assert [page.found_number for page in report.pages[:2]] == [2, report.pages[1].found_number]
    assert report.pages[2].found_number == 1


def test_a_page_without_lines_is_a_missing_page():
    """As when a program printed the page as a picture."""
    blank = PageStrokes(Box(0, 0, 210, 297), (), text_seen=False)
    report = compare_pages(expected_pages(1), [blank])
    assert (report.missing_pages, report.surplus_pages, report.unruled_pages) == ((1,), (), (1,))
    assert not report.true_to_size
    assert not compare_pages(expected_pages(1), []).true_to_size


def test_nothing_expected_is_not_true_to_size():
    assert not compare_pages([], []).true_to_size


@given(
    scale=st.floats(0.3, 3),
    turn=st.sampled_from([(1, 0), (0, 1), (-1, 0), (0, -1)]),
    across=st.floats(-300, 300),
    along=st.floats(-300, 300),
    stretch=st.floats(0.97, 1.03),
)
@PROPERTY
def test_any_scale_turn_and_move_is_found_again(scale, turn, across, along, stretch):
    cosine, sine = turn
    placing = Matrix(
        scale * cosine * stretch,
        scale * sine * stretch,
        -scale * sine,
        scale * cosine,
        across,
        along,
    )
    page = expected_page(1)
    lines = [page.ruler_across, page.ruler_along, *(stroke.line for stroke in page.strokes)]
    segments = tuple(placing.segment(line) for line in lines)
    everywhere = Box(-2000, -2000, 2000, 2000)
    found = PageStrokes(everywhere, segments, text_seen=True)
    report = compare_pages([page], [found]).pages[0]
    assert report.missing == 0
    assert report.worst_error < 1e-6
    assert report.scale_across == pytest.approx(scale * stretch)
    assert report.scale_along == pytest.approx(scale)


CHAINS = [
    ("pdftocairo", ("-pdf", "in.pdf", "out.pdf"), 1.0),
    ("pdftocairo", ("-pdf", "-paper", "letter", "in.pdf", "out.pdf"), 792 / 842),
    ("gs", ("-q", "-sDEVICE=pdfwrite", "-o", "out.pdf", "in.pdf"), 1.0),
    (
        "gs",
        ["-q", "-sDEVICE=pdfwrite", "-dPDFFitPage", "-sPAPERSIZE=a3", "-o", "out.pdf", "in.pdf"],
        1191 / 842,
    ),
    ("qpdf", ("--object-streams=generate", "in.pdf", "out.pdf"), 1.0),
    ("qpdf", ("--rotate=90", "--flatten-rotation", "in.pdf", "out.pdf"), 1.0),
]


@pytest.mark.parametrize(("program", "arguments", "scale"), CHAINS)
def test_other_programs_are_measured(tmp_path, program, arguments, scale):
    """Scales by arithmetic from the paper sizes; 842 points high onto 792 is 94.06 %."""
    report = compare_pages(
        expected_pages(3), read(through(tmp_path, template(3), program, *arguments))
    )
    assert report.missing_pages == ()
    assert report.true_to_size == (scale == 1.0)
    for page in report.pages:
        assert page.scale_across == pytest.approx(scale, abs=3e-4)
        assert page.worst_error < 0.003
        assert page.missing == 0


def test_pieces_joined_by_another_program_are_still_found():
    """Cairo joins pieces of one path that continue each other."""
    found = read(template(1))[0]
    page = expected_page(1)
    halves = []
    for role, x0, y0, x1, y1 in ((one.role, *one.line) for one in page.strokes):
        x, y = (x0 + x1) / 2, (y0 + y1) / 2
        halves += [
            ExpectedStroke(role, Segment(x0, y0, x, y)),
            ExpectedStroke(role, Segment(x1, y1, x, y)),
        ]
    split = replace(page, strokes=tuple(halves))
    report = compare_pages([split], [found])
    assert report.true_to_size
    assert report.pages[0].worst_error < 1e-3


def test_a_line_that_goes_on_too_far_is_not_taken_for_a_joined_one():
    found = read(template(1))[0]
    page = expected_page(1)
    shorter = [
        replace(one, line=one.line._replace(y1=one.line.y1 - 1.0))
        if one.role == "board edge"
        else one
        for one in page.strokes
    ]
    report = compare_pages([replace(page, strokes=tuple(shorter))], [found]).pages[0]
    assert report.worst_role == "board edge"
    assert report.worst_error == pytest.approx(1.0, abs=1e-3)


def test_a_line_drawn_on_through_a_gap_is_not_taken_for_a_joined_one():
    found = read(template(1))[0]
    page = expected_page(1)
    pieces = [
        ExpectedStroke("board edge", Segment(30.0, low, 30.0, high))
        for low, high in ((60, 99), (102, 240))
    ]
    rest = [one for one in page.strokes if one.role != "board edge"]
    report = compare_pages([replace(page, strokes=(*rest, *pieces))], [found]).pages[0]
    assert report.missing_roles == ("board edge",)
    assert report.missing == 2


def test_a_corner_with_arms_as_long_as_the_rulers_is_not_taken_for_theirs():
    """One stands before theirs, one is drawn later; only from theirs the other lines fit."""
    found = read(template(1))[0]
    arms = [
        segment
        for x, y in ((40.0, 30.0), (90.0, 60.0))
        for segment in (Segment(x, y, x + 100, y), Segment(x, y, x, y + 150))
    ]
    more = found._replace(segments=(*arms[:2], *found.segments, *arms[2:]))
    assert compare_pages(expected_pages(1), [more]).true_to_size


@pytest.mark.parametrize("program", ["pdftocairo", "gs"])
def test_pieces_of_one_path_survive_other_programs(tmp_path, program):
    """A scribe line drawn in three pieces without lifting the pen comes back as one."""
    arguments = {
        "pdftocairo": ("-pdf", "in.pdf", "out.pdf"),
        "gs": ("-q", "-sDEVICE=pdfwrite", "-o", "out.pdf", "in.pdf"),
    }[program]
    page = expected_page(1, plain=True)
    stops = [(30.0, 90.0), (60.0, 100.0), (90.0, 110.0), (90.0, 130.0), (90.0, 177.7)]
    buffer = io.BytesIO()
    pen = canvas(buffer)
    for line in (page.ruler_across, page.ruler_along, *(one.line for one in page.strokes)):
        pen.line(*(value * MM for value in line))
    path = pen.beginPath()
    path.moveTo(*(value * MM for value in stops[0]))
    for stop in stops[1:]:
        path.lineTo(*(value * MM for value in stop))
    pen.drawPath(path)
    pen.save()
    pieces = [ExpectedStroke("piece", Segment(*start, *end)) for start, end in pairwise(stops)]
    page = replace(page, strokes=(*page.strokes, *pieces))
    found = read(through(tmp_path, buffer.getvalue(), program, *arguments))
    assert len(found[0].segments) < 2 + len(page.strokes)
    report = compare_pages([page], found)
    assert report.true_to_size
    assert report.pages[0].worst_error < 0.003


def test_a_crowded_page_is_compared_in_seconds():
    """20,000 lines, all off their true scale; the rulers are found among them."""
    places = [(20 + 0.8 * (i % 200), 30 + 2.2 * (i // 200)) for i in range(20_000)]
    crowd = tuple(ExpectedStroke("hatching", Segment(x, y, x + 1, y + 1)) for x, y in places)
    page = replace(expected_page(1), strokes=crowd)
    shrunk = Matrix(0.96, 0, 0, 0.96, 4, 4)
    lines = [page.ruler_across, page.ruler_along, *(stroke.line for stroke in crowd)]
    segments = tuple(shrunk.segment(line) for line in lines)
    found = PageStrokes(Box(0, 0, 210, 297), segments, text_seen=True)
    report = compare_pages([page], [found]).pages[0]
    assert report.scale_across == pytest.approx(0.96)
    assert report.worst_error < 1e-6


@pytest.mark.parametrize(
    ("across", "along", "word"),
    [
        (1.0, 1.0004, "True to size"),
        (0.96, 0.96, "fit to page"),
        (0.9594, 0.9598, "fit to page"),
        (0.9331, 0.9331, "Letter page was fitted to A4"),
        (0.973, 0.973, "edge to edge"),
        (0.941, 0.941, "onto Letter"),
        (0.9146, 0.9146, "margin at the foot"),
        (0.7071, 0.7071, "A3 page was shrunk"),
        (1.4142, 1.4142, "enlarged onto A3"),
        (1.03, 1.03, "borderless"),
        (0.9985, 0.9985, "shrank the page a little"),
        (0.995, 1.001, "printer or the paper"),
        (0.5, 0.5, "no usual cause"),
    ],
)
def test_a_reading_is_explained(across, along, word):
    assert word in likely_cause(across, along)


def test_a_page_read_from_a_repaired_file_is_the_same(tmp_path):
    """Pikepdf writes the file anew; nothing moves."""
    with pikepdf.open(io.BytesIO(template(2))) as pdf:
        pdf.save(tmp_path / "new.pdf", linearize=True)
    first = read(template(2))[1].segments
    assert read((tmp_path / "new.pdf").read_bytes())[1].segments == first
    assert Segment(*first[0]).length == pytest.approx(100, abs=1e-4)
    assert pytest.approx(25.4) == 72 / MM
