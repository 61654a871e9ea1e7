"""Random job files for any kind of joint, from its example and its declared parameters alone.

A new kind is drawn without a word here. A job starts from the kind's example, larger or
smaller; some parameters are then given other values of their declared quantity. What a
reader refuses is left out, one thing after another, until a job is left that can be drawn;
where the refusal says how wide to plane a board, the board is planed.
"""

import json
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from random import Random
from typing import TypeVar

from joinery_templates.errors import InputError
from joinery_templates.joints.catalogue import kinds
from joinery_templates.joints.kind import Kind
from joinery_templates.lengths import Units, read_length
from tests.random_values import Ground, length, value_of

Table = dict[str, object]
Made = TypeVar("Made")

SMALLEST, WIDEST_ON_SMALLEST = "A6", 150
"""Nobody tapes hundreds of sheets."""
PAPERS = (
    *["A4"] * 6,
    *["Letter"] * 4,
    *["A3", "A5"] * 2,
    *(SMALLEST, "Legal", "Tabloid", "B5", "Arch C", "roll 610 mm", "roll 24 in"),
    *("190 x 260 mm", "300 x 420 mm"),
)
NAMES = ("side", "end", "front", "left-hand drawer side of the second chest", "b", "Eiche ⅜ dünn")
SELDOM_NAMES = ("דופן", "جانب الصندوق", "側板")
MEETING = ("meet", "offset")
"""What boards of unequal width are told; nothing else has a use for it."""
CORNERS = ("A", "B", "C", "D")
OTHER_CORNERS = ("Lid", "Back left", "Corner 7", "the one beside the window of the shed")
VIEWS = ("wrap", "faces", "end-grain")
WIDTH_TOLD = re.compile(r'Plane "(?P<board>.+)" to a width of ≈?(?P<width>[^.]+(?:\.\d+)?[^.]*)\.')


@dataclass
class Draft:
    """A job file's tables while it is made.

    Attributes:
        head: values that stand before any table.
        tables: such as paper and tools.
        boards: by name.
        joints: one table for each, parameters among the rest.
    """

    head: Table
    tables: dict[str, Table]
    boards: dict[str, Table] = field(default_factory=dict)
    joints: list[Table] = field(default_factory=list)

    @property
    def text(self) -> str:
        """As a job file."""
        lines = [*_lines(self.head)]
        for name, table in self.tables.items():
            lines += ["", f"[{name}]", *_lines(table)]
        for name, board in self.boards.items():
            lines += ["", f"[boards.{json.dumps(name, ensure_ascii=False)}]", *_lines(board)]
        for joint in self.joints:
            lines += ["", "[[joints]]", *_lines(joint)]
        return "\n".join(lines) + "\n"


def made(kind: Kind, chance: Random, make: Callable[[str], Made], is_small: bool = False) -> Made:
    """What is made of a random job of a kind; the same chance gives the same job.

    Args:
        kind: of its first joint.
        chance: decides all.
        make: is given the job file's text until it takes one, and refuses by InputError.
        is_small: one joint at one corner, in one view, which is drawn soon.

    Raises:
        AssertionError: where even the example is refused.
    """
    draft = _draft(kind, chance, is_small)
    while True:
        try:
            return make(draft.text)
        except InputError as refused:
            _give_way(draft, refused, chance)


def _give_way(draft: Draft, refused: InputError, chance: Random) -> None:
    """Change the draft where it was refused: as the remedy says, or by leaving something out."""
    finding = chance.choice(refused.findings)
    told = WIDTH_TOLD.search(finding.remedy)
    # Not for ever: planing one board may want the other one planed.
    if told and told["board"] in draft.boards and chance.random() < 0.9:
        draft.boards[told["board"]]["width"] = told["width"]
        return
    number = re.search(r"joint (\d+)", finding.place)
    joints = [draft.joints[int(number[1]) - 1]] if number else draft.joints
    loose = [one for joint in joints for one in _loose_in_joint(draft, joint)]
    on_paper = [(table, name) for table in draft.tables.values() for name in table]
    # The last word is the finest; a table's own name blames what stands in it.
    blamed = [
        (table, name)
        for word in re.findall(r"\w+", finding.place)[::-1]
        for table, name in (*loose, *on_paper)
        if name == word or table is draft.tables.get(word)
    ]
    # What is blamed may be right, and what it was given with may be what must go.
    if number and loose and chance.random() < 0.3:
        table, name = chance.choice(loose)
    elif blamed:
        table, name = blamed[0]
    elif loose or on_paper:
        table, name = chance.choice(loose or on_paper)
    else:
        _take_examples(draft, refused)
        return
    del table[name]


