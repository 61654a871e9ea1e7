"""Opening a PDF that may be damaged or hostile, and taking the job file out of it.

Every touch of the PDF library goes through `guarded`: whatever it raises comes
out as an `InputError` in plain words. The library is imported late, because it
costs a tenth of a second that other commands need not pay.
"""

import io
import logging
import re
import struct
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import Any

from joinery_templates.errors import InputError, mistake
from joinery_templates.measure.allowance import (
    LARGEST_FILE,
    LARGEST_JOB,
    LARGEST_STREAM,
    LARGEST_STRUCTURE,
    MOST_PAGES,
    Allowance,
    too_large,
)

LONGEST_DESCRIPTION = 200
JOB_NAME = "job.toml"
_END_OF_FILE = 4_096
_MOST_NODES = 2_000
_MOST_OBJECTS = 50_000
_REMEDY = "Save or download the PDF again; if it is still refused, it is damaged."
_ODDLY_PACKED = "it is packed in a way that is not supported"
_PACKINGS = (None, "/FlateDecode", "/Fl", "/ASCII85Decode", "/A85", "/ASCIIHexDecode", "/AHx")
_SLOW_PACKINGS = ("/ASCII85Decode", "/A85")
_DAMAGE = (
    ArithmeticError,
    AssertionError,
    AttributeError,
    EOFError,
    LookupError,
    MemoryError,
    NotImplementedError,
    OSError,
    RecursionError,
    TypeError,
    ValueError,
    struct.error,
    zlib.error,
)


@dataclass(frozen=True, slots=True)
class Document:
    """An opened PDF; only this room looks inside.

    Attributes:
        reader: the library's own reader.
        pages: the library's page objects, in order, inherited entries filled in.
    """

    reader: Any = field(repr=False)
    pages: tuple[Any, ...] = field(repr=False)


def open_document(data: bytes) -> Document:
    """Open a PDF held in memory.

    Raises:
        InputError: `pdf-empty`, `pdf-too-large`, `pdf-encrypted` or `pdf-unreadable`.
    """
    _check_outside(data)
    with guarded():
        from pypdf import PdfReader

        reader = PdfReader(io.BytesIO(data), xref_stream_maximum_entries=_MOST_OBJECTS)
        if reader.is_encrypted:
            raise InputError(
                mistake(
                    "pdf-encrypted",
                    "This PDF is locked with a password.",
                    "Give an unlocked copy; the templates are never written locked.",
                )
            )
        pages = tuple(reader.pages)
    if not pages:
        raise InputError(mistake("pdf-empty", "This PDF has no pages.", _REMEDY))
    if len(pages) > MOST_PAGES:
        raise too_large(f"over {MOST_PAGES} pages")
    return Document(reader, pages)


def attached_job(document: Document) -> bytes | None:
    """The attached file named exactly ``job.toml``, or None if there is none.

    Raises:
        InputError: `pdf-unreadable`, or `pdf-too-large` above 1 MB.
    """
    with guarded():
        content = entry(entry(_described_job(document), "/EF"), "/F")
        if content is None:
            return None
        return unpacked(content, Allowance(decoded=LARGEST_JOB), LARGEST_JOB)


def attached_description(document: Document) -> str:
    """What is said of the attached job file; empty where nothing is.

    Raises:
        InputError: `pdf-unreadable`.
    """
    with guarded():
        return str(entry(_described_job(document), "/Desc") or "")[:LONGEST_DESCRIPTION]


def _described_job(document: Document) -> object:
    names = entry(entry(document.reader.root_object, "/Names"), "/EmbeddedFiles")
    return next((told for name, told in _name_tree(names) if str(name) == JOB_NAME), None)


def unpacked(stream: object, allowance: Allowance, largest: int = LARGEST_STREAM) -> bytes:
    """The bytes of a stream; only the packings in use for drawings and text are taken.

    Raises:
        InputError: `pdf-too-large` or `pdf-unreadable`.
    """
    if not hasattr(stream, "get_data"):
        raise unreadable("a part of it is missing")
    filters = entry(stream, "/Filter")
    for packing in _as_list(filters):
        if resolved(packing) not in _PACKINGS:
            raise unreadable(_ODDLY_PACKED)
        if resolved(packing) in _SLOW_PACKINGS:
            allowance.spend_decoded_slowly(len(getattr(stream, "_data", b"")))
    for parameters in _as_list(entry(stream, "/DecodeParms")):
        if entry(resolved(parameters), "/Predictor") not in (None, 1):
            raise unreadable(_ODDLY_PACKED)
    with guarded(largest):
        data = bytes(stream.get_data())
    allowance.spend_decoded(len(data))
    return data


