"""Opening a PDF that may be damaged or hostile, and taking the job file out of it.

Every touch of the PDF library goes through `guarded`: whatever it raises comes
out as an `InputError` in plain words. The library is imported late, because it
costs a tenth of a second that other commands need not pay.
"""

import io
import logging
import re
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from msgspec import Struct

from joinery_templates.errors import InputError, refusal
from joinery_templates.measure.allowance import (
    BYTE,
    LARGEST_FILE,
    LARGEST_JOB,
    LARGEST_STREAM,
    LARGEST_STRUCTURE,
    MOST_PAGES,
    SLOW_BYTE,
    Allowance,
    too_large,
)

LONGEST_DESCRIPTION = 200
JOB_NAME = "job.toml"
_END_OF_FILE = 4_096
_MOST_OBJECTS = 50_000
_REMEDY = "Save or download the PDF again; if it is still refused, it is damaged."
_ODDLY_PACKED = "it is packed in a way that is not supported"
_PACKINGS = ("/FlateDecode", "/Fl", "/ASCIIHexDecode", "/AHx")
_SLOW_PACKINGS = ("/ASCII85Decode", "/A85")


class Document(Struct, frozen=True):
    """An opened PDF; only this room looks inside.

    Attributes:
        reader: the library's own reader.
        pages: the library's page objects, in order, inherited entries filled in.
    """

    reader: Any
    pages: tuple[Any, ...]


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
            raise refusal(
                "pdf-encrypted",
                "This PDF is locked with a password.",
                "Give an unlocked copy; the templates are never written locked.",
            )
        pages = tuple(reader.pages)
    if not pages:
        raise refusal("pdf-empty", "This PDF has no pages.", _REMEDY)
    if len(pages) > MOST_PAGES:
        raise too_large(f"over {MOST_PAGES} pages")
    return Document(reader, pages)


def attached_job(document: Document) -> tuple[bytes | None, str]:
    """The attached file named exactly ``job.toml``, and what is said of it.

    None where there is no such file; empty where nothing is said.

    Raises:
        InputError: `pdf-unreadable`, or `pdf-too-large` above 1 MB.
    """
    with guarded():
        for attachment in document.reader.attachment_list:
            if attachment.name == JOB_NAME:
                told = attachment.pdf_object
                said = str(entry(told, "/Desc") or "")[:LONGEST_DESCRIPTION]
                content = entry(entry(told, "/EF"), "/F")
                return unpacked(content, Allowance(), LARGEST_JOB), said
        return None, ""


def unpacked(stream: object, allowance: Allowance, largest: int = LARGEST_STREAM) -> bytes:
    """The bytes of a stream; only the packings in use for drawings and text are taken.

    Raises:
        InputError: `pdf-too-large` or `pdf-unreadable`.
    """
    if not hasattr(stream, "get_data"):
        raise unreadable("a part of it is missing")
    for packing in listed(entry(stream, "/Filter")):
        if packing in _SLOW_PACKINGS:
            allowance.spend(len(getattr(stream, "_data", b"")), SLOW_BYTE)
        elif packing not in _PACKINGS:
            raise unreadable(_ODDLY_PACKED)
    for parameters in listed(entry(stream, "/DecodeParms")):
        if entry(parameters, "/Predictor") not in (None, 1):
            raise unreadable(_ODDLY_PACKED)
    with guarded(largest):
        data = bytes(stream.get_data())
    if len(data) > largest:
        raise too_large("a part of it unpacks to an unreasonable size")
    allowance.spend(len(data), BYTE)
    return data


def unreadable(why: str) -> InputError:
    """The refusal of a damaged file."""
    return refusal("pdf-unreadable", f"This PDF cannot be read: {why}.", _REMEDY)


def entry(holder: object, key: str) -> Any:
    """An entry of a PDF dictionary, references followed; None if there is none."""
    return resolved(holder.get(key)) if isinstance(holder, dict) else None


def resolved(value: Any) -> Any:
    """The object behind a reference, or the value itself; a PDF's null is None."""
    from pypdf.generic import NullObject

    found = value.get_object() if hasattr(value, "get_object") else value
    return None if isinstance(found, NullObject) else found


def listed(value: object) -> list[Any]:
    """What may stand alone or in a list, as a list, references followed and nulls left out."""
    several = value if isinstance(value, list) else [value]
    return [one for one in map(resolved, several) if one is not None]


@contextmanager
def guarded(largest_stream: int = LARGEST_STRUCTURE) -> Iterator[None]:
    """Keep the PDF library quiet, within limits, and its failures in plain words.

    So too whatever fails in here over numbers or parts that are missing or none.

    Raises:
        InputError: `pdf-too-large` where a limit was reached, else `pdf-unreadable`.
    """
    from pypdf import Configuration, apply_configuration
    from pypdf.errors import DependencyError, LimitReachedError

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
    except InputError:
        raise
    except LimitReachedError as problem:
        if "Recovery" in str(problem):  # it gave up mending damaged compression
            raise unreadable("its structure is damaged") from problem
        raise too_large("it goes over a limit of the reader") from problem
    except DependencyError as problem:
        raise unreadable(_ODDLY_PACKED) from problem
    except Exception as problem:
        raise unreadable("its structure is damaged") from problem


def _check_outside(data: bytes) -> None:
    """What can be told without understanding the file, before the library spends minutes."""
    if not data:
        raise refusal("pdf-empty", "This PDF is empty.", _REMEDY)
    if len(data) > LARGEST_FILE:
        raise too_large("it is over 100 MB")
    if b"%PDF-" not in data[:1024]:
        raise unreadable("it does not begin like a PDF")
    if not re.search(rb"startxref\s+\d+\s+%%EOF", data[-_END_OF_FILE:]):
        raise unreadable("its end is missing")
    parts = data.count(b" 00000 n") + data.count(b" 00000 f")
    if data.count(b"obj") > 2 * _MOST_OBJECTS or parts > _MOST_OBJECTS:
        raise too_large("more parts than any template")
    if data.count(b"trailer") > 1_000 or data.count(b"startxref") > 1_000:
        raise too_large("it was changed more often than is reasonable")
