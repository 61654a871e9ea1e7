"""Strokes are found where they are drawn, by hand values and by two independent readers."""

import ctypes
import io

import pikepdf
import pypdfium2
import pypdfium2.raw as pdfium
import pytest
from pdfminer.high_level import extract_pages
from pdfminer.layout import LTCurve, LTFigure

from joinery_templates.errors import InputError
from joinery_templates.measure.plane import Segment
from tests.measure.measured_pages import MM, canvas, read, template

PLAIN = "10 w 0 0 m 72 0 l S"


def page(content: str, **entries: object) -> bytes:
    """One page of 720 x 360 points (254 x 127 mm) with this content."""
    pdf = pikepdf.new()
    pdf.add_blank_page(page_size=(720, 360))
    pdf.pages[0].Contents = pdf.make_stream(content.encode())
    for key, value in entries.items():
        pdf.pages[0][f"/{key}"] = value
    buffer = io.BytesIO()
    pdf.save(buffer)
    return buffer.getvalue()


def form(pdf: pikepdf.Pdf, content: str, box: str, matrix: str, **forms: object):
    """A form XObject; `forms` are the forms it can use itself."""
    stream = pdf.make_stream(content.encode())
    stream.Type, stream.Subtype = pikepdf.Name.XObject, pikepdf.Name.Form
    stream.BBox = pikepdf.Array([float(number) for number in box.split()])
    stream.Matrix = pikepdf.Array([float(number) for number in matrix.split()])
    stream.Resources = pikepdf.Dictionary(XObject=pikepdf.Dictionary(**forms))
    return stream


def lines(data: bytes) -> list[list[float]]:
    return [list(segment) for segment in read(data)[0].segments]


def test_an_inch_is_25_point_4_mm():
    assert lines(page(PLAIN)) == [pytest.approx([0, 0, 25.4, 0])]


@pytest.mark.parametrize(
    ("content", "found"),
    [
        ("0 0 m 72 0 l 72 72 l s", [[0, 0, 25.4, 0], [25.4, 0, 25.4, 25.4], [25.4, 25.4, 0, 0]]),
        ("0 0 m 72 0 l 72 72 l S", [[0, 0, 25.4, 0], [25.4, 0, 25.4, 25.4]]),
        ("0 0 m 72 0 l h 0 72 l S", [[0, 0, 25.4, 0], [25.4, 0, 0, 0], [0, 0, 0, 25.4]]),
        ("0 0 m 72 0 l f", []),
        ("0 0 m 72 0 l n 0 0 m 0 72 l B*", [[0, 0, 0, 25.4]]),
        ("[3 2] 0 d 0 0 m 72 0 l S", [[0, 0, 25.4, 0]]),
        ("q 2 0 0 2 0 0 cm 0 0 m 72 0 l S Q 0 0 m 72 0 l S", [[0, 0, 50.8, 0], [0, 0, 25.4, 0]]),
        ("q 2 0 0 2 0 0 cm 1 0 0 1 36 0 cm 0 0 m 36 0 l S Q", [[25.4, 0, 50.8, 0]]),
        ("q 0 1 -1 0 72 0 cm 0 0 m 72 0 l S Q", [[25.4, 0, 25.4, 25.4]]),
        ("(S (a\\) S) 0 0 m) Tj <</A(x)/B[1 2]>> 0 0 m % 9 9 l\n72 0 l S", [[0, 0, 25.4, 0]]),
        ("BI /W 1 /H 1 ID \x00 1 1 m 2 2 l S EI 0 0 m 72 0 l S", [[0, 0, 25.4, 0]]),
        ("0 0 m 0 9 9 9 72 0 c 72 72 l S", [[25.4, 0, 25.4, 25.4]]),
        ("0 0 72 72 re W n -9 0 200 72 re W n 0 9 m 144 9 l S", [[0, 3.175, 25.4, 3.175]]),
    ],
)
def test_each_operator_leaves_what_it_paints(content, found):
    assert lines(page(content)) == [pytest.approx(line) for line in found]