def _loose_in_joint(draft: Draft, joint: Table) -> Iterator[tuple[Table, str]]:
    """What a joint can do without, as the table that it stands in and its name there."""
    kind = kinds()[str(joint["kind"])]
    roles = [role.key for role in kind.roles]
    for name, value in joint.items():
        if name not in {"kind", *roles}:
            yield joint, name
        if isinstance(value, dict):
            (declared,) = (one for one in kind.parameters if one.name == name)
            needed = {part.name for part in declared.parts if part.needed}
            yield from ((value, part) for part in value if part not in needed)
    for role in roles:
        board = draft.boards[str(joint[role])]
        yield from ((board, name) for name in board if name == "length")


def _take_examples(draft: Draft, refused: InputError) -> None:
    """The last thing to give way: boards and parameters are the examples'."""
    before = draft.text
    for joint in draft.joints:
        kind = kinds()[str(joint["kind"])]
        sizes = zip(kind.roles, kind.example.widths, kind.example.thicknesses, strict=True)
        for role, width, thickness in sizes:
            draft.boards[str(joint[role.key])] |= {"width": width, "thickness": thickness}
        joint |= dict(kind.example.parameters)
    assert draft.text != before, f"{refused}\n{draft.text}"


def _draft(kind: Kind, chance: Random, is_small: bool) -> Draft:
    units = chance.choice([Units.MM, Units.MM, Units.INCH])
    draft = Draft({"title": chance.choice(["Box", "A" * 60, "Teekästchen №2"])}, {})
    draft.head["units"] = str(units)
    if chance.random() < 0.2:
        draft.head["figures"] = str(chance.choice(list(Units)))
    if chance.random() < 0.2:
        draft.head["notes"] = "Two of them, of ash. " * chance.choice([1, 40])
    draft.tables["paper"] = _paper(chance, units)
    draft.tables["tools"] = _tools(chance, units)
    if chance.random() < 0.15:
        draft.tables["printer"] = _printer(chance)
    _add_joint(draft, kind, chance, is_small)
    if is_small:
        draft.tables["paper"]["size"] = chance.choice(["A4", "Letter"])
    elif chance.random() < 0.1:
        _add_joint(draft, chance.choice(list(kinds().values())), chance, is_small)
    widest = max(_mm(str(board["width"]), units) for board in draft.boards.values())
    if draft.tables["paper"].get("size") == SMALLEST and widest > WIDEST_ON_SMALLEST:
        del draft.tables["paper"]["size"]
    return draft


def _paper(chance: Random, units: Units) -> Table:
    sides = ("left", "right", "top", "bottom")
    return _some(
        chance,
        size=(0.9, lambda: chance.choice(PAPERS)),
        margin=(
            0.3,
            lambda: (
                {side: length(chance.uniform(0, 20), chance, units) for side in sides}
                if chance.random() < 0.5
                else length(chance.uniform(3, 20), chance, units)
            ),
        ),
        overlap=(0.3, lambda: length(chance.uniform(10, 40), chance, units)),
        thickness=(0.3, lambda: length(chance.choice([0, 0.1, 0.2, 1]), chance, units)),
        marks=(0.2, lambda: chance.random() < 0.3),
        one_per_page=(0.2, lambda: chance.random() < 0.7),
    )


def _tools(chance: Random, units: Units) -> Table:
    widths = [length(chance.uniform(2, 30), chance, units) for _ in range(chance.randint(1, 6))]
    tools = _some(
        chance,
        chisels=(0.3, lambda: widths),
        gauge=(0.2, lambda: length(chance.choice([0.5, 1]), chance, units)),
        smallest_pin=(0.1, lambda: length(chance.uniform(2, 6), chance, units)),
        kerf=(0.4, lambda: length(chance.uniform(0.3, 1.5), chance, units)),
    )
    if "kerf" in tools and chance.random() < 0.7:
        tools["kerf_shown"] = True
    return tools


def _printer(chance: Random) -> Table:
    return {
        "name": "Press",
        "date": "1 May",
        "across": f"{chance.uniform(0.98, 1.02):.4f}",
        "along": f"{chance.uniform(0.98, 1.02):.4f}",
        "skew": f"{chance.uniform(-0.6, 0.6):.3f}",
    }


