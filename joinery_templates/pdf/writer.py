"""Pages to a PDF file: the only place where millimetres become points and are rounded.

Form XObjects: a figure is written once and placed as often as it is seen. The same
booklet gives the same bytes: no clock, no machine, no path goes in.
"""

import io
import zlib
from collections.abc import Callable, Iterator
from itertools import groupby
from typing import Any

from msgspec import Struct

from joinery_templates.drawings.figure import DIRECTION, Figure, Point, Stroke, Text
from joinery_templates.drawings.lettering import ASCENT, DESCENT, SHARE_BEFORE
from joinery_templates.drawings.look import GROUND, PENS
from joinery_templates.exact import Fraction, as_float
from joinery_templates.libraries import by_themselves
from joinery_templates.pdf.fonts import BOLD, REGULAR, DejaVu, load, printable, runs, size_pt
from joinery_templates.sheets.correction import NO_MAP, PageMap
from joinery_templates.sheets.page import Booklet, Bookmark, Window

_SPILL = Fraction(3)
"""A form's box reaches this far past its figure, so that line ends are not clipped."""
_TURN = {turn: f"{c} {s} {-s} {c}" for turn, (c, s) in DIRECTION.items()}
_ESCAPED = str.maketrans({"\\": "\\\\", "(": "\\(", ")": "\\)", "\r": "\\r"})
"""What would end a string, or be taken for another sign in it."""
_ORDER = {role: number for number, role in enumerate(PENS)}


class Attachment(Struct, frozen=True):
    """A file inside the PDF."""

    name: str
    content: bytes
    description: str


class About(Struct, frozen=True):
    """What the PDF's metadata say."""

    title: str
    subject: str


_PRESSED = 4
"""Of nine: nearly as small as the usual six, in two thirds of the time."""
_POINTS = Fraction(360, 127)
"""What a millimetre is in points."""


def points(length: Fraction) -> float:
    """Millimetres in points of 1/72 in: the only rounding between the job and the file."""
    return float(length * _POINTS)


def _place_pt(point: Point) -> str:
    """A point as it is written: to 0.04 µm, however far it lies from zero."""
    return f"{points(point[0]):.4f} {points(point[1]):.4f}"


def write_pdf(
    booklet: Booklet,
    about: About,
    attachment: Attachment | None,
    progress: Callable[[int, int], None] = lambda done, total: None,
) -> bytes:
    """The PDF file's bytes.

    Args:
        booklet: the pages.
        about: for the metadata.
        attachment: the job file, where there is one.
        progress: called after each page with the pages done and their total.
    """
    file = io.BytesIO()
    canvas = _canvas(file, booklet)
    _describe(canvas, about)
    if attachment is not None:
        _attach(canvas, attachment)
    forms = _Forms(canvas._doc)
    total = len(booklet.pages)
    # Each entry has a target of its own, since reportlab keeps one title for a target.
    entries = [
        (f"entry{order}", bookmark, level)
        for order, (bookmark, level) in enumerate(_entries(booklet.bookmarks, 0), 1)
    ]
    for number, page in enumerate(booklet.pages):
        for target, bookmark, _ in entries:
            if bookmark.page == number:
                canvas.bookmarkPage(target)
        if booklet.page_map != NO_MAP:
            _transform(canvas, booklet.page_map)
        for window in page.windows:
            _place(canvas, window, forms.name(window.figure))
        canvas.showPage()
        progress(number + 1, total)
    for target, bookmark, level in entries:
        canvas.addOutlineEntry(printable(bookmark.title), target, level, closed=0)
    canvas.save()
    return file.getvalue()


