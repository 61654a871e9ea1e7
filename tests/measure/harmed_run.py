"""Runs `measure` on one harmed file after the other in this one process, and tells of each.

Called by its test as a program, with a file and a number of harms; the files come from a
seeded chance, so that a failure can be repeated.
"""

import io
import json
import random
import re
import sys
import time
from collections.abc import Callable
from pathlib import Path
from unittest import mock

import pikepdf

from joinery_templates.measure import reader
from tests.cli.command_line import run
from tests.measure.laid_out_once import laid_out_once

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
    for found in sorted(chance.sample(numbers, chance.randint(1, 6)), key=lambda one: -one.start()):
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


HARMS: list[Callable[[bytes, Chance], bytes]] = [
    flipped, cut, ended, doubled, renumbered, renumbered, reordered,
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


def harmed(data: bytes, count: int, seed: int) -> list[bytes]:
    chance, packed_and_open = random.Random(seed), bases(data)
    return [
        chance.choice(HARMS)(packed_and_open[number % 3 == 0], chance) for number in range(count)
    ]


def most_megabytes() -> float:
    """The most memory that this process has filled.

    Not ru_maxrss, in which a process inherits the size of the one that started it.
    """
    status = Path("/proc/self/status").read_text(encoding="ascii")
    return int(status.split("VmHWM:")[1].split()[0]) / 1000


def main(given: Path, count: int, seed: int) -> None:
    out = given.with_name("harmed.pdf")
    with (
        laid_out_once(),
        mock.patch.object(
            reader, "read_apart", lambda data: reader._unpacked(reader._packed(data))
        ),
    ):
        for content in harmed(given.read_bytes(), count, seed):
            out.write_bytes(content)
            start = time.process_time()
            ran = run("measure", out)
            took = time.process_time() - start
            most = most_megabytes()
            told = {"code": ran.code, "seconds": took, "mb": most, "told": ran.messages[-600:]}
            print(json.dumps(told), flush=True)


if __name__ == "__main__":
    main(Path(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3]))
