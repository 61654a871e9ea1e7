"""Whole files that are no job files, each with the words that its refusal must hold, by hand."""

from tests.jobs.job_texts import EVERYTHING, small_job

BOARDS = "[boards.a]\nwidth = 90\nthickness = 12\n"
JOINT = '[[joints]]\nkind = "through-dovetail"\ntail_board = "a"\npin_board = "a"\n'

NOT_TEXT = {
    "utf-16": (
        EVERYTHING.encode("utf-16"),
        ("line 1: This text is in UTF-16 or UTF-32.", "in UTF-8"),
    ),
    "utf-16 without a mark": (
        small_job().encode("utf-16-le"),
        ("line 1: This is not plain text",),
    ),
    "utf-32": (small_job().encode("utf-32"), ("line 1: ", "UTF-8")),
    "latin-1": (
        'title = "ok"\nnotes = "Küche"\n'.encode("latin-1"),
        ("line 2: This is not plain text",),
    ),
    "a picture": (b"\x89PNG\r\n\x1a\n" + bytes(range(256)), ("line 1: This is not plain text",)),
    "zeros": (bytes(100), ("line 1: This is not plain text",)),
    "empty": (b"", ("The job file is empty.", "joinery-templates new")),
    "only a mark of byte order": (b"\xef\xbb\xbf", ("The job file is empty.",)),
    "only blank lines": (b"\n \r\n\t\n", ("The job file is empty.",)),
    "2 MB": (b"# " + b"x" * 2_000_000, ("over 200 kB",)),
    "one byte too many": (b"#" * 200_001, ("over 200 kB",)),
    "190 kB of noise on one line": (b"=" * 190_000, ("line 1: This line is not understood",)),
    "190 kB of lines": (b"a = 1 mm\n" * 21_000, ("line 1: 1 mm needs quotes",)),
    "190 kB of spaces in a value": (b"a = 1" + b" " * 190_000 + b"mm", ("line 1: 1 needs quotes",)),
    "a half character": (b'title = "\xe2\x82"\n', ("line 1: This is not plain text in UTF-8",)),
}

