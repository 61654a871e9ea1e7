"""Texts of job files: one with everything in it, and ways to spoil one value of it."""

EVERYTHING = """\
# A job file in which everything stands that can.
title = "Blanket chest"
units = "mm"
figures = "in"
notes = "Two of them"

[paper]
size = "A3"
margin = { left = 5, right = "1/4 in", top = 7.5, bottom = "1.5 cm" }
overlap = 14

[tools]
chisels = [3, "1/4 in", 12.5]
kerf = 0.6
smallest_pin = 3
gauge = "1/64 in"
kerf_shown = true

[boards.side]
width = 140
thickness = 20
length = 420

[boards."back board"]
width = "14 cm"
thickness = "3/4 in"

[[joints]]
kind = "through-dovetail"
name = "Back"
corners = ["A", "b", "Lid", { name = "Rear", like = "D" }]
tail_board = "side"
pin_board = "back board"
start = "half-pin"
slope = "1:6"
tails = 4
pin = 3
half_pin = "7 mm"
half_pin_far = 8
tails_proud = 0.4
pins_proud = "1/64 in"
fit = -0.05
views = ["wrap", "faces", "end-grain"]
"""

# Fields of a small job, each on one line; the joint's table begins on line 18.
_LINES = (
    ("title", "title", '"Box"'),
    ("units", "units", '"mm"'),
    ("figures", "figures", '"mm"'),
    ("notes", "notes", '"Pine"'),
    ("", "", "[paper]"),
    ("paper.size", "size", '"A4"'),
    ("paper.margin", "margin", "10"),
    ("paper.overlap", "overlap", "12"),
    ("", "", "[tools]"),
    ("tools.chisels", "chisels", "[3, 6]"),
    ("tools.kerf", "kerf", "0.6"),
    ("tools.smallest_pin", "smallest_pin", "3"),
    ("", "", "[boards.side]"),
    ("boards.side.width", "width", "90"),
    ("boards.side.thickness", "thickness", "12"),
    ("boards.side.length", "length", "260"),
    ("", "", "# the joint"),
    ("", "", "[[joints]]"),
    ("joint 1, kind", "kind", '"through-dovetail"'),
    ("joint 1, name", "name", '"Corners"'),
    ("joint 1, corners", "corners", '["A", "B"]'),
    ("joint 1, tail_board", "tail_board", '"side"'),
    ("joint 1, pin_board", "pin_board", '"side"'),
    ("joint 1, start", "start", '"half-pin"'),
    ("joint 1, slope", "slope", '"1:7"'),
    ("joint 1, tails", "tails", "3"),
    ("joint 1, pin", "pin", "4"),
    ("joint 1, half_pin", "half_pin", "6"),
    ("joint 1, tails_proud", "tails_proud", "0.3"),
    ("joint 1, pins_proud", "pins_proud", "0.3"),
    ("joint 1, fit", "fit", "0"),
    ("joint 1, views", "views", '["wrap"]'),
)
FIELDS = tuple(place for place, _, _ in _LINES if place)


def small_job(**changes: str) -> str:
    """The small job, some values replaced; the names of `changes` are places with _ for . and ,."""
    named = {_plain(place): place for place in FIELDS}
    return _text({named[name]: value for name, value in changes.items()})


def with_value(place: str, value: str) -> tuple[str, int]:
    """The small job with one value replaced, and the line on which that stands."""
    return _text({place: value}), line_of(place)


def line_of(place: str) -> int:
    """The line of a field in the small job."""
    return [known for known, _, _ in _LINES].index(place) + 1


def _text(changes: dict[str, str]) -> str:
    return "".join(
        f"{name} = {changes.get(place, value)}\n" if place else f"{value}\n"
        for place, name, value in _LINES
    )


def _plain(place: str) -> str:
    return place.replace("joint 1, ", "joint_").replace(".", "_")