def _add_joint(draft: Draft, kind: Kind, chance: Random, is_small: bool) -> None:
    """Boards and a joint: the example's, to a scale, and some parameters of other values."""
    units = Units(str(draft.head["units"]))
    scale = chance.choice([1.0, chance.uniform(0.4, 1), chance.uniform(1, 3.5)])
    if is_small:
        scale = min(scale, 1)
    widths = [scale * _mm(width) for width in kind.example.widths]
    if chance.random() < 0.3 and not is_small:
        stretch = chance.uniform(0.5, 4)
        widths = [width * stretch for width in widths]
    alike = chance.random() < 0.4
    thick = [scale * _mm(t) * chance.uniform(0.6, 1.6) for t in kind.example.thicknesses]
    names = chance.sample([*NAMES, *(SELDOM_NAMES if chance.random() < 0.1 else ())], 2)
    joint: Table = {"kind": kind.name}
    for number, (role, name) in enumerate(zip(kind.roles, names, strict=True)):
        board: Table = {
            "width": length(widths[number], chance, units),
            "thickness": length(thick[number], chance, units),
        }
        first = draft.boards[str(joint[kind.roles[0].key])] if number else board
        if not kind.example.second_width:
            board["width"] = first["width"]
        if alike:
            board["thickness"] = first["thickness"]
        if chance.random() < 0.2:
            board["length"] = length(widths[number] * chance.uniform(1, 6), chance, units)
        known = f"{name} {len(draft.boards)}" if name in draft.boards else name
        draft.boards[known] = board
        joint[role.key] = known
    told = [one for one in kind.parameters if one.name not in MEETING]
    if len(told) < len(kind.parameters) and chance.random() < 0.3:
        wider = draft.boards[str(joint[chance.choice(kind.roles).key])]
        more = widths[0] * chance.uniform(0.02, 0.8)
        wider["width"] = length(widths[0] + more, chance, units)
        inset = more * chance.choice([0, chance.uniform(0, 1)])
        joint |= {"meet": chance.choice(["reference", "far"])}
        joint |= _some(chance, offset=(0.8, lambda: length(inset, chance, units)))
    kept = chance.choice([0, 0.6, 0.6, 1])
    for name, value in kind.example.parameters:
        if chance.random() < kept:
            joint[name] = _scaled(value, scale, chance, units)
    ground = Ground(min(thick), min(widths), units)
    changed = chance.choices(range(8), [2, 4, 5, 5, 4, 3, 2, 1])[0]
    for declared in chance.sample(told, min(changed, len(told))):
        joint[declared.name] = value_of(declared, ground, chance)
    _place_joint(joint, min(widths), chance, units)
    if is_small:
        joint |= {name: joint[name][:1] for name in ("corners", "views") if name in joint}
    draft.joints.append(joint)


def _place_joint(joint: Table, width: float, chance: Random, units: Units) -> None:
    """Where the joint is wanted, and in which views."""
    corners: list[object] = list(chance.sample(CORNERS, chance.choice([1, 1, 2, 4])))
    if chance.random() < 0.25:
        corners = [
            name if chance.random() < 0.5 else {"name": name, "like": chance.choice(CORNERS)}
            for name in chance.sample(OTHER_CORNERS, chance.choice([1, 2, 3]))
        ]
    front = joint[list(joint)[chance.choice([1, 2])]]
    joint |= _some(
        chance,
        name=(0.1, lambda: "Corners of the chest"),
        corners=(0.9, lambda: corners),
        views=(0.8, lambda: chance.sample(VIEWS, chance.choice([1, 1, 2, 3]))),
        front=(0.1, lambda: front),
        seams=(
            0.15,
            lambda: [
                length(width * chance.uniform(0.05, 0.95), chance, units)
                for _ in range(chance.choice([1, 2, 5]))
            ],
        ),
    )


def _some(chance: Random, **wanted: object) -> Table:
    """Each value with its own likelihood."""
    return {name: make() for name, (likely, make) in wanted.items() if chance.random() < likely}


def _mm(written: str, units: Units = Units.MM) -> float:
    return float(read_length(written, units))


def _scaled(value: object, scale: float, chance: Random, units: Units) -> object:
    """A value of an example, as a copy, since drafts are changed; lengths grow with the boards."""
    if isinstance(value, dict):
        return {name: _scaled(one, scale, chance, units) for name, one in value.items()}
    if isinstance(value, str) and value.endswith(" mm"):
        return length(scale * _mm(value), chance, units)
    return value


def _lines(table: Table) -> Iterator[str]:
    for name, value in table.items():
        yield f"{name} = {_toml(value)}"


def _toml(value: object) -> str:
    """A value as it stands in a job file."""
    if isinstance(value, dict):
        inside = ", ".join(f"{name} = {_toml(one)}" for name, one in value.items())
        return f"{{ {inside} }}"
    if isinstance(value, list):
        return f"[{', '.join(map(_toml, value))}]"
    if isinstance(value, bool):
        return str(value).lower()
    return json.dumps(value, ensure_ascii=False) if isinstance(value, str) else str(value)
