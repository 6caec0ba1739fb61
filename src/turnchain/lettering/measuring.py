"""How wide words are, and what outlines they have.

In: words, a size in px and a weight. Out: widths in px and ``Steps`` in scene coordinates or, for files that
state each character once, its place and outline in the font's own units. Digits are of equal width (Lato's default
figures), so that columns of numbers stand straight.
"""

from __future__ import annotations

import math
import re
import unicodedata
from collections.abc import Iterator
from functools import cache, lru_cache
from itertools import accumulate

from turnchain.lettering import faces, ready
from turnchain.records import frozen
from turnchain.scene import Step, Steps, Text, Weight

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
    return "".join(map(_printable, unicodedata.normalize("NFC", words)))


def covered(words: str) -> bool:
    """Whether the fonts of all weights have every printable character of ``words``. A combining mark that NFC leaves by
    itself would need shaping, and counts as missing."""
    return all(
        _has(weight, character) and not unicodedata.combining(character)
        for weight in ready.FILES
        for character in printable(words)
    )


@lru_cache(4096)
def measure(words: str, size: float, weight: Weight = "regular") -> float:
    """The advance of ``words``, in the unit of ``size``, which is the length of an em; a character that the font lacks
    is as wide as the font's box for such."""
    return size * math.fsum(_glyph(weight, character).advance for character in printable(words))


def wrapped(words: str, width: float, size: float, weight: Weight = "regular") -> list[str]:
    """``words`` in lines no wider than ``width``, in the unit of ``size``, where spaces allow it; a longer word is a
    line of its own. At least one line, "" where there are no words."""
    lines: list[str] = []
    for word in words.split(" "):
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and measure(longer, size, weight) <= width:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines or [""]


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


def em(weight: Weight) -> int:
    """How many font units of ``weight`` make an em."""
    return ready.table(weight).em


def places(text: Text) -> list[tuple[str, float]]:
    """The printable characters of ``text`` from first to last, each with the x of its origin in font units (to a tenth)
    from the anchor, along the line of the text."""
    advances = [_found(text.weight, character)[0] for character in printable(text.words)]
    start = -SHIFTS[text.anchor] * math.fsum(advances)
    return [
        (character, round(start + before, 1) + 0.0)
        for character, before in zip(printable(text.words), accumulate(advances, initial=0), strict=False)
    ]


def path_data(weight: Weight, character: str) -> str:
    """The outline of ``character`` as SVG path data (M, L, H, V, Q, Z) in font units, y downwards, its origin at (0,
    0); "" for a blank. Quadratic curves stay as the font has them, and all numbers are whole or halves."""
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
    return character in ready.table(weight) or ord(character) in faces.characters(weight)


@cache
def _found(weight: Weight, character: str) -> tuple[int, str]:
    """Advance in font units, and path data."""
    return ready.table(weight).glyph(character) or faces.glyph(weight, character)


@cache
def _glyph(weight: Weight, character: str) -> _Glyph:
    advance, data = _found(weight, character)
    size = em(weight)
    return _Glyph(advance / size, tuple(_steps(data, size)))


_COMMAND = re.compile(r"([MLHVQZ])([^MLHVQZ]*)")
_PER_STEP = {"M": 2, "L": 2, "H": 1, "V": 1, "Q": 4}


def _steps(data: str, size: int) -> Iterator[Step]:
    """Path data in units of which ``size`` make an em, in ems, quadratic curves as cubic ones."""
    x = y = 0.0
    for letter, words in _COMMAND.findall(data):
        if letter == "Z":
            yield ("Z",)
            continue
        numbers = [float(word) / size for word in words.replace(",", " ").split()]
        for start in range(0, len(numbers), _PER_STEP[letter]):
            part = numbers[start : start + _PER_STEP[letter]]
            to_x, to_y = {"H": (part[0], y), "V": (x, part[0])}.get(letter, part[-2:])
            if letter == "Q":
                a, b = part[:2]
                first = (x + 2 / 3 * (a - x), y + 2 / 3 * (b - y))
                second = (to_x + 2 / 3 * (a - to_x), to_y + 2 / 3 * (b - to_y))
                yield ("C", *first, *second, to_x, to_y)
            else:
                # after the first place of an M come straight lines
                yield ("M" if letter == "M" and not start else "L", to_x, to_y)
            x, y = to_x, to_y
