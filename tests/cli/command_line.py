"""Running the real command line: in this process for speed, or in one of its own."""

import io
import os
import subprocess
import sys
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from unittest import mock

from joinery_templates import cli
from joinery_templates.measure import reader

TOP = Path(__file__).parents[2]
SAMPLES = sorted((TOP / "sample_jobs").glob("*.toml"))
SAMPLE = TOP / "sample_jobs" / "handrail.toml"
"""The one that is drawn soonest."""


@dataclass(frozen=True, slots=True)
class Ran:
    """What a run left: exit code, standard output, messages."""

    code: int
    output: bytes
    messages: str

    @property
    def text(self) -> str:
        """Standard output as text."""
        return self.output.decode()


def read_here(data: bytes) -> reader.ReadBack:
    """A PDF, read in this process: to start another takes longer than to read most of them."""
    return reader._unpacked(reader._packed(data))


def run(*words: object, given: bytes = b"") -> Ran:
    """Run the program in this process, through its real entry; PDFs too are read here."""
    out, err = (io.TextIOWrapper(io.BytesIO(), "utf-8", write_through=True) for _ in range(2))
    stdin = io.TextIOWrapper(io.BytesIO(given), "utf-8")
    argv = ["joinery-templates", *map(str, words)]
    with (
        mock.patch.multiple(sys, argv=argv, stdin=stdin, stdout=out, stderr=err),
        mock.patch.object(reader, "read_apart", read_here),
    ):
        code = cli.run()
    for stream in (out, err):
        stream.flush()
    return Ran(code, out.buffer.getvalue(), err.buffer.getvalue().decode())


def run_apart(*words: object, given: bytes = b"", **settings: object) -> Ran:
    """Run the program, or `code` in its place, in a process of its own."""
    environment = {**os.environ, "PYTHONPATH": str(TOP), "PYTHONUTF8": "1"}
    extra, code = settings.pop("env", {}), settings.pop("code", None)
    assert isinstance(extra, Mapping)
    start = ["-m", "joinery_templates"] if code is None else ["-c", str(code)]
    done = subprocess.run(
        [sys.executable, *start, *map(str, words)],
        input=given,
        capture_output=True,
        env={**environment, **extra},
        timeout=300,
        check=False,
        **settings,
    )
    return Ran(done.returncode, done.stdout, done.stderr.decode())
