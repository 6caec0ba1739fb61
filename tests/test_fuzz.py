"""What fuzzing begins from and what it found, run through its targets every time; fuzzing itself is by the hour, in
``python -m tests.nightly``."""

from __future__ import annotations

import re
from pathlib import Path
from random import Random

import pytest

from alarm import time_limit
from fuzz.run import NAMES, dictionary
from fuzz.targets import TARGETS, found
from turnchain.proof.chart.marks import UnreadableChart
from turnchain.proof.chart.picture import read_chart
from turnchain.proof.chart.working import work_chart
from turnchain.proof.words.phrasebook import Cursor, phrasebook
from turnchain.proof.words.rows import cycle
from turnchain.proof.words.text import read_words, work_piece
from turnchain.records import replace

SPOILT = 150  # inputs for each target, the same every time


def test_every_target_can_be_asked_for() -> None:
    assert tuple(TARGETS) == NAMES


@pytest.mark.slow
@pytest.mark.parametrize("name", NAMES)
def test_seeds_are_read_to_their_end(name: str) -> None:
    """Else the fuzzing would stay at the door."""
    target = TARGETS[name]
    seeds = target.seeds()
    assert len(seeds) >= 6
    for data in seeds.values():
        target.run(data)
    assert dictionary(target.vocabulary()).count("\n") >= 9


@pytest.mark.slow
def test_seeds_of_rows_and_charts_can_be_worked() -> None:
    for data in TARGETS["chart"].seeds().values():
        assert work_chart(read_chart(data))
    from fuzz import targets

    yarns, pieces = targets.named()
    for data in TARGETS["rows"].seeds().values():
        language, names = targets.LANGUAGES[data[0] % 3], pieces[data[0] // 3 % len(pieces)]
        read = read_words(data[1:].decode(), language, yarns, names)
        assert [work_piece(read.craft, piece) for piece in read.pieces]


def spoilt(rng: Random, data: bytes, other: bytes) -> bytes:
    """Some bytes left out, put in twice, or for others, as a fuzzer begins."""
    for _ in range(rng.randint(1, 4)):
        start = rng.randrange(len(data) + 1)
        end = min(len(data), start + rng.choice((1, 1, 2, 8, 60)))
        begin = rng.randrange(len(other))
        pieces = (b"", b"0", b"9", b"-", b"99999999", data[start:end] * 2, other[begin : begin + 30], b"\xff")
        piece = rng.choice(pieces)
        data = data[:start] + piece + data[end:]
    return data


@pytest.mark.slow
@pytest.mark.parametrize("name", NAMES)
def test_spoilt_seeds_are_read_or_refused(name: str) -> None:
    rng, seeds = Random(name), list(TARGETS[name].seeds().values())
    with time_limit():
        for _ in range(SPOILT):
            TARGETS[name].run(spoilt(rng, rng.choice(seeds), rng.choice(seeds)))


@pytest.mark.parametrize("file", [file for name in NAMES for file in found(name)], ids=lambda file: file.name)
def test_what_was_found_is_read_or_refused(file: Path) -> None:
    with time_limit():
        TARGETS[file.parent.name].run(file.read_bytes())


def test_something_was_found() -> None:
    assert {name for name in NAMES if found(name)} >= {"pattern", "rows", "chart"}


# -------------------------------------------------------------------------- what was found, told by what is wrong

#: In the words of a seed: what is put in the place of what.
ROWS = {
    "a dc in no chain": (r"skip 1 ch, dc in each of next \d+ ch", "skip 1 ch, dc in each of next 0 ch"),
    "a dc in very many chains": (r"next 2 ch", "next 999999999 ch"),
    "a number of very many digits": (r"ch (\d+)", "ch " + "9" * 5000),
    "a repeat of very many times": (r"\d+ times", "99999 times"),
}


@pytest.mark.quick(3)
@pytest.mark.parametrize("what", ROWS)
def test_rows_found_by_fuzzing(what: str) -> None:
    old, new = ROWS[what]
    tried = 0
    for data in TARGETS["rows"].seeds().values():
        text, times = re.subn(old.encode(), new.encode(), data, count=1)
        tried += times
        with time_limit():
            TARGETS["rows"].run(text)
    assert tried > 3


@pytest.mark.parametrize("rows", ["3q, 5 and 7", "3", ""])
def test_stripes_that_begin_in_no_row(rows: str) -> None:
    """Found by fuzzing: numbers of rows that are no numbers, and stripes of no height."""
    words = phrasebook("US", ("Reed", "Silt"))
    begins = words.phrases["begins"]
    assert "<list>" in begins
    for height in ("height_many", "height_one"):
        stripe = words.phrases[height].replace("<n>", "0").replace("<yarn>", "Reed")
        text = f"{words.phrases['cycle']}{stripe}{begins}".replace("<a>", "3").replace("<b>", "900000000")
        cursor = Cursor(words, text.replace("<list>", rows))
        with time_limit():
            assert cycle(cursor) is None
        assert cursor.done, "all of it was read"


#: In a chart: what is put in the place of what, and how it is refused.
CHARTS = {
    "an encoding that there is not": (r'encoding="UTF-8"', 'encoding="UTF-9"', "unknown encoding|no well-formed"),
    "a path without a line": (r' d="M[^"]*"', "", "an element without 'd'"),
    "a place that is no number": (r'<use x="[^"]*"', '<use x="left"', "numbers that draw nothing"),
    "a place that is nowhere": (r'<use x="[^"]*"', '<use x="nan"', "nan is no place"),
    "half a point": (r'd="M0 [\d.]+L', 'd="M0L', "numbers that draw nothing|no stitch"),
    "no foundation": (r"<use [^>]*#ch-foundation[^>]*/>\n", "", "a foundation that is neither a chain nor stitches"),
}


@pytest.mark.slow
@pytest.mark.parametrize("what", CHARTS)
def test_charts_found_by_fuzzing(what: str) -> None:
    old, new, words = CHARTS[what]
    data = TARGETS["chart"].seeds()["0"].decode()
    spoilt, times = re.subn(old, new, data)
    assert times
    with pytest.raises(UnreadableChart, match=words):
        read_chart(spoilt.encode())


def test_a_single_row_without_a_dc_has_no_height() -> None:
    drawn = read_chart(TARGETS["chart"].seeds()["0"])
    with pytest.raises(UnreadableChart, match="no dc below its top"):
        work_chart(replace(drawn, rows=((100.0, ()),)))


def test_definitions_that_double_one_another_are_refused_soon() -> None:
    """Found by thought: twelve definitions, each of eight uses of the one before, would be 68 thousand million dc."""
    dc = '<g id="d0"><path d="M0 70L0 7M-7 7L7 7M-4 30L4 23"/></g>'
    uses = [f'<g id="d{n}">{f"<use xlink:href=%#d{n - 1}%/>".replace("%", chr(34)) * 8}</g>' for n in range(1, 12)]
    rows = '<g id="stitches"><g id="row-of-stitches-1"><use xlink:href="#d11" y="1"/></g></g>'
    head = '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink">'
    with time_limit(), pytest.raises(UnreadableChart, match=r"more symbols than a row has"):
        read_chart(f"{head}{dc}{''.join(uses)}{rows}</svg>".encode())