def unreadable(why: str) -> InputError:
    """The refusal of a damaged file."""
    return InputError(mistake("pdf-unreadable", f"This PDF cannot be read: {why}.", _REMEDY))


def entry(holder: object, key: str) -> object:
    """An entry of a PDF dictionary, references followed; None if there is none."""
    return resolved(holder.get(key)) if isinstance(holder, dict) else None


def resolved(value: object) -> object:
    """The object behind a reference, or the value itself; a PDF's null is None."""
    from pypdf.generic import NullObject

    found: object = value.get_object() if hasattr(value, "get_object") else value
    return None if isinstance(found, NullObject) else found


@contextmanager
def guarded(largest_stream: int = LARGEST_STRUCTURE) -> Iterator[None]:
    """Keep the PDF library quiet, within limits, and its failures in plain words.

    Raises:
        InputError: `pdf-too-large` where a limit was reached, else `pdf-unreadable`.
    """
    from pypdf import Configuration, apply_configuration
    from pypdf.errors import DependencyError, LimitReachedError, PyPdfError

    logging.getLogger("pypdf").setLevel(logging.CRITICAL + 1)
    limits = Configuration(
        maximum_declared_stream_length=LARGEST_STREAM,
        zlib_maximum_output_length=largest_stream,
        lzw_maximum_output_length=largest_stream // 4,
        run_length_maximum_output_length=largest_stream,
        brotli_maximum_output_length=largest_stream,
        zlib_maximum_recovery_input_length=10_000,
        stream_filters_maximum_length=3,
        page_tree_maximum_entries=2 * MOST_PAGES,
        page_tree_maximum_page_entries=20 * MOST_PAGES,
    )
    try:
        with apply_configuration(limits):
            yield
    except LimitReachedError as problem:
        if "Recovery" in str(problem):  # it gave up mending damaged compression
            raise unreadable("its structure is damaged") from problem
        raise too_large("it goes over a limit of the reader") from problem
    except DependencyError as problem:
        raise unreadable(_ODDLY_PACKED) from problem
    except (PyPdfError, *_DAMAGE) as problem:
        raise unreadable("its structure is damaged") from problem


def _check_outside(data: bytes) -> None:
    """What can be told without understanding the file, before the library spends minutes."""
    if not data:
        raise InputError(mistake("pdf-empty", "This PDF is empty.", _REMEDY))
    if len(data) > LARGEST_FILE:
        raise too_large("it is over 100 MB")
    if b"%PDF-" not in data[:1024]:
        raise unreadable("it does not begin like a PDF")
    if not re.search(rb"startxref\s+\d+\s+%%EOF", data[-_END_OF_FILE:]):
        raise unreadable("its end is missing")
    listed = data.count(b" 00000 n") + data.count(b" 00000 f")
    if data.count(b"obj") > 2 * _MOST_OBJECTS or listed > _MOST_OBJECTS:
        raise too_large("more parts than any template")
    if data.count(b"trailer") > 1_000 or data.count(b"startxref") > 1_000:
        raise too_large("it was changed more often than is reasonable")


def _as_list(value: object) -> list[object]:
    return value if isinstance(value, list) else [value]


def _name_tree(root: object) -> Iterator[tuple[object, object]]:
    """All pairs of a name tree; loops and very large trees are refused."""
    waiting: list[object] = [root]
    seen = 0
    while waiting:
        node = waiting.pop()
        seen += 1
        if seen > _MOST_NODES:
            raise too_large("its list of attachments")
        names = entry(node, "/Names")
        if isinstance(names, list):
            pairs = zip(names[::2], names[1::2], strict=False)
            yield from ((resolved(name), resolved(value)) for name, value in pairs)
        kids = entry(node, "/Kids")
        if isinstance(kids, list):
            waiting.extend(resolved(kid) for kid in kids[:_MOST_NODES])
