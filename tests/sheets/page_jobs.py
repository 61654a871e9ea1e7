"""Made-up jobs for a paper: sensible boards, every view, short and long names."""

from random import Random

TITLE = "Made-up job"
LONG_NAMES = ("side", "left-hand drawer side of the second chest", "b", "Schubladenseite ⅜ Eiche")
CORNERS = ("A", "B", "C", "D")


def job_text(paper: str, seed: int, corners: int = 1) -> str:
    """A job file's text; the same seed gives the same job."""
    chance = Random(seed)
    width = chance.choice([25, 40, 60, 90, 120, 180, 240])
    thick, mate = chance.choice([6, 9, 12, 18, 22, 30]), chance.choice([6, 9, 12, 18, 22, 30])
    inches = chance.random() < 0.3
    views = chance.choice(['["wrap"]', '["faces"]', '["end-grain", "wrap"]', '["wrap", "faces"]'])
    tails = max(1, width // 30)
    names = chance.sample(LONG_NAMES, 2)
    letters = chance.sample(CORNERS, corners)
    half_tails = chance.random() < 0.25 and width >= 60
    start = (
        'start = "half-tail"'
        if half_tails
        else f"half_pin = {5 if width > 30 else 4}\nhalf_pin_far = 6"
    )
    return f"""
title = "{TITLE}"
units = "mm"
notes = "{chance.choice(["", "x " * 200, "Ash."])}made for seed {seed}"
[paper]
size = "{paper}"
overlap = {chance.choice([10, 12, 20])}
[boards."{names[0]}"]
width = {width}
thickness = {thick}
[boards."{names[1]}"]
width = {width}
thickness = {f'"{chance.choice([1, 2, 3])}/4 in"' if inches else mate}
[[joints]]
kind = "through-dovetail"
corners = {str(letters).replace("'", '"')}
tail_board = "{names[0]}"
pin_board = "{names[1]}"
slope = "{chance.choice(["1:6", "1:8", "9.5 deg"])}"
tails = {tails}
pin = 4
{start}
tails_proud = {chance.choice([0, 0.5])}
pins_proud = {chance.choice([0, 0.4])}
views = {views}
"""