def test_a_rectangle_is_four_strokes():
    assert lines(page("72 0 72 36 re S")) == [
        pytest.approx(line)
        for line in (
            [25.4, 0, 50.8, 0],
            [50.8, 0, 50.8, 12.7],
            [50.8, 12.7, 25.4, 12.7],
            [25.4, 12.7, 25.4, 0],
        )
    ]


def test_a_window_cuts_strokes_as_on_paper():
    """A window of 1 x 1 in: one line through it, one along its edge, one past it."""
    content = (
        "q 0 0 72 72 re W n -72 36 m 144 36 l S 0 72 m 144 72 l S 0 73 m 72 73 l S "
        "-36 0 m 36 72 l S Q 100 0 m 172 0 l S"
    )
    assert lines(page(content)) == [
        pytest.approx([0, 12.7, 25.4, 12.7]),
        pytest.approx([0, 25.4, 25.4, 25.4]),
        pytest.approx([0, 12.7, 12.7, 25.4]),
        pytest.approx([100 / MM, 0, 172 / MM, 0]),
    ]


def test_forms_in_forms_are_placed_by_all_matrices_and_cut_by_their_boxes():
    """Inner: 100 pt along x. Its matrix doubles it; the outer turns and moves it by 50, 20."""
    pdf = pikepdf.new()
    pdf.add_blank_page(page_size=(720, 360))
    inner = form(pdf, "0 0 m 100 0 l S 5 5 m 200 5 l S", "0 0 100 100", "2 0 0 2 0 0")
    outer = form(pdf, "/inner Do", "-999 -999 999 999", "0 1 -1 0 50 20", inner=inner)
    pdf.pages[0].Resources = pikepdf.Dictionary(XObject=pikepdf.Dictionary(outer=outer))
    pdf.pages[0].Contents = pdf.make_stream(b"q 1 0 0 1 10 0 cm /outer Do Q")
    buffer = io.BytesIO()
    pdf.save(buffer)
    assert lines(buffer.getvalue()) == [
        pytest.approx([60 / MM, 20 / MM, 60 / MM, 220 / MM]),
        pytest.approx([50 / MM, 30 / MM, 50 / MM, 220 / MM]),
    ]


@pytest.mark.parametrize(
    ("turn", "size", "found"),
    [
        (0, (254, 127), [0, 0, 25.4, 0]),
        (90, (127, 254), [0, 254, 0, 228.6]),
        (180, (254, 127), [254, 127, 228.6, 127]),
        (-90, (127, 254), [127, 0, 127, 25.4]),
    ],
)
def test_a_turned_page_is_measured_as_it_lies_before_the_reader(turn, size, found):
    """/Rotate turns clockwise: the lower left corner goes to the upper left at 90."""
    turned = read(page(PLAIN, Rotate=turn))[0]
    assert list(turned.crop) == pytest.approx([0, 0, *size])
    assert list(turned.segments[0]) == pytest.approx(found)


def test_user_unit_and_boxes_count():
    """UserUnit 2 doubles; the origin is the media box's corner; the crop box lies within."""
    found = read(page(PLAIN, UserUnit=2, MediaBox=[-36, -72, 684, 288], CropBox=[0, 0, 999, 144]))
    assert list(found[0].segments[0]) == pytest.approx([25.4, 50.8, 76.2, 50.8])
    assert list(found[0].crop) == pytest.approx([25.4, 50.8, 508, 152.4])


def by_pdfminer(data: bytes) -> list[list[float]]:
    """Lines of the first page in mm as pdfminer sees them (it knows no windows)."""
    (layout,) = extract_pages(io.BytesIO(data))
    found, waiting = [], list(layout)
    while waiting:
        item = waiting.pop(0)
        if isinstance(item, LTFigure):
            waiting = [*item, *waiting]
        elif isinstance(item, LTCurve):
            found.append([value / MM for end in item.pts for value in end])
    return found


