"""How wide words are, and what outlines they have.

In: words, a size in px and a weight. Out: widths in px and ``Steps`` in scene coordinates or, for files that
state each character once, its place and outline in the font's own units. Digits are of equal width (Lato's default
figures), so that columns of numbers stand straight.
"""

from __future__ import annotations

import math
import re
import unicodedata
from collections.abc import Iterable, Iterator
from functools import cache, lru_cache
from itertools import accumulate, groupby
from typing import TYPE_CHECKING, cast

from turnchain.lettering import faces, others, ready, scripts
from turnchain.records import frozen
from turnchain.scene import Anchor, Step, Steps, Text, Weight

if TYPE_CHECKING:
    from turnchain.lettering.opened import Face

#: How much of the advance lies left of the anchor.
SHIFTS = {"start": 0.0, "middle": 0.5, "end": 1.0}


@frozen
class _Glyph:
    """One character in ems: its advance and its outline, y downwards, the baseline at 0."""

    advance: float
    steps: Steps


@lru_cache(4096)
def printable(words: str) -> str:
    """``words`` on one line: composed (NFC), blanks for line ends and tabs, without control characters, and
    with U+FFFD for what no file may hold (lone surrogates and non-characters)."""
    if words.isascii() and words.isprintable():
        return words
    return "".join(map(_printable, unicodedata.normalize("NFC", words)))


@others.renewed
@lru_cache(4096)
def covered(words: str) -> bool:
    """Whether there is an outline of every printable character of ``words`` in all weights, in the shipped fonts or in
    ``others``. A combining mark that NFC leaves by itself would need shaping, and counts as missing."""
    return all(
        _has(weight, character) and not unicodedata.combining(character)
        for weight in ready.FILES
        for character in printable(words)
    )


def lacking(character: str) -> bool:
    """Whether the shipped fonts have no outline of ``character``; blanks and what is never printed do not count."""
    return any(one != " " and not _is_shipped("regular", one) for one in printable(character))


def load() -> None:
    """Loads the shipped letters, which are else loaded with the first of them."""
    for weight in ready.FILES:
        ready.table(weight)


def written(words: Iterable[str]) -> None:
    """From now on ``words`` are what is written: letters that the shipped fonts lack are drawn in its writing."""
    others.write(" ".join(map(printable, words)))


def told() -> list[str]:
    """What a maker is told about the fonts for what was last ``written``; empty where the shipped ones are enough."""
    return others.told(lacking)


def fonts_digest(words: Iterable[str]) -> str:
    """What says which fonts draw ``words`` beside the shipped ones: it changes with their files."""
    return others.digest(map(printable, words), lacking)


@others.renewed
@lru_cache(4096)
def measure(words: str, size: float, weight: Weight = "regular") -> float:
    """The advance of ``words``, in the unit of ``size``, which is the length of an em; a character that the font lacks
    is as wide as the font's box for such, those of East Asia that are a whole em."""
    em_of_font = em(weight)
    return size * math.fsum(_found(weight, character)[0] / em_of_font for character in printable(words))


def wrapped(words: str, width: float, size: float, weight: Weight = "regular") -> list[str]:
    """``words`` in lines no wider than ``width``, in the unit of ``size``, where spaces allow it and between Chinese
    and Japanese letters; a longer word is a line of its own. At least one line, "" where there are no words."""
    lines: list[str] = []
    for blank, piece in _pieces(words):
        longer = f"{lines[-1]}{blank}{piece}" if lines else piece
        if lines and measure(longer, size, weight) <= width:
            lines[-1] = longer
        else:
            lines.append(piece)
    return lines or [""]


#: A blank at which a line may break: not one before a sign of French punctuation, nor inside its quotes.
_BLANK = re.compile(r"(?<!«) (?![;:!?»])")


def _pieces(words: str) -> Iterator[tuple[str, str]]:
    """The parts between which a line may break, each with what parts it from the one before: a blank or nothing."""
    for word in _BLANK.split(words):
        parts = iter((word,) if word.isascii() else scripts.pieces(word))
        yield " ", next(parts)
        yield from (("", part) for part in parts)


def outlines(text: Text) -> Steps:
    """The outlines of ``text`` in scene coordinates (px, y downwards), to be filled by the non-zero rule.

    A character that the font lacks becomes the font's box for such: it is seen, and the same everywhere. Where live
    text is better than boxes, look at ``covered`` first.
    """
    start = -SHIFTS[text.anchor] * measure(text.words, text.size, text.weight)
    cosine, sine = math.cos(math.radians(text.turn)), math.sin(math.radians(text.turn))
    along, across = text.size * cosine, text.size * sine
    steps: list[Step] = []
    for character in printable(text.words):
        glyph = _glyph(text.weight, character)
        x, y = text.x + start * cosine, text.y + start * sine
        steps += [_moved(step, x, y, along, across) for step in glyph.steps]
        start += text.size * glyph.advance
    return tuple(steps)


def letter(weight: Weight, character: str) -> Steps:
    """The outline of the printable ``character`` in ems, y downwards, its origin at (0, 0)."""
    return _glyph(weight, character).steps


