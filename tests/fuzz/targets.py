"""What is fuzzed: every reader of what others wrote, with seeds to begin from and the words that its files are made of.

In: bytes. Out: nothing, or whatever error a reader did not mean to raise. A reader may refuse in its own way: a pattern
file or a symbol with a ``MakerError`` for its maker, words and charts under proof with the proof's own refusals. What
is read is also used a little: a small pattern is planned, words and charts are worked, a symbol is drawn.
"""

from __future__ import annotations

import io
import re
import tomllib
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from turnchain.drawing import glyphs
from turnchain.errors import MakerError
from turnchain.fabric.gauge import gauge_of
from turnchain.fabric.plan import Plan
from turnchain.making import planned
from turnchain.pattern import Pattern, Piece
from turnchain.planning.planner import plan_pattern
from turnchain.proof import proving
from turnchain.proof.chart.marks import UnreadableChart
from turnchain.proof.chart.picture import read_chart
from turnchain.proof.chart.working import work_chart
from turnchain.proof.hook.stitches import Unworkable
from turnchain.proof.words.phrasebook import phrasebook
from turnchain.proof.words.text import Unreadable, read_words, work_piece
from turnchain.reading.pattern_file import read_text
from turnchain.reading.tables import TABLES
from turnchain.scene import INK, Scene, Use
from turnchain.wording import words
from turnchain.writers import svg

TOP = Path(__file__).parents[2]
FOUND = Path(__file__).parent / "found"  # what made a reader fail once, in a folder for each target
LANGUAGES = ("US", "UK", "de")
SMALL = 150  # rows times clusters of a pattern that is planned as well


@dataclass(frozen=True, slots=True)
class Target:
    """A reader: ``run`` feeds it, ``seeds`` are names and bytes to begin from, ``vocabulary`` what its files are of."""

    run: Callable[[bytes], None]
    seeds: Callable[[], dict[str, bytes]]
    vocabulary: Callable[[], set[str]]


# ------------------------------------------------------------------------------------------------- pattern files


def pattern(data: bytes) -> None:
    """A pattern file; what is read and small is planned."""
    try:
        text = data.decode()
    except UnicodeDecodeError:
        return  # refused when the file is opened, which has its own tests
    try:
        found = read_text(text, "fuzzed.toml")
        if _size(found) <= SMALL:
            plan_pattern(found, "fuzzed.toml")
    except MakerError as error:
        if not str(error).strip():
            raise AssertionError("refused without a word") from error


def _size(found: Pattern) -> float:
    """How many clusters there are in all pieces, about."""
    gauge = gauge_of(found.swatches)
    cluster = float(gauge.pitch * gauge.row)
    return sum(_box(piece) / cluster for piece in found.pieces)


def _box(piece: Piece) -> float:
    """The square cm of a piece, at most."""
    if piece.width and piece.length:
        return float(piece.width * piece.length)
    lines = [line for line in (piece.outline, piece.left_outline, piece.right_outline) if line]
    return float(sum(line[-1][0] * max(abs(width) for _, width in line) for line in lines))


def pattern_files() -> list[Path]:
    """The pattern files in the repository."""
    places = (TOP / "gallery" / "patterns", TOP / "tests" / "cases", TOP / "src" / "turnchain")
    return [file for place in places for file in sorted(place.glob("*.toml"))]


def _patterns() -> dict[str, bytes]:
    from random_files import file_at, slipped_at

    made = {f"random-{seed}": file_at(seed, 6, 4).text.encode() for seed in range(24)}
    made |= {f"slipped-{seed}": slipped_at(seed).text.encode() for seed in range(24)}
    return made | {file.stem: file.read_bytes() for file in pattern_files()}


def _pattern_words() -> set[str]:
    keys = {key for table in TABLES for key in table.keys}
    text = b"\n".join(_patterns().values()).decode()
    values = {str(value) for value in _leaves(tomllib.loads((TOP / "src/turnchain/starter.toml").read_text("utf-8")))}
    heads = {f"[[{key}]]" for key in keys if f"[[{key}]]" in text}
    return keys | values | heads | {" = ", '"24 in"', "1/8", "0.5", "[[0, 1]"}


def _leaves(value: object) -> Iterator[object]:
    inside = value.values() if isinstance(value, dict) else value if isinstance(value, list) else None
    if inside is None:
        yield value
    else:
        for one in inside:
            yield from _leaves(one)


