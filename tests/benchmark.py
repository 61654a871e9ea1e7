"""Speed and memory, told as ratios within one run: ``python tests/benchmark.py``.

Not run by pytest: a busy machine is no fault. Each figure is the least processor time, or
the peak memory, of whole processes over several runs. The baselines:

(a) *bare*: a short script that draws with reportlab the very strokes and words of the
    same pages, read back from their PDF, and works out nothing;
(b) importing what any such program imports: ``reportlab.pdfgen.canvas`` and ``typer``;
(c) a typer program that does nothing.

Growth is told as the power of the size that fits the times best beyond the start, by least
squares over the logarithms: n log n comes to 1.1 or so.
"""

import argparse
import compileall
import marshal
import math
import os
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby
from pathlib import Path
from statistics import linear_regression

ROOT = Path(__file__).parents[1]
FONTS = {"Bold": "DejaVuSansCondensed-Bold", "": "DejaVuSansCondensed"}
PROGRAM = ("-m", "joinery_templates")
NAMED = (
    "import sys; sys.argv = ['joinery-templates']; from joinery_templates.cli import main; main()"
)
"""The program by its own name, which completion asks for."""

BARE = """
import marshal, sys
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas
with open(sys.argv[1], "rb") as file:
    size, pages = marshal.load(file)
for name in ("DejaVuSansCondensed", "DejaVuSansCondensed-Bold"):
    pdfmetrics.registerFont(TTFont(name, f"{sys.argv[3]}/{name}.ttf"))
canvas = Canvas(sys.argv[2], pagesize=size, pageCompression=1, invariant=1,
                initialFontName="DejaVuSansCondensed")
for strokes, words in pages:
    for width, dash, lines in strokes:
        canvas.setLineWidth(width)
        canvas.setDash(dash)
        canvas.lines(lines)
    for font, size, runs in words:
        canvas.setFont(font, size)
        for (a, b, c, d, e, f), text in runs:
            canvas.saveState()
            canvas.transform(a, b, c, d, e, f)
            canvas.drawString(0, 0, text)
            canvas.restoreState()
    canvas.showPage()
canvas.save()
"""
IMPORTS = "import reportlab.pdfgen.canvas, typer"
EMPTY = """
import typer
app = typer.Typer(rich_markup_mode=None)
@app.command()
def nothing() -> None: ...
@app.command()
def more() -> None: ...
app(prog_name="joinery-templates")
"""
COMPLETION = {
    "_JOINERY_TEMPLATES_COMPLETE": "complete_bash",
    "COMP_WORDS": "joinery-templates ",
    "COMP_CWORD": "1",
}


@dataclass(frozen=True, slots=True)
class Cost:
    """What a process took: seconds of processor time, and MiB of memory at its peak."""

    seconds: float
    memory: float


def cost(*words: str, runs: int = 3, **environment: str) -> Cost:
    """The least cost of a Python process over several runs."""
    return min((_run(words, environment) for _ in range(runs)), key=lambda one: one.seconds)


def _run(words: tuple[str, ...], environment: dict[str, str]) -> Cost:
    process = subprocess.Popen(
        [sys.executable, *words],
        cwd=ROOT,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        env={**os.environ, "PYTHONPATH": str(ROOT), **environment},
    )
    _, status, used = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode:
        raise SystemExit(f"failed: {words}")
    return Cost(used.ru_utime + used.ru_stime, used.ru_maxrss / 1024)


def read_back(pdf: Path) -> tuple[tuple[float, float], list[object]]:
    """The paper's size in points, and of each page its strokes and words, by pens and fonts."""
    from pdfminer.high_level import extract_pages

    pages, size = [], (0.0, 0.0)
    for page in extract_pages(str(pdf), laparams=None):
        size = (page.width, page.height)
        strokes, signs = [], []
        for item in _items(page):
            if hasattr(item, "get_text"):
                signs.append(item)
            elif hasattr(item, "pts") and len(item.pts) == 2:
                width, dash = item.linewidth, item.dashing_style
                pattern = tuple(float(n) for n in dash[0]) if dash else ()
                strokes.append((width, pattern, (*item.pts[0], *item.pts[1])))
        drawn = [
            (width, list(dash), [line for _, _, line in group])
            for (width, dash), group in groupby(strokes, key=lambda one: one[:2])
        ]
        words = [
            (font, size_pt, [(matrix, text) for _, _, matrix, text in group])
            for (font, size_pt), group in groupby(_words(signs), key=lambda one: one[:2])
        ]
        pages.append((drawn, words))
    return size, pages