def _canvas(file: io.BytesIO, booklet: Booklet) -> Any:
    with by_themselves():
        from reportlab import rl_config
        from reportlab.pdfgen import canvas

        make: Any = canvas.Canvas  # its annotations are wrong about the font's name
        rl_config.useA85 = 0  # binary streams: a tenth smaller than text ones
        load(REGULAR)
        load(BOLD)
        return make(
            file,
            pagesize=(booklet.width_pt, booklet.height_pt),
            pdfVersion=(1, 7),  # PickTrayByPDFSize and Duplex need it
            invariant=1,  # dated 1 January 2000: a date that says nothing
            pageCompression=1,
            initialFontName=REGULAR,  # or a font that is not embedded gets into every file
            lang="en",
        )


def _transform(canvas: Any, page_map: PageMap) -> None:
    """Draw all that follows on this page through a map."""
    m = page_map
    canvas.transform(*(as_float(n) for n in (m.a, m.b, m.c, m.d)), points(m.e), points(m.f))


def _describe(canvas: Any, about: About) -> None:
    canvas.setTitle(about.title)
    canvas.setSubject(about.subject)
    canvas.setAuthor("")
    canvas.setCreator("joinery-templates")
    from reportlab.pdfbase.pdfdoc import PDFDictionary, PDFName

    # Set as one dictionary, since reportlab's own setter refuses PickTrayByPDFSize.
    canvas._doc.Catalog.ViewerPreferences = PDFDictionary(
        {
            "PrintScaling": PDFName("None"),
            "Duplex": PDFName("Simplex"),
            "PickTrayByPDFSize": "true",
            "DisplayDocTitle": "true",
        }
    )


def _attach(canvas: Any, attachment: Attachment) -> None:
    """Embed a file; reportlab has no call for it, so the dictionaries are written here."""
    from reportlab.pdfbase.pdfdoc import PDFArray, PDFDictionary, PDFName, PDFStream, PDFString

    stream = PDFStream(
        dictionary=PDFDictionary({"Type": PDFName("EmbeddedFile")}), content=attachment.content
    )
    specification = PDFDictionary(
        {
            "Type": PDFName("Filespec"),
            "F": PDFString(attachment.name),
            "UF": PDFString(attachment.name),
            "Desc": PDFString(attachment.description),
            "AFRelationship": PDFName("Source"),
            "EF": PDFDictionary({"F": canvas._doc.Reference(stream)}),
        }
    )
    names = PDFArray([PDFString(attachment.name), canvas._doc.Reference(specification)])
    canvas._doc.Catalog.Names = PDFDictionary({"EmbeddedFiles": PDFDictionary({"Names": names})})


class _Forms:
    """Figures as form XObjects, each written when it is first seen.

    They are known by identity: those that are drawn alike are made once. They are written
    here, not by the library's calls: these round lengths to seven digits, which is too few
    beyond 3.5 m, and take three times as long.
    """

    def __init__(self, document: Any) -> None:
        from reportlab.pdfbase.pdfdoc import PDFResourceDictionary

        resources = PDFResourceDictionary()
        resources.basicFonts()
        self._document = document
        self._resources = document.Reference(resources).format(document).decode()
        self._names: dict[int, str] = {}
        self._written = _Written()

    def name(self, figure: Figure) -> str:
        """What the form is called that draws a figure."""
        name = self._names.get(id(figure))
        if name is None:
            name = self._names[id(figure)] = f"figure{len(self._names)}"
            lines = (
                "0 J",
                *_strokes(figure.strokes, self._written),
                *_words(figure.texts, self._document),
            )
            content = zlib.compress("\n".join(lines).encode("latin-1"), _PRESSED)
            low = _place_pt((-_SPILL, -_SPILL))
            high = _place_pt((figure.width + _SPILL, figure.height + _SPILL))
            head = (
                f"<< /Type /XObject /Subtype /Form /BBox [{low} {high}] /Resources "
                f"{self._resources} /Filter /FlateDecode /Length {len(content)} >>\nstream\n"
            )
            self._document.addForm(name, head.encode() + content + b"\nendstream")
        return name