def em(weight: Weight) -> int:
    """How many font units of ``weight`` make an em."""
    return ready.table(weight).em


def places(text: Text) -> tuple[tuple[str, float], ...]:
    """The printable characters of ``text`` from first to last, each with the x of its origin in font units (to a tenth)
    from the anchor, along the line of the text."""
    return places_of(text.words, text.weight, text.anchor)


@others.renewed
@lru_cache(4096)
def places_of(words: str, weight: Weight, anchor: Anchor) -> tuple[tuple[str, float], ...]:
    """As ``places``, of a text with these ``words``."""
    advances = [_found(weight, character)[0] for character in printable(words)]
    start = -SHIFTS[anchor] * math.fsum(advances)
    return tuple(
        (character, round(start + before, 1) + 0.0)
        for character, before in zip(printable(words), accumulate(advances, initial=0), strict=False)
    )


def runs(words: str, weight: Weight) -> list[tuple[Face | None, str]]:
    """``words``, which are printable, in parts that are drawn from one font each: the face, None for the shipped font,
    whose boxes also stand for what no font has."""
    faces_of = ((character, _face_of(weight, character)) for character in words)
    return [(face, "".join(one for one, _ in run)) for face, run in groupby(faces_of, key=lambda pair: pair[1])]


def _face_of(weight: Weight, character: str) -> Face | None:
    return None if _is_shipped(weight, character) else others.face_of(weight, character)


def path_data(weight: Weight, character: str) -> str:
    """The outline of ``character`` as SVG path data (M, L, H, V, C, Q, Z) in font units, y downwards, its origin at (0,
    0); "" for a blank. Curves stay as the font has them; numbers of the shipped fonts are whole or halves."""
    return _found(weight, character)[1]


def _moved(step: Step, x: float, y: float, along: float, across: float) -> Step:
    """``step`` scaled and turned by (along, across), then moved to (x, y)."""
    if len(step) == 1:
        return step
    if len(step) == 3:
        letter, a, b = step
        return letter, x + along * a - across * b, y + across * a + along * b
    letter, a, b, c, d, e, f = step
    return (
        letter,
        x + along * a - across * b,
        y + across * a + along * b,
        x + along * c - across * d,
        y + across * c + along * d,
        x + along * e - across * f,
        y + across * e + along * f,
    )


def _printable(character: str) -> str:
    if character.isprintable():
        return character
    if character.isspace():
        return " "
    match unicodedata.category(character):
        case "Cc":
            return ""
        case "Cs":
            return "\N{REPLACEMENT CHARACTER}"
        case "Cn" if ord(character) & 0xFFFE == 0xFFFE or "\ufdd0" <= character <= "\ufdef":
            return "\N{REPLACEMENT CHARACTER}"
    return character


def _has(weight: Weight, character: str) -> bool:
    return _is_shipped(weight, character) or others.face_of(weight, character) is not None


def _is_shipped(weight: Weight, character: str) -> bool:
    return character in ready.table(weight) or ord(character) in faces.characters(weight)


@others.renewed
@cache
def _found(weight: Weight, character: str) -> tuple[int, str]:
    """Advance in font units, and path data."""
    if not _is_shipped(weight, character):
        return others.glyph(weight, character) or _missing(weight, character)
    return ready.table(weight).glyph(character) or faces.glyph(weight, character)


def _missing(weight: Weight, character: str) -> tuple[int, str]:
    """The box for ``character``, as wide as a viewer's own font will draw it: of East Asian letters a whole em."""
    advance, outline = faces.glyph(weight, character)
    return em(weight) if unicodedata.east_asian_width(character) in "WF" else advance, outline


@others.renewed
@cache
def _glyph(weight: Weight, character: str) -> _Glyph:
    advance, data = _found(weight, character)
    size = em(weight)
    return _Glyph(advance / size, tuple(_steps(data, size)))


_COMMAND = re.compile(r"([MLHVCQZ])([^MLHVCQZ]*)")
_PER_STEP = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "Q": 4}


def _steps(data: str, size: int) -> Iterator[Step]:
    """Path data in units of which ``size`` make an em, in ems, quadratic curves as cubic ones."""
    x = y = 0.0
    for letter, words in _COMMAND.findall(data):
        if letter == "Z":
            yield ("Z",)
            continue
        numbers = [float(word) / size for word in words.replace(",", " ").split()]
        for start in range(0, len(numbers), _PER_STEP[letter]):
            if letter == "Q":
                a, b, to_x, to_y = numbers[start : start + 4]
                first = (x + 2 / 3 * (a - x), y + 2 / 3 * (b - y))
                second = (to_x + 2 / 3 * (a - to_x), to_y + 2 / 3 * (b - to_y))
                yield ("C", *first, *second, to_x, to_y)
                x, y = to_x, to_y
                continue
            if letter == "C":
                part = numbers[start : start + 6]
                yield cast(Step, ("C", *part))
                x, y = part[4:]
                continue
            match letter:
                case "H":
                    x = numbers[start]
                case "V":
                    y = numbers[start]
                case _:
                    x, y = numbers[start : start + 2]
            # after the first place of an M come straight lines
            yield ("M" if letter == "M" and not start else "L", x, y)
