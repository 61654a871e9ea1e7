"""Damaged and hostile files are refused in words, in seconds, in bounded memory."""

import json
import subprocess
import sys
import zlib
from collections.abc import Callable
from pathlib import Path

import pytest

from joinery_templates.errors import InputError
from joinery_templates.measure.reader import read_apart

if not Path("/proc/self/status").exists():
    pytest.skip("memory cannot be measured here", allow_module_level=True)

ROOT = Path(__file__).parents[2]
SECONDS = 5.0
MEGABYTES = 500
PART = 5
WHOLE = "a path without end"
"""It is the dearest and the heaviest. All others may spend a part of what a file may, and of the
time: what a file may spend is counted in one place."""

CHILD = """
import json, sys, time
from pathlib import Path
from joinery_templates.errors import InputError
from joinery_templates.measure.allowance import Allowance
from joinery_templates.measure.document import attached_job, open_document
from joinery_templates.measure.strokes import page_strokes
whole = Allowance.__init__
def part(self):
    whole(self)
    self._left //= parts
Allowance.__init__ = part
for name in sys.argv[1:]:
    data, parts = Path(name).read_bytes(), int(Path(name).suffix[1:])
    Path("/proc/self/clear_refs").write_text("5")  # count the memory anew
    start = time.process_time()
    try:
        document = open_document(data)
        page_strokes(document)
        attached_job(document)
        outcome = "read"
    except InputError as problem:
        outcome = problem.findings[0].code
    except BaseException as problem:
        outcome = f"leaked {problem!r}"
    seconds, document = time.process_time() - start, None
    # Not ru_maxrss, in which a process inherits the size of the one that started it.
    peak = int(Path("/proc/self/status").read_text().split("VmHWM:")[1].split()[0]) // 1024
    print(json.dumps((outcome, seconds, peak)), flush=True)
"""


def pdf(objects: list[bytes]) -> bytes:
    """A PDF from the bodies of its objects, numbered from 1, the first one the catalog."""
    out, places = bytearray(b"%PDF-1.7\n"), []
    for number, body in enumerate(objects, start=1):
        places.append(len(out))
        out += b"%d 0 obj\n%s\nendobj\n" % (number, body)
    table = b"".join(b"%010d 00000 n \n" % place for place in places)
    size = len(objects) + 1
    end = b"trailer\n<</Root 1 0 R/Size %d>>\nstartxref\n%d\n%%%%EOF\n" % (size, len(out))
    return bytes(out) + b"xref\n0 %d\n0000000000 65535 f \n" % size + table + end


def stream(data: bytes, entries: bytes = b"") -> bytes:
    return b"<</Length %d%s>>stream\n%s\nendstream" % (len(data), entries, data)


def packed(data: bytes) -> bytes:
    return stream(zlib.compress(data, 1), b"/Filter/FlateDecode")


def page(contents: list[bytes], resources: bytes = b"<<>>", more: tuple[bytes, ...] = ()) -> bytes:
    """One page; contents are objects 4 and on, then `more`."""
    named = b" ".join(b"%d 0 R" % number for number in range(4, 4 + len(contents)))
    return pdf(
        [
            b"<</Type/Catalog/Pages 2 0 R>>",
            b"<</Type/Pages/Count 1/Kids[3 0 R]>>",
            b"<</Type/Page/Parent 2 0 R/MediaBox[0 0 595 842]/Resources %s/Contents[%s]>>"
            % (resources, named),
            *contents,
            *more,
        ]
    )


FORM = b"/Type/XObject/Subtype/Form/BBox[0 0 9 9]"
CATALOG = b"<</Type/Catalog/Pages 2 0 R>>"
LEAF = b"<</Type/Page/Parent 2 0 R/MediaBox[0 0 595 842]>>"
USES_5 = b"<</XObject<</F 5 0 R>>>>"


def form_tree() -> bytes:
    """Eleven forms, each drawing the next one ten times: 10^11 lines in 2 kB."""
    forms = [
        stream(b"/F Do " * 10, FORM + b"/Resources<</XObject<</F %d 0 R>>>>" % number)
        for number in range(6, 17)
    ]
    return page([stream(b"/F Do")], USES_5, (*forms, stream(b"1 1 5 5 re S", FORM)))


