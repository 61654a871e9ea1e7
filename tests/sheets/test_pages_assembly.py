"""Sheets taped together by their match marks alone give every line back unbroken."""

import re
import tomllib
from dataclasses import replace
from itertools import chain, combinations, product

import pytest

from tests.pdf.dovetail_table import corner_of, pin_wrap, tail_wrap
from tests.pdf.drawn_jobs import pages_from, sample_text
from tests.pdf.page_reading import (
    FOLD,
    GUIDE,
    HATCH,
    KNIFE,
    OPEN_HATCH,
    SAW,
    SEAM,
    Placement,
    box_of,
    clipped,
    meeting,
)
from tests.pdf.wrap_reading import NEAR, unmatched
from tests.sheets.page_checks import ink, match_marks, seen_part, shown
from tests.sheets.taping import (
    COUNTS,
    JOBS,
    laying,
    patterns_in_tiles,
    put_together,
    taped,
    upright,
    wraps_in_tiles,
)


@pytest.mark.parametrize("job", JOBS)
def test_every_seam_has_three_marks_that_stand_alike_on_two_sheets(job):
    for tiles in patterns_in_tiles(pages_from(JOBS[job])).values():
        assert len(tiles) > 1
        letters = [letter for tile in tiles for letter in tile.marks]
        assert all(letters.count(letter) == 2 for letter in letters)
        counts = [len(marks) for tile in tiles for marks in tile.marks.values()]
        # Between two saw lines 5 mm apart there is no room beside the seam.
        assert set(counts) == {3} or (job, min(counts), counts.count(2)) == ("block", 2, 2)
        bare = [sign for tile in tiles for sign in tile.signs.values() if sign.isalpha()]
        assert job == "block" or not bare, "a mark whose number had no room"


NARROW = sample_text("handrail").replace('"A4"', '"Letter"')
"""Boards so narrow that the marks of a seam have hardly any room."""


def test_no_mark_lies_on_what_is_cut_off_at_its_seam():
    """A sheet that is laid on its neighbour is trimmed before: its marks must still be there."""
    for text in (*JOBS.values(), NARROW):
        for tiles in patterns_in_tiles(pages_from(text)).values():
            # The first sheet at a seam is not trimmed there: it lies below.
            for number, tile in enumerate(tiles):
                for letter, marks in tile.marks.items():
                    if any(letter in before.marks for before in tiles[:number]):
                        low_x, low_y, high_x, high_y = tile.kept
                        assert all(
                            low_x - NEAR < mark.real < high_x + NEAR
                            and low_y - NEAR < mark.imag < high_y + NEAR
                            for mark in marks
                        )


@pytest.mark.parametrize("job", JOBS)
def test_all_seams_of_a_pattern_agree_on_how_the_sheets_lie(job):
    """Taped along another seam a sheet would come to lie in the same place."""
    for tiles in patterns_in_tiles(pages_from(JOBS[job])).values():
        laid = taped(tiles)
        for (one, way), (other, other_way) in combinations(laid, 2):
            for letter in one.marks.keys() & other.marks.keys():
                ours = sorted(way((m.real, m.imag)) for m in one.marks[letter])
                theirs = sorted(other_way((m.real, m.imag)) for m in other.marks[letter])
                for a, b in zip(ours, theirs, strict=True):
                    assert abs(complex(*a) - complex(*b)) < NEAR


@pytest.mark.parametrize("job", JOBS)
def test_taped_sheets_give_every_line_back_unbroken(job):
    corner = corner_of(tomllib.loads(JOBS[job]))
    found = wraps_in_tiles(job)
    assert len(found) == COUNTS[job]
    for tiles in found:
        wrap = put_together(tiles)
        tails = wrap.role == "tail board"
        saws, bases = (tail_wrap if tails else pin_wrap)(corner)
        thick = corner.tail_thickness if tails else corner.pin_thickness
        deep = (
            corner.pin_thickness + corner.tails_proud
            if tails
            else corner.tail_thickness + corner.pins_proud
        )
        assert unmatched(wrap.lines(SAW), saws) == []
        assert unmatched(wrap.lines(KNIFE), bases) == []
        across = [((0, t), (corner.width, t)) for t in (-deep, thick + 0.1 + deep)]
        assert unmatched(wrap.lines(GUIDE), across) == []
        folds = [((-5, t), (corner.width + 5, t)) for t in (0, thick + 0.1)]
        assert unmatched(wrap.lines(FOLD), folds) == []
        assert abs(wrap.width - corner.width) <= NEAR


def test_the_block_is_cut_both_ways():
    """So that sheets above each other are tried as well as sheets side by side."""
    assert all(len(tiles) >= 4 for tiles in wraps_in_tiles("block"))