def _items(container: object) -> Iterator[object]:
    for item in container:
        if hasattr(item, "__iter__") and not hasattr(item, "get_text"):
            yield from _items(item)
        else:
            yield item


def _words(signs: list[object]) -> Iterator[tuple[str, float, tuple[float, ...], str]]:
    """Signs that follow each other in one line, as runs: font, size, matrix, text."""
    text, first, end = "", None, (0.0, 0.0)
    for sign in signs:
        a, b, *_, e, f = sign.matrix
        goes_on = first is not None and (
            (sign.fontname, _size(sign)) == (first.fontname, _size(first))
            and sign.matrix[:4] == first.matrix[:4]
            and math.dist((e, f), end) < 0.1
        )
        if not goes_on:
            if first is not None:
                yield _run_of(first, text)
            text, first = "", sign
        text += sign.get_text()
        end = (e + a * sign.adv, f + b * sign.adv)
    if first is not None:
        yield _run_of(first, text)


def _run_of(first: object, text: str) -> tuple[str, float, tuple[float, ...], str]:
    bold = "Bold" if "Bold" in first.fontname else ""
    return FONTS[bold], _size(first), first.matrix, text


def _size(sign: object) -> float:
    """The font's size: how high its box is, which lies where the line runs upwards."""
    return round(sign.height if abs(sign.matrix[0]) > abs(sign.matrix[1]) else sign.width, 3)


def job(boards: int, corners: int, tails: int = 4, width: int = 90) -> str:
    """A job of so many layouts, none like another, each at so many corners."""
    lines = ['title = "Benchmark"', "[paper]", 'size = "A4"']
    for number in range(boards):
        lines += [f"[boards.side{number}]", f"width = {width + number}", "thickness = 12"]
        lines += [f"[boards.end{number}]", f"width = {width + number}", "thickness = 11"]
    for number in range(boards):
        names = ", ".join(f'{{ name = "{number}-{n}" }}' for n in range(corners))
        lines += ["[[joints]]", 'kind = "through-dovetail"', f'name = "Box {number}"']
        lines += [f"corners = [{names}]", f'tail_board = "side{number}"']
        lines += [f'pin_board = "end{number}"', f"tails = {tails}"]
    return "\n".join(lines) + "\n"


def drawers(count: int) -> str:
    """Drawers, none like another, each with a lapped front and a through back."""
    boards, joints = ['title = "Chest"'], []
    for n in range(count):
        for part, thickness in (("side", 12), ("front", 20), ("back", 10)):
            width = 90 + 30 * (n % 4) + n
            boards += [f'[boards."{part} {n}"]', f"width = {width}", f"thickness = {thickness}"]
        for kind, mate in (("lapped-dovetail", "front"), ("through-dovetail", "back")):
            joints += ["[[joints]]", f'kind = "{kind}"', f'tail_board = "side {n}"']
            joints += [f'pin_board = "{mate} {n}"', f'name = "{mate} {n}"', "tails = 3"]
            joints += [f'corners = ["{mate} {n} left", "{mate} {n} right"]']
    return "\n".join([*boards, *joints]) + "\n"


class Bench:
    """One run's folder, and what is measured in it."""

    def __init__(self, folder: Path, runs: int) -> None:
        self.folder, self.runs = folder, runs
        (folder / "bare.py").write_text(BARE)

    def draw(self, name: str, text: str, runs: int = 0) -> tuple[Cost, Path]:
        """The cost of drawing a job, and its PDF."""
        source, pdf = self.folder / f"{name}.toml", self.folder / f"{name}.pdf"
        source.write_text(text)
        return cost(*PROGRAM, "draw", str(source), "-o", str(pdf), runs=runs or self.runs), pdf

    def bare(self, pdf: Path, runs: int = 0) -> tuple[Cost, Path]:
        """The cost of drawing the same pages by the bare script, and its PDF."""
        data, out = self.folder / "pages", self.folder / "bare.pdf"
        # Apart: what is measured is born of this process, and its peak would count from here.
        subprocess.run([sys.executable, __file__, "--pages", str(pdf), str(data)], check=True)
        script = str(self.folder / "bare.py")
        return cost(script, str(data), str(out), str(ROOT / "fonts"), runs=runs or self.runs), out


