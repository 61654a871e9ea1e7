"""Speed, told as ratios within one run: ``python tests/benchmark.py``.

The baseline is a bare start of the command line (``--version``): what any command
costs before it does anything. Jobs of growing size are told as multiples of the smallest:
the cost is to grow no faster than the size, so that four times the work takes at most four
times as long. Not run by pytest: a busy machine is no fault.
"""

import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).parents[1]
RUNS = 5


def seconds(*words: str) -> float:
    """Median wall time of a command over several runs."""
    times = []
    for _ in range(RUNS):
        start = time.perf_counter()
        subprocess.run(
            [sys.executable, "-m", "joinery_templates", *words],
            check=True,
            capture_output=True,
            cwd=ROOT,
        )
        times.append(time.perf_counter() - start)
    return statistics.median(times)


BOARD = """
[boards."{name}"]
width = {width}
thickness = {thickness}
"""
JOINT = """
[[joints]]
kind = "{kind}"
name = "{name}"
corners = [{corners}]
tail_board = "{tails}"
pin_board = "{pins}"
tails = {count}
"""


def board(name: str, width: int, thickness: int) -> str:
    """A board of a job."""
    return BOARD.format(name=name, width=width, thickness=thickness)


def joint(kind: str, tails: str, pins: str, count: int, corners: list[str]) -> str:
    """A joint of a job at corners that are named."""
    listed = ", ".join(f'"{corner}"' for corner in corners)
    name = f"{tails} {pins}"
    return JOINT.format(kind=kind, name=name, corners=listed, tails=tails, pins=pins, count=count)


def drawers(count: int) -> str:
    """Drawers of several widths, each with a lapped front and a through back."""
    text = 'units = "mm"\n'
    for number in range(1, count + 1):
        side, front, back = (f"{part} {number}" for part in ("side", "front", "back"))
        for name, thickness in ((side, 12), (front, 20), (back, 10)):
            text += board(name, 90 + 30 * (number % 4) + number, thickness)
    for number in range(1, count + 1):
        side, front, back = (f"{part} {number}" for part in ("side", "front", "back"))
        for kind, mate in (("lapped-dovetail", front), ("through-dovetail", back)):
            corners = [f"{mate} {hand}" for hand in ("left", "right")]
            text += joint(kind, side, mate, 3, corners)
    return text


def corners(count: int) -> str:
    """One joint at many corners."""
    places = [f"Place {number}" for number in range(1, count + 1)]
    boards = board("side", 140, 18) + board("end", 140, 20)
    return f'units = "mm"{boards}{joint("through-dovetail", "side", "end", 4, places)}'


def carcase(width: int) -> str:
    """A corner of wide boards with a tail every 50 mm, on small paper."""
    boards = board("side", width, 20) + board("top", width, 20)
    cut = joint("through-dovetail", "side", "top", width // 50, ["A"])
    return f'units = "mm"\n[paper]\nsize = "A5"\n{boards}{cut}'


GROWING = {"drawers": (drawers, (4, 8, 16)), "corners": (corners, (25, 50, 100))}
GROWING["mm of width and tails"] = (carcase, (750, 1500, 3000))
"""Jobs of growing size: what is counted, how such a job is written, and how many."""


def growth(folder: Path) -> None:
    """Print what larger jobs cost, as a multiple of the smallest of their kind."""
    for what, (written, sizes) in GROWING.items():
        smallest = 0.0
        for size in sizes:
            job = folder / "job.toml"
            job.write_text(written(size), encoding="utf-8")
            taken = seconds("draw", str(job), "-o", str(folder / "out.pdf"))
            smallest = smallest or taken
            times = size / sizes[0]
            print(f"{size:>5} {what:<22} {taken / smallest:6.2f} x for {times:g} x the work")


def main() -> None:
    """Print each command's time as a multiple of the bare start."""
    base = seconds("--version")
    print(f"bare start {base:.3f} s = 1")
    with tempfile.TemporaryDirectory() as folder:
        out = str(Path(folder) / "out.pdf")
        rows = {"check tea_box": ("check", "sample_jobs/tea_box.toml")}
        for job in sorted((ROOT / "sample_jobs").glob("*.toml")):
            rows[f"draw {job.stem}"] = ("draw", str(job), "-o", out)
        for name, words in rows.items():
            print(f"{name:<28} {seconds(*words) / base:6.2f} x")
        print(f"{'measure (last drawn)':<28} {seconds('measure', out) / base:6.2f} x")
        growth(Path(folder))


if __name__ == "__main__":
    main()