@pytest.mark.parametrize("job", JOBS)
def test_no_seam_runs_within_two_millimetres_beside_a_sloping_or_sawn_line(job):
    """A seam may cross baselines; it keeps off the lines that run along it."""
    for tiles in wraps_in_tiles(job):
        for tile in tiles:
            for seam in tile.placement.drawn_with(SEAM):
                across = 0 if upright(seam) else 1
                for line in tile.placement.drawn_with(SAW):
                    low, high = sorted((line.start[across], line.end[across]))
                    run = abs(line.start[1 - across] - line.end[1 - across])
                    if run > high - low:  # runs more along the seam than across it
                        at = seam.start[across]
                        assert not low - 2 < at < high + 2


def test_a_sheet_laid_half_a_millimetre_off_breaks_lines():
    tiles = wraps_in_tiles("wide_carcase")[0]
    askew = replace(
        tiles[1],
        marks={
            letter: tuple(mark + 0.5 for mark in marks) for letter, marks in tiles[1].marks.items()
        },
    )
    corner = corner_of(tomllib.loads(JOBS["wide_carcase"]))
    wrap = put_together([tiles[0], askew])
    _, bases = tail_wrap(corner)
    assert unmatched(wrap.lines(KNIFE), bases) != []


def test_marks_that_were_moved_among_each_other_do_not_fit():
    first, second = wraps_in_tiles("wide_carcase")[0][:2]
    (letter,) = first.marks.keys() & second.marks.keys()
    one, *others = second.marks[letter]
    with pytest.raises(AssertionError, match="do not lie on each other"):
        laying(first.marks[letter], (one + 0.2, *others))


def test_of_two_sheets_one_says_cut_off_and_the_other_that_it_is_covered():
    """Each names the other."""
    pages = pages_from(JOBS["wide_carcase"])
    cut = 0
    for number, page in enumerate(pages, start=1):
        for placement in page.placements:
            for words in placement.saying("✂ "):
                said = re.fullmatch(r"✂ (\w+): (?:on )?(?:sheet|sh\.) (\d+)", words.text)
                if not said:
                    continue  # scissors along an edge
                letter, on = said.groups()
                others = " ".join(map(placement_words, pages[int(on) - 1].placements))
                assert re.search(rf"\b{letter}: (?:under )?(?:sheet|sh\.) {number}\b", others)
                cut += 1
    assert cut == 5  # four wraps and the strip, each of two sheets


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("name", ["bookshelf", "garden_trellis", "wide_carcase"])
def test_at_every_seam_both_sheets_say_its_letter_and_the_other_sheet_or_part(name, paper):
    """Also where there is hardly room: a number that is called neither could be a size.

    No other words stand within three millimetres on their line (our judgement).
    """
    text = re.sub(r"(?m)^size = .*$", f'size = "{paper}"', sample_text(name))
    placements = [one for page in pages_from(text) for one in page.placements]
    said = [words.text for one in placements for words in one.words]
    letters = {words[:-1] for words in said if re.fullmatch("[a-z]{1,2}[123]", words)}
    assert letters
    for letter, (sign, how) in product(letters, (("✂ ", "on"), ("", "under"))):
        named = rf"{sign}{letter}: ({how} )?(sheet|sh\.|part|pt) \d+"
        assert any(re.fullmatch(named, words) for words in said), (letter, how)
    assert not [words for words in said if re.match(r"under |✂ on ", words)]
    for placement in placements:
        words = [one for one in placement.words if shown(one)]
        for note in (one for one in words if re.match(r"(✂ )?[a-z]{1,2}: ", one.text)):
            left, low, right, high = ink(note)
            far, up = (0, 3) if note.turn % 180 else (3, 0)
            room = (left - far, low - up, right + far, high + up)
            beside = [one.text for one in words if one is not note and meeting(ink(one), room)]
            assert beside == [], note.text


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_a_mark_is_read_with_no_label_beside_it(paper):
    """Two millimetres are between them (our judgement); what is said of its seam may be near."""
    text = re.sub(r"(?m)^size = .*$", f'size = "{paper}"', sample_text("wide_carcase"))
    count = 0
    for page in pages_from(text):
        words = [one for placement in page.placements for one in placement.words if shown(one)]
        labels = [one for one in words if not re.match(r"(✂ )?[a-z]([1-3]?$|:)", one.text)]
        for left, low, right, high in chain.from_iterable(map(match_marks, page.placements)):
            room = (left - 2, low, right + 2, high)
            assert [one.text for one in labels if meeting(ink(one), room)] == []
            count += 1
    assert count


def test_what_stands_alone_is_read_from_below_or_from_the_right_on_every_sheet():
    """A strip's figures, what is done at a seam, where to trim, the job on a wedge: no 6 is a 9."""
    turns = set()
    for name in ("blanket_chest", "record_crate", "mirror_frame", "garden_gate"):
        text = sample_text(name).replace("A3", "Letter")
        for page in pages_from(text):
            for placement in page.placements:
                for words in placement.words:
                    if re.match(r"✂ trim|(✂ )?[a-z]: |\d+( \d+/\d+)?$|job ....$", words.text):
                        assert words.turn in (0, 90), words.text
                        turns.add(words.turn)
    assert turns == {0, 90}


