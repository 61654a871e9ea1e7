"""A PDF of ours that is harmed, measured and drawn again."""

import io
import random
import re
from collections.abc import Callable
from contextlib import ExitStack
from functools import cache
from pathlib import Path

import pikepdf

from tests.cli.command_line import Ran, run
from tests.exhaustive.watched import CLOCK, Played, told_wrongly
from tests.measure.laid_out_once import laid_out_once
from tests.measure.test_measure_hostile import page, stream
from tests.printers.small_job import SMALL_JOB

MOST_MB = 500
"""In the process that reads a PDF, which sets itself a limit."""
JOB = SMALL_JOB.replace(
    "[boards", '[paper]\nsize = "105 x 148 mm"\nmargin = 5\n[boards', 1
).replace("170", "60")
"""On small paper, so that hundreds are read in half a minute."""
PLAIN = page([stream(b"q 1 0 0 1 5 5 cm 0 0 m 9 9 l S 1 1 9 9 re B Q BT /F1 9 Tf (a) Tj ET")])
"""A page that is not ours, in which harms hit the operators more often."""
NUMBER = re.compile(rb"(?<![\w.])-?\d+\.?\d*(?![\w.])")
ODD_NUMBERS = [
    b"0", b"-1", b"1e9", b"99999999999", b"nan", b"", b"--5", b"1/0", b".", b"0.0000001",
    b"[", b"<<", b"/X", b"(", b"2147483648", b"-0.5",
]  # fmt: skip
OPERATORS = [b" q\n", b" Q\n", b" cm\n", b" re\n", b" W n\n", b" S\n", b" Do\n", b" l\n", b" m\n"]
Chance = random.Random


def flipped(data: bytes, chance: Chance) -> bytes:
    out = bytearray(data)
    for _ in range(chance.randint(1, 20)):
        out[chance.randrange(len(out))] = chance.randrange(256)
    return bytes(out)


def cut(data: bytes, chance: Chance) -> bytes:
    start = chance.randrange(len(data))
    return data[:start] + data[start + chance.randint(1, 2000) :]


def ended(data: bytes, chance: Chance) -> bytes:
    return data[: chance.randrange(len(data))]


def doubled(data: bytes, chance: Chance) -> bytes:
    start, place = chance.randrange(len(data)), chance.randrange(len(data))
    return data[:place] + data[start : start + chance.randint(1, 3000)] + data[place:]


def renumbered(data: bytes, chance: Chance) -> bytes:
    numbers = list(NUMBER.finditer(data))
    some = chance.sample(numbers, min(len(numbers), chance.randint(1, 6)))
    for found in sorted(some, key=lambda one: -one.start()):
        odd = chance.choice(ODD_NUMBERS)
        data = data[: found.start()] + odd + data[found.end() :]
    return data


def reordered(data: bytes, chance: Chance) -> bytes:
    for _ in range(chance.randint(1, 4)):
        old, new = chance.sample(OPERATORS, 2)
        places = [found.start() for found in re.finditer(re.escape(old), data)]
        if places:
            place = chance.choice(places)
            data = data[:place] + new + data[place + len(old) :]
    return data


def opened(data: bytes, chance: Chance) -> bytes:
    """Something is begun, often and deep, and never ended."""
    place = chance.randrange(len(data))
    begun = (b"[" * 5_000, b"<</A" * 3_000, b"(" * 999, b" 0 R", b"endobj", b"stream", b"q " * 999)
    return data[:place] + chance.choice(begun) + data[place:]


HARMS: list[Callable[[bytes, Chance], bytes]] = [
    flipped, cut, ended, doubled, renumbered, renumbered, reordered, opened,
]  # fmt: skip


def bases(data: bytes) -> list[bytes]:
    """The last page of the file, packed as they were, and with all that is packed laid open."""
    out = []
    for compressed in (True, False):
        with pikepdf.open(io.BytesIO(data)) as pdf:
            del pdf.pages[:-1]
            buffer = io.BytesIO()
            level = pikepdf.StreamDecodeLevel.none
            if not compressed:
                level = pikepdf.StreamDecodeLevel.generalized
            pdf.save(buffer, compress_streams=compressed, stream_decode_level=level)
        out.append(buffer.getvalue())
    return out


@cache
def sample() -> bytes:
    """The templates of a small job."""
    return run("draw", "-", "-o", "-", given=JOB.encode()).output


@cache
def whole() -> list[bytes]:
    return [*bases(sample()), PLAIN]


def harmed(chance: Chance) -> bytes:
    data = chance.choice(whole())
    for _ in range(chance.choice((1, 1, 2, 4))):
        if data:
            data = chance.choice(HARMS)(data, chance)
    return data


_KEPT = ExitStack()


@cache
def _laid_out_once() -> None:
    """For as long as this process runs."""
    _KEPT.enter_context(laid_out_once())


def played(chance: Chance, folder: Path) -> Played:
    _laid_out_once()
    content = harmed(chance)
    given = folder / "harmed.pdf"
    given.write_bytes(content)
    return answers(content, given)


def answers(content: bytes, given: Path, program: Callable[..., Ran] = run) -> Played:
    """What `measure` and `draw` make of a harmed file, and what is wrong with that."""
    measured = program("measure", given)
    CLOCK.start_anew()
    new = given.with_name("new.pdf")
    drawn = program("draw", given, "-o", new)
    faults = []
    for ran in (measured, drawn):
        faults += told_wrongly(ran.code, ran.messages)
        if (ran.code == 2) != ("ERROR" in ran.messages):
            faults.append(f"ended with {ran.code} and said: {ran.messages[-500:]}")
    if measured.code == 0:
        faults.append("true to size, though one page is never the whole of it")
    if drawn.code == 1:
        faults.append(f"the machine is said to have failed: {drawn.messages[-500:]}")
    if new.exists() != (drawn.code == 0):
        faults.append(f"draw ended with {drawn.code}; written: {new.exists()}")
    left = {path.name for path in given.parent.iterdir()} - {given.name, new.name}
    if left or given.read_bytes() != content:
        faults.append(f"left behind: {left}")
    return f"{len(content)} bytes: measure {measured.code}, draw {drawn.code}", faults