NOT_TOML = {
    "unit without quotes": (
        "[boards.a]\nwidth = 90 mm\n",
        ("line 2: 90 mm needs quotes", 'width = "90 mm"'),
    ),
    "inches without quotes": (
        '[paper]\nmargin = 1/4"\n',
        ('line 2: 1/4" needs quotes', "margin = '1/4\"'"),
    ),
    "mixed number": (
        "\n[boards.a]\nwidth = 5 1/2 in # w\n",
        ("line 3: 5 1/2 in needs", 'width = "5 1/2 in"'),
    ),
    "fraction": ("pin = 3/4\n", ("line 1: 3/4 needs quotes", 'pin = "3/4"')),
    "ratio": ("slope = 1:6\n", ("line 1: 1:6 needs quotes", 'slope = "1:6"')),
    "word": ("[paper]\nsize = A4\n", ("line 2: A4 needs quotes", 'size = "A4"')),
    "decimal comma": (
        "[boards.a]\nwidth = 12,5\n",
        ("line 2: 12,5 has a decimal comma", "width = 12.5"),
    ),
    "decimal comma and unit": ("width = 12,5 mm\n", ("line 1: 12,5 mm has a", 'width = "12.5 mm"')),
    "no value": ("title = \n", ("line 1: title has no value",)),
    "colon": ("title: Box\n", ("line 1: A colon stands between", "Write title =")),
    "curly quotes": ("title = “Box”\n", ("line 1: ", "curly", "straight quotes")),
    "quote left open": ('units = "mm"\ntitle = "Box\n', ("line 2: A text is opened", "same quote")),
    "bracket left open": (
        'corners = ["A", "B"\nx = 1\n',
        ("line 2: A bracket is opened here or before",),
    ),
    "header left open": (
        "[boards.a\nwidth = 1\n",
        ("line 1: This header has no bracket at its end"),
    ),
    "name twice": ('title = "a"\nunits = "mm"\ntitle = "b"\n', ("line 3: ", "second time")),
    "table twice": ("[paper]\n\n[paper]\n", ("line 3: ", "second time")),
    "name twice in one line": ("margin = { left = 1, left = 2 }\n", ("line 1: ", "second time")),
    "backslash": ('title = "5 \\i"\n', ("line 1: A backslash in double quotes", "twice")),
    "lone surrogate": ('title = "\\uD800"\n', ("line 1: A \\u… in double quotes",)),
    "control character": ('title = "a\x07b"\n', ("line 1: There is a control character here",)),
    "escape outside quotes": ("a = 1\n\x1b[2J = 3\n", ("line 2: ",)),
    "old line ends": ('title = "a"\rtitle = "b"\r', ("line 1: ",)),
    "prose": (
        "Dear joiner,\nplease draw a box.\n",
        ("line 1: This line", "a remark starts with #"),
    ),
    "bad date": ("title = 2024-13-45\n", ("line 1: ",)),
    "deep brackets": ("\ntitle = " + "[" * 5000, ("line 2: Brackets are nested far too deep",)),
    "brackets over lines": ("a = [\n" + "[\n" * 5000, ("line 7: Brackets are nested far",)),
    "deep tables": ("title = " + "{a=" * 5000, ("line 1: Brackets are nested far too deep",)),
    "name of 90,000 parts": (
        "a = 1\n" + "a." * 90_000 + "a = 1",
        ("line 2: A name has more than 6",),
    ),
    "header of 90,000 parts": ("[" + "a." * 90_000 + "a]\n", ("line 1: A name has more than 6",)),
    "list of 90,000 parts": ("[[" + "a." * 90_000 + "a]]\n", ("line 1: A name has more than 6",)),
    "long name in a table": (
        "x = {" + "a." * 90_000 + "a=1}",
        ("line 1: A name has more than 6",),
    ),
    "long name pushed in": (
        "\n \t  " + "a . " * 45_000 + "a = 1",
        ("line 2: A name has more than 6",),
    ),
    "long name in quotes": ("'a'.\"b\"." * 20_000 + "c = 1", ("line 1: A name has more than 6",)),
    "long name after a text": (
        'a = """\n\\""" # \n"""\n' + "a." * 90_000 + "a = 1",
        ("line 4: A name has more than 6",),
    ),
    "long name uncovered by a mistake": (
        'a = """\n' + "a." * 20_000 + 'a = 1\x01\n"""\nb = \n',
        ("line 2: There is a control character here",),
    ),
    "headers left open": ("[boards.a\nwidth = 9\n" * 9, ("line 1: This header has no bracket",)),
    "5,000 digits": ('title = "a"\nnotes = ' + "7" * 5000, ("line 2: A number is far too long",)),
    "5,000 digits below 5,000 in a text": (
        f'title = "{"7" * 5000}" # {"7" * 5000}\nnotes = [-{"7" * 5000}]',
        ("line 2: A number is far too long",),
    ),
    "braces over two lines": ("margin = { left = 1,\ntop = 2 }\n", ("line 1: The braces",)),
    "header of two words": ("a = 1\n[boards.back board]\n", ("line 2: ", '[boards."back board"]')),
    "three lines": (
        "title = Box\n[boards.a]\nwidth = 90 mm\nthickness = 12,5\n",
        ("line 1: Box needs quotes", "line 3: 90 mm needs", "line 4: 12,5 has a decimal comma"),
    ),
    "windows line ends": ('units = "mm"\r\n\r\nwidth = 9 mm\r\n', ("line 3: 9 mm needs quotes",)),
    "separator that is no line end": (
        'title = "a\u2028b"\nwidth = 9 mm\n',
        ("line 2: 9 mm needs",),
    ),
}