def tell(figure: str, ratio: float, wanted: float) -> None:
    """One row of the table."""
    print(f"{figure:<64} {ratio:7.2f}   wanted <= {wanted:g}", flush=True)


def growth(bench: Bench, what: str, jobs: dict[int, str]) -> dict[int, float]:
    """How processor time beyond the start grows, as a power of the size; the whole times."""
    start = cost(*PROGRAM, "--version", runs=bench.runs).seconds
    took = {size: bench.draw("grown", text)[0].seconds for size, text in jobs.items()}
    beyond = [math.log(seconds - start) for seconds in took.values()]
    power = linear_regression([math.log(size) for size in took], beyond).slope
    told = ", ".join(f"{size}: {seconds:.2f} s" for size, seconds in took.items())
    tell(f"growth with {what} ({told})", power, 1.2)
    return took


def main() -> None:
    """Print the table."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--runs", type=int, default=3)
    parser.add_argument("--quick", action="store_true", help="leave out what takes minutes")
    parser.add_argument("--pages", nargs=2, type=Path, help="only read a PDF back, into a file")
    given = parser.parse_args()
    if given.pages:
        pdf, data = given.pages
        data.write_bytes(marshal.dumps(read_back(pdf)))
        return
    with tempfile.TemporaryDirectory() as name:
        compileall.compile_dir(ROOT / "joinery_templates", quiet=2)  # as an installed one is
        bench = Bench(Path(name), given.runs)
        tea, pdf = bench.draw("tea", (ROOT / "sample_jobs/tea_box.toml").read_text())
        bare, _ = bench.bare(pdf)
        tell("draw tea_box, processor time against (a)", tea.seconds / bare.seconds, 1.2)
        tell("  against (b)", tea.seconds / cost("-c", IMPORTS, runs=given.runs).seconds, 2.5)
        tell("  peak memory against (a)", tea.memory / bare.memory, 1.3)
        empty = cost("-c", EMPTY, "--help", runs=given.runs)
        shown = cost(*PROGRAM, "--help", runs=given.runs)
        tell("--help against (c)", shown.seconds / empty.seconds, 1.2)
        empty = cost("-c", EMPTY, runs=given.runs, **COMPLETION)
        shown = cost("-c", NAMED, runs=given.runs, **COMPLETION)
        tell("completion against (c)", shown.seconds / empty.seconds, 1.2)
        one, _ = bench.draw("one", job(10, 1))
        ten, _ = bench.draw("ten", job(10, 10))
        tell("100 corners of 10 layouts against one of each", ten.seconds / one.seconds, 2.5)
        if not given.quick:
            many, pdf = bench.draw("many", job(10, 100), 1)
            bare, flat = bench.bare(pdf, 1)
            pages = "1,000 corners of 10 layouts against (a) of the same pages"
            tell(pages, many.seconds / bare.seconds, 0.3)
            tell("  in bytes", pdf.stat().st_size / flat.stat().st_size, 0.3)
        growth(bench, "corners", {n: job(1, n) for n in (10, 40, 100)})
        growth(bench, "layouts", {n: job(n, 1) for n in (5, 20, 50)})
        chests = growth(bench, "drawers", {n: drawers(n) for n in (4, 8, 16)})
        tell("a chest of 16 drawers against one of 4", chests[16] / chests[4], 4)
        growth(bench, "tails", {n: job(1, 1, n, 10 * n) for n in (10, 40, 160)})
        growth(bench, "width at 10 tails", {w: job(1, 1, 10, w) for w in (300, 900, 2700)})


if __name__ == "__main__":
    main()
