"""Speed, told as ratios within one run: ``python tests/benchmark.py``.

The baseline is a bare start of the command line (``--version``): what any command
costs before it does anything. Not run by pytest: a busy machine is no fault.
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


if __name__ == "__main__":
    main()