HOSTILE: dict[str, tuple[Callable[[], bytes], str]] = {
    "decompression bomb": (lambda: page([packed(b"1 1 m\n" * 20_000_000)]), "pdf-too-large"),
    "bomb in a bomb": (
        lambda: page(
            [
                stream(
                    zlib.compress(zlib.compress(bytes(200_000_000))),
                    b"/Filter[/FlateDecode/FlateDecode]",
                )
            ]
        ),
        "pdf-too-large",
    ),
    "many large streams": (lambda: page([packed(b" " * 30_000_000)] * 4), "pdf-too-large"),
    "operators without end": (lambda: page([packed(b"q 1 1 m n Q\n" * 900_000)]), "pdf-too-large"),
    "a path without end": (lambda: page([packed(b"1 1 9 9 re\n" * 300_000)]), "pdf-too-large"),
    "numbers without end": (lambda: page([packed(b"1 " * 9_000_000)]), "pdf-too-large"),
    "strings in strings": (lambda: page([packed(b"(" * 9_000_000)]), "pdf-unreadable"),
    "arrays in arrays": (lambda: page([packed(b"[" * 9_000_000)]), "pdf-too-large"),
    "saved without end": (lambda: page([packed(b"q " * 2_000_000)]), "pdf-too-large"),
    "forms in forms": (form_tree, "pdf-too-large"),
    "a form in itself": (
        lambda: page(
            [stream(b"/F Do")],
            USES_5,
            (stream(b"/F Do", FORM + b"/Resources<</XObject<</F 5 0 R>>>>"),),
        ),
        "pdf-unreadable",
    ),
    "empty forms without end": (
        lambda: page([packed(b"/F Do " * 900_000)], USES_5, (stream(b"", FORM),)),
        "pdf-too-large",
    ),
    "letters that unpack": (
        lambda: page([stream(b"z" * 9_000_000 + b"~>", b"/Filter/ASCII85Decode")]),
        "pdf-too-large",
    ),
    "page tree in a ring": (
        lambda: pdf(
            [
                CATALOG,
                b"<</Type/Pages/Count 1/Kids[3 0 R]>>",
                b"<</Type/Pages/Count 1/Kids[2 0 R]>>",
            ]
        ),
        "pdf-unreadable",
    ),
    "a page a hundred thousand times": (
        lambda: pdf([CATALOG, b"<</Type/Pages/Count 1/Kids[%s]>>" % (b"3 0 R " * 99_000), LEAF]),
        "pdf-too-large",
    ),
    "a count of a thousand million": (
        lambda: pdf([CATALOG, b"<</Type/Pages/Count 1000000000/Kids[3 0 R]>>", LEAF]),
        "read",
    ),
    "nested arrays": (
        lambda: pdf([CATALOG, b"<</Type/Pages/Count 1/Kids%s>>" % (b"[" * 100_000), LEAF]),
        "pdf-unreadable",
    ),
    "contents nested too deep to follow": (lambda: page([b"[" * 100_000]), "pdf-unreadable"),
    "contents that refer to themselves": (lambda: page([b"4 0 R"]), "pdf-unreadable"),
    "a page that is a kilometre wide": (
        lambda: pdf(
            [
                CATALOG,
                b"<</Type/Pages/Count 1/Kids[3 0 R]>>",
                LEAF.replace(b"595", b"3000000"),
            ]
        ),
        "pdf-unreadable",
    ),
    "a list of four million parts": (
        lambda: (
            b"%PDF-1.7\nxref\n0 4000000\n"
            + b"0000000009 00000 f \n" * 4_000_000
            + b"trailer\n<</Size 5>>\nstartxref\n9\n%%EOF\n"
        ),
        "pdf-too-large",
    ),
    "nothing but newlines": (
        lambda: b"%PDF-1.7\n" + b"\n" * 90_000_000 + b"%%EOF",
        "pdf-unreadable",
    ),
    "a chain of tables that bites its tail": (
        lambda: b"%PDF-1.7\nxref\n0 0\ntrailer\n<</Size 5/Prev 9>>\nstartxref\n9\n%%EOF\n",
        "pdf-unreadable",
    ),
}


@pytest.mark.slow
def test_a_hostile_file_is_refused_in_seconds_and_in_bounded_memory(tmp_path):
    """One process reads all of them, since starting one takes longer than most of them."""
    parts = {name: 1 if name == WHOLE else PART for name in HOSTILE}
    for number, (name, (made, _)) in enumerate(HOSTILE.items()):
        (tmp_path / f"{number:02}.{parts[name]}").write_bytes(made())
    done = subprocess.run(
        [sys.executable, "-c", CHILD, *sorted(tmp_path.iterdir())],
        cwd=ROOT,
        capture_output=True,
        check=False,
    )
    told = dict(zip(HOSTILE, map(json.loads, done.stdout.splitlines()), strict=False))
    assert {name: outcome for name, (outcome, *_) in told.items()} == {
        name: expected for name, (_, expected) in HOSTILE.items()
    }, f"the process ended with {done.returncode}"
    assert done.stderr == b""
    too_much = {
        name: (seconds, megabytes)
        for name, (_, seconds, megabytes) in told.items()
        if seconds >= SECONDS / parts[name] or megabytes >= MEGABYTES
    }
    assert too_much == {}


def test_what_the_pdf_library_spends_minutes_on_is_ended_by_the_clock():
    """Dictionaries nested millions deep keep the library busy for minutes, or fill memory."""
    data = b"%PDF-1.7\n1 0 obj\n" + b"<</A" * 20_000_000 + b"\nstartxref\n9\n%%EOF\n"
    with pytest.raises(InputError):
        read_apart(data, seconds=SECONDS)
