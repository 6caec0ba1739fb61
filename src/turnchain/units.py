"""Lengths as makers write them, and back again in words.

In: numbers and text such as "24 in". Out: exact fractions of a centimetre, and text for messages. Nothing here is about
crochet.
"""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction
from math import floor
from typing import Final, Literal, TypeAlias, TypeGuard

Unit: TypeAlias = Literal["cm", "in"]

INCH: Final = Fraction("2.54")  # cm; the international yard and pound agreement of 1959

_CM: Final = {
    **dict.fromkeys(("cm", "centimetre", "centimetres", "centimeter", "centimeters"), Fraction(1)),
    **dict.fromkeys(("mm", "millimetre", "millimetres", "millimeter", "millimeters"), Fraction(1, 10)),
    **dict.fromkeys(("m", "metre", "metres", "meter", "meters"), Fraction(100)),
    **dict.fromkeys(("in", "in.", "inch", "inches", '"', "″", "”", "''"), INCH),
}
UNIT_NAMES: Final = tuple(_CM)  # in small letters
_TAPE: Final = {"¼": "1/4", "½": "1/2", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"}
#: Into how many parts a tape divides each unit, for makers.
_TAPE_PARTS: Final[dict[Unit, int]] = {"cm": 2, "in": 8}
_WRITTEN: Final = (  # compiled when the first length is read
    r"(?P<sign>[-−+]?)\s*"
    # "1,234" is left out on purpose: it is a thousand to one maker and little more than one to another.
    r"(?:(?P<decimal>[0-9]+\.?[0-9]*|\.[0-9]+|[0-9]+,[0-9]{1,2})"
    r"|(?:(?P<whole>[0-9]+)[ -]+)?(?P<over>[0-9]+)/(?P<under>[0-9]+))"
    r"\s*(?P<unit>[^0-9\s.,/-][^0-9\s]*)?"
)

_LARGEST: Final = 10**9
_SMALLEST: Final = Fraction(1, 10**9)
_MOST_DIGITS: Final = 30
_MOST_LETTERS: Final = 60


def number(value: object) -> Fraction:
    """The exact value of a number (a decimal fraction stays one: 0.1 is a tenth).

    ValueError, in makers' words, for anything else (bool as well), for nan and inf, for what is beyond 1e9 or, without
    being 0, nearer to 0 than 1e-9, and for a decimal fraction of more than 30 digits.
    """
    if not _is_number(value):
        raise ValueError("must be a number such as 12 or 12.5")
    # A float through its text: what was written, not the binary fraction next to it.
    exact: int | Decimal | Fraction = Decimal(repr(value)) if isinstance(value, float) else value
    if isinstance(exact, Decimal):
        if not exact.is_finite():
            raise ValueError("must be a number that can be measured or counted, such as 12.5")
        # Looked at before it is made a fraction: 1e999999999 would fill the memory.
        if exact and abs(exact.adjusted()) > 10:
            raise ValueError(_beyond(exact.adjusted() > 0))
        if len(exact.as_tuple().digits) > _MOST_DIGITS:
            raise ValueError(f"must be written with at most {_MOST_DIGITS} digits")
    found = Fraction(exact) if exact else Fraction(0)  # 0e-999999999 is a zero as well
    if found and not _SMALLEST <= abs(found) <= _LARGEST:
        raise ValueError(_beyond(abs(found) > 1))
    return found


def length(value: object, unit: Unit) -> Fraction:
    """Centimetres, exactly, of a number (in ``unit``) or of text such as "24 in", "61 cm", "240 mm",
    "21 1/4 in" or "24,5 cm"; text without a unit is in ``unit`` as well. Zero is a length.

    ValueError, in makers' words, for what is no length or a negative one, for text of more than 60 characters, and for
    numbers that ``number`` refuses.
    """
    if isinstance(value, str):
        cm = _written(value, unit)
    elif _is_number(value):
        cm = number(value) * _CM[unit]
    else:
        raise ValueError('must be a length such as 54, "24 in" or "61 cm"')
    if cm < 0:
        raise ValueError("must not be less than 0")
    return cm


def shown(cm: Fraction, unit: Unit) -> str:
    """``cm`` as text in ``unit``, to two decimals at most: "54 cm", "61.09 in"."""
    return f"{plain(cm / _CM[unit])} {unit}"


def tailored(cm: Fraction, unit: Unit) -> str:
    """``cm`` as text as exactly as a tape is read in making up: to half a cm, or to an eighth of an inch: "54.5 cm",
    "21 1/4 in". Ties go up. What would come to 0 is as in ``shown``. For lengths, which are not negative."""
    parts, steps = _TAPE_PARTS[unit], _tape_steps(cm, unit)
    if not steps:
        return shown(cm, unit)
    whole, rest = divmod(steps, parts)
    if unit == "cm":
        return f"{plain(Fraction(steps, parts))} cm"
    over = Fraction(rest, parts)
    told = [str(whole)] if whole else []
    told += [f"{over.numerator}/{over.denominator}"] if rest else []
    return f"{' '.join(told)} in"


def taped(cm: Fraction, unit: Unit) -> Fraction:
    """The length in cm that ``tailored`` says of ``cm``."""
    steps = _tape_steps(cm, unit)
    return steps * _CM[unit] / _TAPE_PARTS[unit] if steps else cm


def _tape_steps(cm: Fraction, unit: Unit) -> int:
    return floor(cm / _CM[unit] * _TAPE_PARTS[unit] + Fraction(1, 2))


def handy(cm: Fraction, unit: Unit) -> str:
    """``cm`` as text for a length that need not be exact: to half an inch or half a cm. What would come to 0 is as in
    ``shown``."""
    halves = Fraction(round(2 * cm / _CM[unit]), 2)
    return f"{plain(halves)} {unit}" if halves else shown(cm, unit)


#: The length that a gauge is given over in each unit, in words and in cm.
SWATCH_WORDS: Final[dict[Unit, str]] = {"cm": "10 cm", "in": "4 in"}
_SWATCH_CM: Final[dict[Unit, Fraction]] = {"cm": Fraction(10), "in": 4 * INCH}


def per_swatch(cm: Fraction, unit: Unit) -> str:
    """How many lengths of ``cm``, as of a stitch or a row, go into 10 cm or 4 in, to a tenth and without a unit: "8.6".
    ZeroDivisionError for a length of 0."""
    return f"{float(_SWATCH_CM[unit] / cm):.1f}"


def plain(value: Fraction) -> str:
    """``value`` (of any unit) to two decimals at most and without zeros at the end: "54", "8.5"; never "-0"."""
    hundredths = round(abs(value) * 100)
    sign = "-" if value < 0 and hundredths else ""
    return f"{sign}{hundredths // 100}.{hundredths % 100:02}".rstrip("0").rstrip(".")


def _is_number(value: object) -> TypeGuard[int | float | Decimal | Fraction]:
    return isinstance(value, int | float | Decimal | Fraction) and not isinstance(value, bool)


def _written(text: str, unit: Unit) -> Fraction:
    """Centimetres of a written length, which may still be negative."""
    tidy = text[: _MOST_LETTERS + 1].strip().lower()
    for sign, parts in _TAPE.items():
        tidy = tidy.replace(sign, f" {parts}")
    found = re.fullmatch(_WRITTEN, tidy.strip())
    if found is None or len(text) > _MOST_LETTERS:
        if re.match(r"[-+]?[0-9]+,[0-9]{3}", tidy):
            raise ValueError('must have a decimal point and no comma between thousands, such as "1200 mm"')
        raise ValueError('must be a length such as 54, "24 in", "61 cm" or "240 mm"')
    if (name := found["unit"] or unit) not in _CM:
        raise ValueError('must have the unit cm, mm, m or in, such as "24 in"')
    if found["decimal"]:
        size = number(Decimal(found["decimal"].replace(",", ".")))
    elif int(found["under"]) == 0:
        raise ValueError('must be a length such as "21 1/4 in"')
    else:
        size = number(int(found["whole"] or 0) + Fraction(int(found["over"]), int(found["under"])))
    return (-size if found["sign"] in ("-", "−") else size) * _CM[name]


def _beyond(large: bool) -> str:
    return "must be at most 1 000 000 000" if large else "must be at least 0.000000001, if not 0"
