"""Opening files that are not as they should be, and taking the job out of those that are."""

import io
import subprocess
import sys
import zlib

import pikepdf
import pytest

from joinery_templates.errors import InputError
from joinery_templates.measure.document import attached_job, open_document
from joinery_templates.measure.reader import read_apart
from tests.measure.measured_pages import read, template

JOB = b'units = "mm"\n# \xc3\xa6\n'


def saved(pdf: pikepdf.Pdf, **options: object) -> bytes:
    buffer = io.BytesIO()
    pdf.save(buffer, **options)
    return buffer.getvalue()


def with_attachments(**attachments: bytes) -> bytes:
    pdf = pikepdf.new()
    pdf.add_blank_page()
    for name, data in attachments.items():
        pdf.attachments[name] = pikepdf.AttachedFileSpec(pdf, data, filename=name)
    return saved(pdf)


def code_of(data: bytes) -> str:
    with pytest.raises(InputError) as caught:
        open_document(data)
    (finding,) = caught.value.findings
    assert finding.message.startswith("This PDF")
    assert finding.remedy
    return finding.code


def test_the_job_comes_back_byte_for_byte():
    others = {f"other{number}.txt": b"no" for number in range(100)}
    data = with_attachments(**{"job.toml": JOB, "job.toml.bak": b"no", **others})
    assert attached_job(open_document(data))[0] == JOB


def test_a_file_of_another_name_is_not_the_job():
    assert attached_job(open_document(with_attachments(**{"Job.toml": JOB}))) == (None, "")
    assert attached_job(open_document(with_attachments(**{"job.toml.bak": JOB}))) == (None, "")
    assert attached_job(open_document(template())) == (None, "")


def test_a_job_over_a_megabyte_is_refused():
    document = open_document(with_attachments(**{"job.toml": b"#" * 1_000_001}))
    with pytest.raises(InputError) as caught:
        attached_job(document)
    assert caught.value.findings[0].code == "pdf-too-large"
    fits = open_document(with_attachments(**{"job.toml": b"#" * 999_999}))
    assert attached_job(fits)[0] == b"#" * 999_999


def test_a_locked_file_is_refused_even_with_an_empty_password():
    pdf = pikepdf.new()
    pdf.add_blank_page()
    for password in ("", "secret"):
        locked = saved(pdf, encryption=pikepdf.Encryption(owner="owner", user=password))
        assert code_of(locked) == "pdf-encrypted"


def test_empty_files_are_told_apart_from_damaged_ones():
    assert code_of(b"") == "pdf-empty"
    assert code_of(saved(pikepdf.new())) == "pdf-empty"
    assert code_of(b"PK\x03\x04" * 100) == "pdf-unreadable"
    assert code_of(template()[:-30]) == "pdf-unreadable"
    assert code_of(template()[500:]) == "pdf-unreadable"


def test_a_file_over_100_mb_is_refused():
    assert code_of(bytes(100_000_001)) == "pdf-too-large"


def test_odd_packings_are_refused_in_words():
    """A predictor is for pictures; on drawings it only serves to waste time."""
    pdf = pikepdf.new()
    pdf.add_blank_page()
    stream = pikepdf.Stream(pdf, b"")
    stream.write(
        zlib.compress(b"\x00abcd" * 9),
        filter=pikepdf.Name.FlateDecode,
        decode_parms=pikepdf.Dictionary(Predictor=14, Columns=4),
    )
    pdf.pages[0].Contents = pdf.make_indirect(stream)
    with pytest.raises(InputError, match="packed in a way"):
        read(saved(pdf, stream_decode_level=pikepdf.StreamDecodeLevel.none))


def test_reading_apart_gives_the_same():
    data = template(2)
    apart = read_apart(data)
    assert apart.pages == read(data)
    assert apart.job is None
    assert read_apart(with_attachments(**{"job.toml": JOB})).job == JOB


def test_reading_apart_refuses_in_the_same_words():
    with pytest.raises(InputError) as near:
        open_document(template()[:-30])
    with pytest.raises(InputError) as apart:
        read_apart(template()[:-30])
    assert apart.value.findings == near.value.findings


def test_reading_apart_ends_when_its_time_is_over():
    with pytest.raises(InputError, match=r"longer than 0\.001 seconds"):
        read_apart(template(), seconds=0.001)


def test_the_reading_process_cannot_take_all_memory():
    pytest.importorskip("resource", reason="this system cannot limit memory")
    code = (
        "from joinery_templates.measure import reader\n"
        "reader._limit_memory()\n"
        "bytearray(reader.MEMORY)"
    )
    done = subprocess.run([sys.executable, "-c", code], check=False, capture_output=True)
    assert done.returncode
    assert b"MemoryError" in done.stderr


def test_the_pdf_library_is_not_loaded_before_a_pdf_is_opened():
    code = (
        "import sys, joinery_templates.measure.compare, joinery_templates.measure.reader\n"
        "assert 'pypdf' not in sys.modules"
    )
    subprocess.run([sys.executable, "-c", code], check=True, cwd=".")


def test_a_bare_file_has_pages_but_no_lettering():
    (page,) = read(with_attachments())
    assert page.segments == ()
    assert not page.text_seen
