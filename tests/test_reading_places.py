"""Problems know their place: the path of keys, and the line and column in the text.

Oracle: Python's own TOML reader, which says what a text holds but not where; no published values.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from turnchain.errors import PatternError, Problem
from turnchain.reading import places
from turnchain.reading.pattern_file import read_text

TOP = Path(__file__).parents[1]
FOLDERS = ("tests/cases", "gallery/patterns", "src/turnchain")
FILES = [file for folder in FOLDERS for file in sorted((TOP / folder).glob("*.toml"))]

ODD = '''\
# a comment with [brackets] and a = sign
title = "a \\" quote, [x] = 1" # after it
note = """two
lines = [1]"""
"by" = 'plain # text'
day = 2024-05-31 12:00:00
a.b . "c d" = { x = 1, y = [ { z = 2 }, 3 ] }

[swatch]
weighed = [
  29, # cm
  [ 1,
    2 ],
]
[[piece]]
name = "one"
[piece.neck]
depth = 3
[[piece]]
  outline = [[0, 1], [2, 3]]
'''


def paths(value: Any, path: places.KeyPath = ()) -> Iterator[places.KeyPath]:
    """Every place in what a TOML text holds."""
    if path:
        yield path
    entries = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, entry in entries:
        yield from paths(entry, (*path, key))


@pytest.mark.parametrize("text", [ODD, *(path.read_text("utf-8") for path in FILES)])
def test_every_key_is_found_where_it_stands(text: str) -> None:
    found = places.positions(text)
    lists = {path[:length] for path in found for length in range(1, len(path)) if isinstance(path[length], int)}
    dotted = {path for path in paths(tomllib.loads(text)) if path[:1] == ("a",)}  # has no line of its own
    assert set(paths(tomllib.loads(text))) - set(found) - lists <= dotted
    lines = text.split("\n")
    for path, (line, column) in found.items():
        here = lines[line - 1][column - 1 :]
        if here.startswith("[") and path[0] in ("swatch", "piece", "yarn", "seam", "progress") and len(path) <= 2:
            assert here.startswith((f"[{path[0]}]", f"[[{path[0]}]]", f"[{path[0]}.{path[-1]}]"))
        elif isinstance(path[-1], str):
            assert path[-1] in here.split("=")[0]


@pytest.mark.parametrize(
    ("path", "spot"),
    [
        # counted by hand
        (("title",), (2, 1)),
        (("note",), (3, 1)),
        (("by",), (5, 1)),
        (("day",), (6, 1)),
        (("a", "b", "c d"), (7, 1)),
        (("a", "b", "c d", "y", 0, "z"), (7, 32)),
        (("a", "b", "c d", "y", 1), (7, 41)),
        (("swatch", "weighed", 0), (11, 3)),
        (("swatch", "weighed", 1, 1), (13, 5)),
        (("piece", 0), (15, 1)),
        (("piece", 0, "neck", "depth"), (18, 1)),
        (("piece", 1, "outline", 1), (20, 22)),
        (("piece", 1, "outline", 1, 0), (20, 23)),
    ],
)
def test_places_counted_by_hand(path: places.KeyPath, spot: places.LineAndColumn) -> None:
    assert places.positions(ODD)[path] == spot


PATTERN = '''\
title = "Test"
[swatch]
clusters = 4
width = "ten"
rows = 8
height = 10
[[yarn]]
name = "Reed"
[[yarn]]
name = "Silt"
colour = "#12"
[[piece]]
name = "front"
outline = [[0, 10], [5, -1]]
neck = { shoulder = 2 }
[[seam]]
join = ["front.left", "back.left"]
'''


def problems(text: str) -> dict[str, Problem]:
    """The problems of a pattern file by their places in words."""
    with pytest.raises(PatternError) as caught:
        read_text(text, "test.toml")
    return {problem.place: problem for problem in caught.value.problems}


def test_problems_lead_to_the_field_and_to_the_line() -> None:
    found = {place: (one.path, one.line, one.column) for place, one in problems(PATTERN).items()}
    assert found == {
        "swatch, width": (("swatch", 0, "width"), 4, 1),
        'yarn 1 ("Reed")': (("yarn", 0, "colour"), 7, 1),
        'yarn 2 ("Silt"), colour': (("yarn", 1, "colour"), 11, 1),
        'piece "front", outline, point 2': (("piece", 0, "outline", 1), 14, 21),
        'piece "front", neck': (("piece", 0, "neck", "depth"), 15, 1),
        "seam 1, join, entry 2": (("seam", 0, "join", 1), 17, 23),
    }


def test_what_is_no_toml_tells_its_line_too() -> None:
    (problem,) = problems("title = Test").values()
    assert (problem.line, problem.column, problem.path) == (1, 9, ())


def test_a_text_too_deep_for_places_keeps_its_problems() -> None:
    found = problems(f'title = "x"\nswatch = {"[" * 200 + "]" * 200}')
    assert found["swatch"].path == ("swatch",)