NOT_A_JOB = {
    "no boards": (JOINT, ("ERROR: boards: The job names no boards.", "[boards.side]")),
    "no joints": (BOARDS, ("ERROR: joints: The job has no joints.", "[[joints]]")),
    "boards as a list": (
        "[[boards]]\nwidth = 90\n" + JOINT,
        ("line 1: boards: Every board has a name",),
    ),
    "boards as a number": (
        "boards = 2\n" + JOINT,
        ("line 1: boards: Every board has a name", "[boards.side]"),
    ),
    "a board as a number": (
        "[boards]\na = 12\n" + JOINT,
        ("line 2: boards.a: For a board a number alone is not enough.",),
    ),
    "joints as a table": (
        BOARDS + JOINT.replace("[[joints]]", "[joints]"),
        ("line 4: joints: Every joint has its own [[joints]].", "in two brackets"),
    ),
    "joints as words": (
        'joints = ["x"]\n' + BOARDS,
        ("line 1: joint 1: For a joint text alone is not enough.",),
    ),
    "paper as a list": (
        "[[paper]]\n" + BOARDS + JOINT,
        ("line 1: paper: For paper a list alone",),
    ),
    "paper as a word": (
        'paper = "A4"\n' + BOARDS + JOINT,
        ("line 1: paper: For paper text alone",),
    ),
    "tools as a word": (
        'tools = "saw"\n' + BOARDS + JOINT,
        ("line 1: tools: For tools text alone",),
    ),
    "unknown name": (
        'titel = "Box"\n' + BOARDS + JOINT,
        ('line 1: titel: Unknown name "titel". Did you mean "title"?',),
    ),
    "unknown name in paper": (
        "[paper]\nmargins = 5\n" + BOARDS + JOINT,
        ("line 2: paper.margins: ", '"margin"?'),
    ),
    "unknown name in a margin": (
        "paper = { margin = { lef = 3 } }\n" + BOARDS + JOINT,
        ("line 1: paper.margin.lef: ", '"left"?'),
    ),
    "unknown name in tools": (
        "[tools]\nchisel = [3]\n" + BOARDS + JOINT,
        ("line 2: ", '"chisels"?'),
    ),
    "unknown name of a board": (
        BOARDS + "thicknes = 3\n" + JOINT,
        ("line 4: boards.a.thicknes: ", '"thickness"?'),
    ),
    "unknown name of a joint": (
        BOARDS + JOINT + "tail-board = 'a'\nhalfpin = 6\n",
        (
            "line 8: joint 1, tail-board: ",
            '"tail_board"?',
            "line 9: joint 1, halfpin: ",
            '"half_pin"?',
        ),
    ),
    "unknown name like nothing": (
        "zzz = 1\n" + BOARDS + JOINT,
        ('line 1: zzz: Unknown name "zzz". Known here: title,',),
    ),
    "unknown name that moves the cursor": (
        '"\\u001b[2J\\u202e" = 1\n' + BOARDS + JOINT,
        (r'line 1: \x1b[2J\u202e: Unknown name "\x1b[2J\u202e"',),
    ),
    "name of 5,000 characters": (
        "n" * 5000 + " = 1\n" + BOARDS + JOINT,
        ("line 1: nnnn", "Unknown name"),
    ),
    "kind near": (
        BOARDS + JOINT.replace("through", "trough"),
        ("line 5: joint 1, kind: No kind of joint is called 'trough-dovetail'. Did you mean",),
    ),
    "kind missing": (
        BOARDS + '[[joints]]\ntail_board = "a"\n',
        ("line 4: joint 1: The joint's kind is missing",),
    ),
    "boards missing": (
        BOARDS + '[[joints]]\nkind = "through-dovetail"\n',
        (
            "line 4: joint 1: The joint's tail_board is missing.",
            "line 4: joint 1: The joint's pin_board",
        ),
    ),
    "width missing": (
        "[boards.a]\nthickness = 12\n" + JOINT,
        ("line 1: boards.a: The width is missing.",),
    ),
    "second joint wrong": (
        BOARDS + JOINT + "\n" + JOINT + "slope = '1/6'\n",
        ("line 13: joint 2, slope: '1/6' is not a slope. Write a ratio such as",),
    ),
    "widths differ": (
        BOARDS
        + "[boards.b]\nwidth = 80\nthickness = 9\n"
        + JOINT.replace('pin_board = "a"', "pin_board = 'b'"),
        ('line 7: joint 1: Board "a" is 90 mm wide and "b" 80 mm.',),
    ),
    "what is given does not add up": (
        BOARDS + JOINT + "tails = 3\npin = 4\ntail = 20\nhalf_pin = 6\nhalf_pin_far = 6\n",
        ("line 8: joint 1, tails: The widths given add up to 80 mm, and the board is 90 mm wide.",),
    ),
    "no room where nothing is given": (
        BOARDS + JOINT + "tails = 40\n",
        ("line 4: joint 1, tail: Nothing is left for the tail",),
    ),
    "corner in the third line of a list": (
        BOARDS + JOINT + 'corners = [\n  "A",\n  "B",\n  "A",\n]\n',
        ("line 11: joint 1, corners, number 3: 'Corner A' stands here twice.",),
    ),
    "exponent of 15 digits": (BOARDS + JOINT + "fit = 1e" + "9" * 15, ("line 8: joint 1, fit: ",)),
    "exponent of 30 digits": (BOARDS + JOINT + "fit = 1e" + "9" * 30, ("line 8: joint 1, fit: ",)),
    "exponents of 15 and 30 digits in a list": (
        "[tools]\nchisels = [\n3,\n1e" + "9" * 15 + ",\n1e" + "9" * 30 + "]\n" + BOARDS + JOINT,
        ("line 4: tools.chisels, number 2: ", "line 5: tools.chisels, number 3: "),
    ),
    "exponents of 15 and 30 digits in braces": (
        "[paper]\nmargin = { left = 1e"
        + "9" * 15
        + ", top = -1e"
        + "9" * 30
        + " }\n"
        + BOARDS
        + JOINT,
        ("line 2: paper.margin.left: ", "line 2: paper.margin.top: "),
    ),
    "margins too wide": (
        "[paper]\nmargin = { left = 101, right = 0, top = 3 }\n" + BOARDS + JOINT,
        ("line 2: paper.margin.left: ", "from 0 mm to 100 mm"),
    ),
    "margin all round too wide": (
        "[paper]\n\nmargin = 101\n" + BOARDS + JOINT,
        ("line 3: paper.margin: A margin of 101",),
    ),
    "inches taken for millimetres": (
        "[boards.a]\nwidth = 5.5\nthickness = 0.75\n" + JOINT,
        (
            "line 3: boards.a.thickness: A thickness of 0.75 cannot be right.",
            "without a unit is in mm",
        ),
    ),
    "board of 50 m": (
        "[boards.a]\nwidth = '50 m'\nthickness = 9\n" + JOINT,
        ("line 2: boards.a.width: ",),
    ),
    "201 boards": (
        "".join(f"[boards.b{n}]\nwidth = 9\nthickness = 9\n" for n in range(201)) + JOINT,
        ("line 1: boards: The job names 201 boards. At most 200.",),
    ),
    "101 joints": (BOARDS + JOINT * 101, ("line 4: joints: The job has 101 joints. At most 100.",)),
    "board name too long": (
        BOARDS.replace(".a", ".b") + f"[boards.{'x' * 61}]\nwidth = 9\nthickness = 9\n" + JOINT,
        ("line 4: boards.xxx", "has 61 characters"),
    ),
    "board name that turns the writing round": (
        '[boards."\\u202ea"]\nwidth = 9\nthickness = 9\n' + JOINT,
        (
            r"line 1: boards.\u202ea: Sign 1 of this text cannot be printed: U+202E, ",
            "right-to-left override.",
        ),
    ),
    "15,000 unknown names": (
        "".join(f"n{n} = 1\n" for n in range(15_000)) + BOARDS + JOINT,
        ("line 1: n0: ", "more mistakes"),
    ),
    "9,000 joints that are none": (
        "joints = [" + "1," * 99 + "]\n" + BOARDS,
        ("line 1: joint 50: ", "There are more mistakes."),
    ),
    "byte order mark": (
        "\ufeff" + BOARDS + JOINT + "fit = 2\n",
        ("line 8: joint 1, fit: 2 is too large",),
    ),
    "values over several lines before": (
        'notes = """\na\n[boards.x]\n"""\n' + "title = '''\n'''\n" + BOARDS + JOINT + "fit = 2\n",
        ("line 14: joint 1, fit: ", "line 5: title: This text is empty."),
    ),
    "names with points": (
        'paper.size = "A9"\nboards."a".width = 9\nboards.a.thickness = 0\n' + JOINT,
        (
            "line 1: paper.size: Paper A9 is too small",
            "line 3: boards.a.thickness: A thickness of 0 cannot be right.",
        ),
    ),
}
