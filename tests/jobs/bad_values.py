"""Values that cannot stand in a job file, by the sort of field; each a TOML value."""

from collections.abc import Iterator

LENGTHS = (
    "paper.margin",
    "paper.overlap",
    "tools.kerf",
    "tools.smallest_pin",
    "boards.side.width",
    "boards.side.thickness",
    "boards.side.length",
    "joint 1, pin",
    "joint 1, half_pin",
    "joint 1, tails_proud",
    "joint 1, fit",
)
NO_LENGTH = (
    '""', '"  "', '"wide"', '"12,5 mm"', '"12 furlongs"', '"1/0 in"', '"1 2 3 mm"', '"0x10 mm"',
    '"1e3 mm"', '"nan"', "true", "nan", "inf", "-inf", "1e999999", "1e-999999", "-7000", "100001",
    "0x" + "f" * 5000, "9" * 4000, "1." + "3" * 9000, "[]", "[12]", "{ mm = 12 }", "1979-05-27",
    "07:32:00", '"12 mm\\u0000"', '"\\u202E12 mm"', '"٣ mm"', '"1²"', '"５➄ mm"', '"🪵"',
    f'"{"1" * 5000}"', '"12 mm 12 mm"', '"twelve"', '"12 mm\\u001b[31m"',
)
NO_WORDS = (
    "12", "1.5", "true", "nan", "[]", "{}", "1979-05-27T07:32:00Z", '""', '" \\t "', '"a\\u0000b"',
    '"a\\u001B[2Jb"', '"a\\u202Eb"', '"a\\u200Bb"', '"a\\uFEFFb"', '"a\\uE000b"', '"a\\u007Fb"',
    f'"{"x" * 4001}"',
)
NO_SLOPE = (
    '"1/6"', "6", "0.16", "true", '""', '"1:0"', '"0:1"', '"0:0"', '"1:6:7"', '"1:100"', '"1:1"',
    '"90 deg"', '"0 deg"', '"-9 deg"', '"9,5 deg"', '"nan deg"', '"1:-6"', '"steep"', "[]", "{}",
    f'"1:{"6" * 500}"', "nan", "0x" + "f" * 5000, '"1e5:6e5"',
)
NO_COUNT = (
    '"many"', "3.5", "-1", "201", "999999999999", "0x" + "f" * 5000, "9" * 4000, "true", '""',
    "[]", "{}", "nan", "inf", '"3.5"', '"٣"', '"1e2"', "1979-05-27",
)
NO_NAME_OF = ('"nothing"', '"🪵"', '""', "7", "true", "[]", "{}", "nan", "0x" + "f" * 5000, "12:00:00")
NO_PAPER = (
    '"A99"', '"big"', '"300 x 0 mm"', '"-300 x 420 mm"', '"1 x 1 mm"', '"9 x 9 km"',
    '"99999 x 99999 mm"', '"A4 A4"', '"roll"', '"roll 0 mm"', '"300 x 420 x 12 mm"', '"nan x nan"',
    f'"{"A" * 190}"', '"A7 x"', '"297 by"', "420",
)
NO_CORNERS = (
    "[]", "12", "[1, 2]", '["A", "A"]', '["A", "a"]', '[{ name = "x", like = "E" }]',
    '[{ name = "x", like = [] }]', '[{ like = "A" }]', '[{ name = 3 }]', '[{ name = "x", lik = "A" }]',
    '[["A"]]', '[""]', f'["{"x" * 41}"]', '["A\\u0000"]', str([f"c{n}" for n in range(101)]),
    '[{ name = "x", like = nan }]',
)


def spoiled_fields() -> Iterator[tuple[str, str]]:
    """Every field with each value that is not one for it."""
    sorts = (
        *((length, NO_LENGTH) for length in LENGTHS),
        *((words, NO_WORDS) for words in ("title", "joint 1, name")),
        ("notes", tuple(value for value in NO_WORDS if value != '""')),
        ("joint 1, slope", NO_SLOPE),
        ("joint 1, tails", NO_COUNT),
        ("paper.size", (*NO_WORDS, *NO_PAPER)),
        ("joint 1, corners", NO_CORNERS),
        *(
            (name, NO_NAME_OF)
            for name in (
                "units", "figures", "joint 1, kind", "joint 1, tail_board", "joint 1, pin_board",
                "joint 1, start",
            )
        ),
        ("joint 1, views", ("[]", '"nothing"', "[1]", "{}", "true", '["wrap", "x"]', "[[]]")),
        ("tools.chisels", ('["x"]', "[0]", "[-1]", "[true]", "{}", str([3] * 101), "[[3]]")),
    )
    for place, values in sorts:
        for value in values:
            # Margins may be a table; a list of one length is not looked at by anything.
            if (place, value) != ("paper.margin", "{ mm = 12 }"):
                yield place, value