def by_pdfium(data: bytes) -> list[list[float]]:
    """Lines of the first page in mm as pdfium sees them, forms left out."""
    found = []
    x, y = ctypes.c_float(), ctypes.c_float()
    document = pypdfium2.PdfDocument(data)
    for item in document[0].get_objects(max_depth=1):
        if item.type != pdfium.FPDF_PAGEOBJ_PATH:
            continue
        matrix, ends = item.get_matrix(), []
        for place in range(pdfium.FPDFPath_CountSegments(item)):
            pdfium.FPDFPathSegment_GetPoint(pdfium.FPDFPath_GetPathSegment(item, place), x, y)
            ends += [value / MM for value in matrix.on_point(x.value, y.value)]
        found.append(ends[:4])
    document.close()
    return found


def slanted() -> bytes:
    """Lines under nested moves, turns and scales, some in forms; all pages need matrices."""
    buffer = io.BytesIO()
    pen = canvas(buffer)
    pen.beginForm("inside", -500, -500, 1500, 1500)
    pen.rotate(17)
    pen.line(3, 4, 333.3, 44.4)
    pen.endForm()
    for angle in (0, 12.5, 90):
        pen.saveState()
        pen.translate(200, 300)
        pen.rotate(angle)
        pen.scale(1.00234, 0.99871)
        pen.line(1, 2, 234.567, 89.01)
        pen.doForm("inside")
        pen.restoreState()
    pen.showPage()
    pen.save()
    return buffer.getvalue()


def test_pdfminer_sees_the_same_lines():
    data = slanted()
    assert lines(data) == [pytest.approx(line, abs=1e-4) for line in by_pdfminer(data)]
    assert len(lines(data)) == 6


def test_pdfium_sees_the_same_lines():
    data = slanted()
    assert lines(data)[::2] == [pytest.approx(line, abs=1e-3) for line in by_pdfium(data)]
    assert len(by_pdfium(data)) == 3


def test_a_template_shows_its_lettering():
    page_found = read(template())[0]
    assert page_found.text_seen
    assert page_found.fonts_missing == ()


def test_a_font_without_letter_shapes_is_named():
    with pikepdf.open(io.BytesIO(template())) as pdf:
        for item in pdf.objects:
            if isinstance(item, pikepdf.Dictionary) and "/FontFile2" in item:
                del item["/FontFile2"]
        buffer = io.BytesIO()
        pdf.save(buffer)
    page_found = read(buffer.getvalue())[0]
    assert not page_found.text_seen
    assert "DejaVuSansCondensed" in page_found.fonts_missing[0]


def test_a_font_that_is_gone_is_named():
    with pikepdf.open(io.BytesIO(template())) as pdf:
        del pdf.pages[0].Resources["/Font"]
        buffer = io.BytesIO()
        pdf.save(buffer)
    page_found = read(buffer.getvalue())[0]
    assert not page_found.text_seen
    assert page_found.fonts_missing != ()


@pytest.mark.parametrize(
    "content",
    [
        "nan 0 m 9 9 l S",
        "0 0 m inf 9 l S",
        "1" * 400 + " 0 m 9 9 l S",
        "q 1e9 0 0 1 0 0 cm 0 0 m 9 9 l S Q",
        "0 m 9 9 l S",
        "9 9 l S",
        " ".join(["99999999999999999999 0 0 1 0 0 cm"] * 20) + " 1 1 m 9 9 l S",
        "/ Do Do",
    ],
)
def test_lines_that_are_nowhere_are_refused(content):
    with pytest.raises(InputError) as caught:
        read(page(content))
    assert caught.value.findings[0].code == "pdf-unreadable"


def test_a_segment_turned_about_is_as_long():
    assert Segment(1, 2, 4, 6).turned_about == Segment(4, 6, 1, 2)
    assert Segment(1, 2, 4, 6).length == 5