def placement_words(placement: Placement) -> str:
    return " ".join(words.text for words in placement.words)


def test_of_two_parts_on_one_sheet_a_seam_names_the_parts():
    """No sheet names itself, and of such two each names the other, the upper by the later part."""
    seams, lowest = 0, set()
    for number, page in enumerate(pages_from(sample_text("mirror_frame")), start=1):
        said = [placement_words(one) for one in page.placements]
        assert not any(re.search(rf"\w: (?:on|under) sheet {number}\b", one) for one in said)
        for one in said:
            for letter, on in re.findall(r"✂ (\w): on part (\d)", one):
                (other,) = (two for two in said if f"{letter}: under part {int(on) + 1}" in two)
                assert other is not one
                seams += 1
                lowest.add(int(on))
    assert min(lowest) == 1  # as a person counts
    assert seams == 8  # the wraps of the rails' four ends, and two of each rod in four parts


@pytest.mark.parametrize("job", JOBS)
def test_words_on_a_seam_stand_only_on_paper_that_vanishes(job):
    """They may have a white ground, which must not hide a line that is followed."""
    count = 0
    for tiles in patterns_in_tiles(pages_from(JOBS[job])).values():
        for tile in tiles:
            for words in tile.placement.words:
                if re.search(r": (?:under |on |)(?:sheet|sh\.) \d+", words.text):
                    common = meeting(words.box, tile.kept)
                    assert (
                        common is None or min(common[2] - common[0], common[3] - common[1]) < 0.2
                    ), words.text  # the font's box is a little higher than its letters
                    count += 1
    assert count >= 6


def test_a_part_is_named_where_its_corner_or_bundle_has_no_room_beside_that():
    """The last part of a strip 440 mm long, on Letter: a number alone says nothing once cut out."""
    text = re.sub(r"(?m)^size = .*$", 'size = "Letter"', sample_text("wide_carcase"))
    words = [one.text for page in pages_from(text) for p in page.placements for one in p.words]
    (said,) = [one for one in words if "part 3 of 3 · job" in one and "walk" not in one]
    assert said.startswith("strip for SIDE · Through dovetail, part 3 of 3 · job ")


def test_a_part_that_is_named_is_one_of_as_many_as_there_are():
    """All are counted, also those that a label names. Tiles share all drawings but the last."""
    alike: dict[tuple[str, ...], list[str]] = {}
    for job in ("bench_top", "bookcase", "wide_carcase"):
        text = re.sub(r"(?m)^size = .*$", 'size = "A4"', sample_text(job))
        for placement in (one for page in pages_from(text) for one in page.placements):
            if any(line.clip for line in placement.lines):
                key = (job, *placement.forms[:-1])
                alike.setdefault(key, []).append(placement_words(placement))
    mixed = 0
    for tiles in alike.values():
        named = [re.findall(r"part (\d+) of (\d+) · job", said) for said in tiles]
        for number, parts in enumerate(named, start=1):
            assert set(parts) <= {(f"{number}", f"{len(tiles)}")}
        mixed += len(named) > sum(map(bool, named)) > 0
    assert mixed, "no pattern of which some tiles have a label and others a name"


@pytest.mark.parametrize("job", ["bench_top", "bookcase", "wide_carcase"])
def test_what_a_part_is_stands_by_itself_on_the_paper_that_stays(job):
    """Two millimetres from words and lines; on a rod or a strip within the edges with marks."""
    cut_out = 0
    text = re.sub(r"(?m)^size = .*$", 'size = "A4"', sample_text(job))
    for placement in (one for page in pages_from(text) for one in page.placements):
        ticks = [line for line in placement.lines if line.pen == SAW]
        for name in (
            one for one in placement.words if re.search(r"part \d+ of \d+ · job", one.text)
        ):
            left, low, right, high = ink(name)
            room = (left - 1.9, low - 1.9, right + 1.9, high + 1.9)
            for words in (one for one in placement.words if one is not name and shown(one)):
                assert not meeting(ink(words), room), (name.text, words.text)
            for line in (one for one in placement.lines if one.pen not in (HATCH, OPEN_HATCH)):
                assert not (part := seen_part(line)) or not clipped(*part, room), name.text
            if "walk" not in name.text and ticks:
                within = box_of(end for tick in ticks for end in (tick.start, tick.end))
                across = 0 if name.turn % 180 else 1
                assert within[across] < ink(name)[across], name.text
                assert ink(name)[across + 2] < within[across + 2], name.text
                cut_out += 1
    assert cut_out, "no such name"
