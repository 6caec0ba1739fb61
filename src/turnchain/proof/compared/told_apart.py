"""Which stripes are hard to tell apart, as the report says with its colours, held against the rows as worked.

In: worked cloths, the colours of their yarns, the inks that symbols are drawn in, and the lines. Out: how many were
looked at, and what does not agree, in words. Where two yarns first lie side by side is found on the cloth; lightness
and contrast are worked out from their published formulas (CIE, WCAG), differences by a library.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Final, TypeAlias

from turnchain.proof.cloth.edges import WorkedCloth
from turnchain.proof.compared.hues import apart, first_meetings

_CLEAR: Final = 10.0  # of CIEDE2000, and of L*
_LEGIBLE: Final = 4.5
_ROUNDED: Final = 0.06  # figures are printed with one decimal, and libraries may round otherwise
_VISIONS: Final = {"protan": "red-blind", "deutan": "green-blind", "tritan": "blue-blind"}
_PLACE: Final = r"(?P<names>.+) \((?P<piece>.+), rows (?P<low>\d+) and (?P<high>\d+)\)"
_ALIKE: Final = re.compile(
    rf"{_PLACE} are too alike to show a stripe: they differ by (?P<off>[\d.]+), where 10 is clear"
)
_BLIND: Final = re.compile(rf"{_PLACE} look alike to (?P<readers>.+) readers; the letters tell them apart")
_GREY: Final = re.compile(rf"{_PLACE} come out as one grey in a photocopy; the letters tell them apart")
_HARD: Final = re.compile(r"symbols on (?P<yarn>.+) are hard to read: (?P<contrast>[\d.]+) to 1, where 4.5 is needed")
_ALL_CLEAR: Final = "every stripe can be told from its neighbours"
_DAYLIGHT: Final = "colours as a screen shows them: lay the yarns side by side in daylight before you decide"
#: What is said (by a letter, or the kind of reader), of whom, and where; how sure it is: how far from its bound.
_Found: TypeAlias = dict[tuple[str, str, str], float]


def lines(
    cloths: Sequence[WorkedCloth], said: Sequence[str], colours: Mapping[str, str], inks: Sequence[str]
) -> tuple[int, list[str]]:
    """The lines ``said`` under "colours"; ``colours`` by the names of yarns, and ``inks``, all as "#rrggbb"."""
    wanted = {**_pairs(cloths, colours), **_illegible(colours, inks)}
    told = [one for line in said if line not in (_ALL_CLEAR, _DAYLIGHT) for one in _read(line, colours, inks)]
    wrong = [f'"{words}" is told' for _, words, _ in (one for one in told if wanted.get(one, -1.0) < -_ROUNDED)]
    wrong += [f"{names}, {where}: {what} is not told" for (what, names, where), sure in wanted.items()
              if sure > _ROUNDED and (what, names, where) not in told]  # fmt: skip
    if said and (_ALL_CLEAR in said, _DAYLIGHT in said) != (not told, bool(told)):
        wrong.append("whether all stripes can be told apart is told otherwise")
    return len(told) + bool(said), wrong


def _pairs(cloths: Sequence[WorkedCloth], colours: Mapping[str, str]) -> _Found:
    """Of every two yarns that lie side by side what should be told, and by how much it is so."""
    found: _Found = {}
    for pair, (piece, low, high) in first_meetings(cloths).items():
        names, where = " and ".join(sorted(pair)), f"{piece}, rows {low} and {high}"
        one, other = (colours[name] for name in sorted(pair))
        alike = _CLEAR - apart(one, other)
        found["alike", names, where] = alike
        for vision, reader in _VISIONS.items():
            seen = _CLEAR - apart(_seen(one, vision), _seen(other, vision))
            found[reader, names, where] = min(seen, -alike)
        found["grey", names, where] = min(_CLEAR - abs(_lightness(one) - _lightness(other)), -alike)
    return found


def _illegible(colours: Mapping[str, str], inks: Sequence[str]) -> _Found:
    return {("hard", name, ""): _LEGIBLE - _contrast(colour, inks) for name, colour in colours.items()}


def _read(line: str, colours: Mapping[str, str], inks: Sequence[str]) -> Iterator[tuple[str, str, str]]:
    """What a line says; as something that is never so where it cannot be read, or has another figure."""
    never = ("never", line, "")
    if hard := _HARD.fullmatch(line):
        contrast = _contrast(colours[hard["yarn"]], inks) if hard["yarn"] in colours else 0.0
        near = abs(float(hard["contrast"]) - contrast) < _ROUNDED
        yield ("hard", hard["yarn"], "") if near else never
    elif found := _ALIKE.fullmatch(line) or _BLIND.fullmatch(line) or _GREY.fullmatch(line):
        pair = [(one, other) for one in colours for other in colours if found["names"] == f"{one} and {other}"]
        if not pair:
            yield never
            return
        names, where = " and ".join(sorted(pair[0])), f"{found['piece']}, rows {found['low']} and {found['high']}"
        if found.re is _ALIKE:
            near = abs(float(found["off"]) - apart(*(colours[name] for name in pair[0]))) < _ROUNDED
            yield ("alike", names, where) if near else never
        else:
            readers = re.split(r", | and ", found["readers"]) if found.re is _BLIND else ["grey"]
            yield from ((reader, names, where) for reader in readers)
    else:
        yield never


def _seen(colour: str, vision: str) -> str:
    from coloraide import Color  # a quarter of a second: only where colours are compared

    seen = Color(colour).filter(vision, 1, method="machado", space="srgb-linear", out_space="srgb")
    return str(seen.clip().to_string(hex=True))


def _luminance(colour: str) -> float:
    """Relative luminance, by the formula of WCAG 2."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _lightness(colour: str) -> float:
    """L* of CIE Lab, 0 to 100."""
    bright = _luminance(colour)
    return 116 * bright ** (1 / 3) - 16 if bright > (6 / 29) ** 3 else bright * (29 / 3) ** 3


def _contrast(colour: str, inks: Sequence[str]) -> float:
    """The best contrast of an ink on a colour, by WCAG 2."""
    ground = _luminance(colour)
    pairs = [sorted((ground, _luminance(ink))) for ink in inks]
    return max((light + 0.05) / (dark + 0.05) for dark, light in pairs)