class _Written(dict[Fraction, str]):
    """Coordinates as they are written, each worked out when it is first asked for."""

    def __missing__(self, length: Fraction) -> str:
        found = self[length] = f"{points(length):.4f}"
        return found


def _strokes(strokes: tuple[Stroke, ...], written: _Written) -> Iterator[str]:
    ordered = sorted(strokes, key=lambda stroke: _ORDER[stroke.role])
    for role, group in groupby(ordered, key=lambda stroke: stroke.role):
        pen = PENS[role]
        dash = " ".join(f"{length * 72 / 25.4:.4f}" for length in pen.dash)
        yield f"{pen.width * 72 / 25.4:.6f} w [{dash}] 0 d n"
        for stroke in group:
            (x, y), (x1, y1) = stroke.start, stroke.end
            yield f"{written[x]} {written[y]} m {written[x1]} {written[y1]} l"
        yield "S"


def _words(texts: tuple[Text, ...], document: Any) -> Iterator[str]:
    """All words of a figure, after the white that some of them stand on."""
    starts = [_start(text) for text in texts]
    for text, start in zip(texts, starts, strict=True):
        if text.opaque:
            yield _white_ground(text, start)
    yield "BT"
    pen = ("", 0.0)
    for text, start in zip(texts, starts, strict=True):
        size, (cosine, sine) = size_pt(text.cap, text.bold), DIRECTION[text.turn]
        (x, y), along = (points(at) for at in text.at), points(start)
        stretches = runs(text.words, text.bold)
        for name, share, signs in stretches:
            font, height = load(name), size * as_float(share)
            yield f"{_TURN[text.turn]} {x + cosine * along:.4f} {y + sine * along:.4f} Tm"
            # In a font's first subset each sign of ASCII is its own code: no need to look it up.
            own = [(0, signs.encode())] if signs.isascii() else None
            for subset, codes in own or font.splitString(signs, document):
                wanted = font.getSubsetInternalName(subset, document), height
                if pen != wanted:
                    pen = wanted
                    yield f"{pen[0]} {height:.6f} Tf"
                yield f"({codes.decode('latin-1').translate(_ESCAPED)}) Tj"
            if len(stretches) > 1:
                along += font.stringWidth(signs, height)
    yield "ET"


def _start(text: Text) -> Fraction:
    """Where words begin, from the point that they stand at, along their line."""
    share = SHARE_BEFORE[text.align]
    return -share * DejaVu().width(text.words, text.cap, text.bold) if share else share


def _white_ground(text: Text, start: Fraction) -> str:
    """White below words, a little larger than they are."""
    width = DejaVu().width(text.words, text.cap, text.bold)
    corner = _place_pt((start - GROUND, -text.cap * DESCENT - GROUND))
    size = _place_pt((width + 2 * GROUND, text.cap * (ASCENT + DESCENT) + 2 * GROUND))
    return f"q 1 g {_TURN[text.turn]} {_place_pt(text.at)} cm {corner} {size} re f Q"


def _place(canvas: Any, window: Window, form: str) -> None:
    canvas.saveState()
    try:
        if not window.shows_all:
            low = window.on_page((window.view.left, window.view.bottom))
            high = window.on_page((window.view.right, window.view.top))
            path = canvas.beginPath()
            path.rect(*(points(c) for c in (*low, high[0] - low[0], high[1] - low[1])))
            canvas.clipPath(path, stroke=0, fill=0)
        turn = "0 1 -1 0" if window.turned else "1 0 0 1"
        canvas.addLiteral(f"{turn} {_place_pt(window.origin)} cm")
        canvas.doForm(form)
    finally:
        canvas.restoreState()


def _entries(bookmarks: tuple[Bookmark, ...], level: int) -> Iterator[tuple[Bookmark, int]]:
    """The outline's entries from top to bottom, each with how far it is indented."""
    for bookmark in bookmarks:
        yield bookmark, level
        yield from _entries(bookmark.inside, level + 1)