# ---------------------------------------------------------------------------------------------------- written rows


@cache
def plans() -> tuple[Plan, ...]:
    """Small plans whose words and charts are begun from."""
    from nightly import planned_at, walk_at

    made = [planned_at(seed, rows=6, clusters=4) for seed in range(10)] + [walk_at(seed, 6, 4) for seed in range(10)]
    return (*(plan for plan in made if plan), planned(TOP / "tests" / "cases" / "kite_kerchief.toml", others=True))


@cache
def named() -> tuple[list[str], list[tuple[str, ...]]]:
    """The yarns that written rows may name, and every list of pieces among the plans."""
    yarns = {yarn.name: None for plan in plans() for yarn in plan.pattern.yarns}
    return list(yarns), sorted({tuple(piece.name for piece in plan.pieces) for plan in plans()})


def rows(data: bytes) -> None:
    """Written rows in one of three languages, which the first byte chooses: read and worked."""
    yarns, pieces = named()
    first = data[0] if data else 0
    language, names = LANGUAGES[first % 3], pieces[first // 3 % len(pieces)]
    try:
        read = read_words(data[1:].decode("utf-8", "replace"), language, yarns, names)
        for piece in read.pieces:
            work_piece(read.craft, piece)
    except (Unreadable, Unworkable):
        return
    finally:
        phrasebook(language, tuple(yarns)).told.clear()  # else the sentences of every input are remembered


def _rows() -> dict[str, bytes]:
    _, pieces = named()
    made = {}
    for nth, plan in enumerate(plans()):
        where = pieces.index(tuple(piece.name for piece in plan.pieces))
        for first, language in enumerate(LANGUAGES):
            made[f"{nth}-{language}"] = bytes([first + 3 * where]) + words.pattern_text(plan, language).encode()
    return made


def _row_words() -> set[str]:
    books = [phrasebook(name, tuple(named()[0])) for name in LANGUAGES]
    return {part.strip() for one in books for phrase in one.phrases.values() for part in phrase.split("|")}


# ---------------------------------------------------------------------------------------------------------- charts


def chart(data: bytes) -> None:
    """A chart as an SVG file: read by shape and worked."""
    try:
        work_chart(read_chart(data))
    except (UnreadableChart, Unworkable):
        return


def _charts() -> dict[str, bytes]:
    made = {}
    for nth, plan in enumerate(plans()):
        try:
            drawn = proving.svg_of(plan, plan.pieces[0].name).decode()
        except MakerError:
            continue
        # Without outlines and uses of letters, which are nine tenths of a file and never read.
        kept = [line for line in drawn.splitlines() if not re.search(r'"#?[rs]\.(?!3[0-9]"/)|<desc>|<title>', line)]
        made[f"{nth}"] = "\n".join(kept).encode()
    return made


def _chart_words() -> set[str]:
    return {"<use ", 'xlink:href="#', "<g ", "<path ", "<defs>", "</g>", "row-of-stitches-", "cluster-", "stripes"}


# --------------------------------------------------------------------------------------------------------- symbols


def symbol(data: bytes) -> None:
    """A symbol: read, placed in a chart and written."""
    try:
        found = glyphs.parse("own", "own.svg", data)
    except MakerError as error:
        if not str(error).strip():
            raise AssertionError("refused without a word") from error
        return
    placed = glyphs.place(found, (10, 30), (12, 10), 2)
    svg.write(Scene(40, 40, "t", "w", "en", {"own": placed}, (Use("own", 0, 0, INK),)), io.BytesIO())


def _symbols() -> dict[str, bytes]:
    return {file.stem: file.read_bytes() for file in sorted((TOP / "symbols").glob("*.svg"))}


def _symbol_words() -> set[str]:
    attributes = {name for names in glyphs.GEOMETRY.values() for name in names} | set(glyphs.STYLE)
    values = {'id="foot"', 'id="head"', "currentColor", "none", "<!--", "<![CDATA["}
    return {*glyphs.GEOMETRY, *attributes, *glyphs.WORDS, *values}


TARGETS = {
    "pattern": Target(pattern, _patterns, _pattern_words),
    "rows": Target(rows, _rows, _row_words),
    "chart": Target(chart, _charts, _chart_words),
    "symbol": Target(symbol, _symbols, _symbol_words),
}


def found(name: str) -> list[Path]:
    """What made the reader ``name`` fail once."""
    return sorted(file for file in (FOUND / name).glob("*") if file.is_file())
