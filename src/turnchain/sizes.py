"""Body size tables, head rounds and hook labels.

In: nothing. Out: measures in cm by table and size. Every figure names its table and says where it is from: **[seen]**,
read in a source (the Craft Yarn Council's tables, second hand; a published table of head rounds; hook sellers' lists),
or **[memory]**, general knowledge of the trade: a default that a maker's own measure replaces, and that no test may
rest on. Bodies outside a row are normal. These are measures of bodies, not of garments. For babies and men there is no
table: none was seen.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from typing import Final, Literal, TypeAlias

from turnchain.records import frozen, replace
from turnchain.units import INCH

TableName: TypeAlias = Literal["woman", "child"]


@frozen
class Measure:
    """A measure of bodies from ``least`` to ``most`` cm (the same where it is one figure); ``seen``: whether it was
    read in a source; ``table``: the name of the table it stands in, where that is not the one of its row, else
    empty."""

    least: Fraction
    most: Fraction
    seen: bool
    table: str = ""

    @property
    def middle(self) -> Fraction:
        """The middle of the range, in cm."""
        return (self.least + self.most) / 2


#: Measures by the names that the fields of a ``Wearer`` have; a row may lack some.
Row: TypeAlias = dict[str, Measure]


def _cm(text: str, seen: bool = False) -> list[Measure]:
    """Measures from "71-76, 81-86" or "69, 72", in cm."""
    return [_measure(part, Fraction(1), seen) for part in text.split(",")]


def _inches(text: str, seen: bool = True) -> list[Measure]:
    """The same, written in inches."""
    return [_measure(part, INCH, seen) for part in text.split(",")]


def _measure(text: str, unit: Fraction, seen: bool) -> Measure:
    least, _, most = text.strip().partition("-")
    low = Fraction(least) * unit
    return Measure(low, Fraction(most) * unit if most else low, seen)


def _table(sizes: str, columns: dict[str, list[Measure]]) -> dict[str, Row]:
    names = sizes.split()
    return {size: {measure: figures[nth] for measure, figures in columns.items()} for nth, size in enumerate(names)}


@cache
def heads() -> dict[str, Measure]:
    """Rounds of heads, by whose they are. [seen] Tables made for hats run smaller, because hats stretch, and are never
    used for a neck. The source has one range for all children over 3 years: what a head of 4 and one of 16 differ by,
    it does not say."""
    return {
        name: replace(_inches(span)[0], table=f"head rounds, {name}")
        for name, span in (
            ("to 6 months", "14-17"), ("6 to 12 months", "16-19"), ("1 to 3 years", "18-20"),
            ("over 3 years", "20-22"), ("woman", "21-23.5"), ("man", "22-24.5"),
        )
    }  # fmt: skip


@cache
def tables() -> dict[TableName, dict[str, Row]]:
    """The size tables: rows by size, from the smallest up."""
    return {"woman": _woman(), "child": _child()}


def _woman() -> dict[str, Row]:
    return _table(
        "XS S M L 1X 2X 3X 4X 5X",
        {
            # [seen], second hand
            "bust": _cm(
                "71-76, 81-86, 91.5-96.5, 101.5-106.5, 111.5-117, 122-127, 132-137, 142-147, 152-158", seen=True
            ),
            "head": [heads()["woman"]] * 9,
            # [memory] all that follow
            "neck_to_cuff": _cm("69, 72, 74, 77, 79, 81, 83, 83, 84"),
            "waist_length": _cm("42, 43, 43.5, 44.5, 45, 45.5, 45.5, 47, 47"),
            "cross_back": _cm("36, 37.5, 40, 42.5, 44.5, 45.5, 45.5, 47, 47"),
            "arm": _cm("42, 43, 43, 44.5, 44.5, 45.5, 45.5, 47, 47"),
            "upper_arm": _cm("25, 26, 28, 30.5, 34.5, 39.5, 43, 47, 49.5"),
            "armhole": _cm("16, 17, 18, 19.5, 21, 22, 23.5, 24.5, 26"),
            "waist": _cm("60, 65, 73, 84, 89, 104, 113, 118, 126"),
            "hip": _cm("85, 90, 99, 109, 119, 133, 138, 143, 156"),
        },
    )


def _child() -> dict[str, Row]:
    return _table(
        "2 4 6 8 10 12 14 16",
        {
            # [seen], second hand, but the last three chests [memory]
            "bust": [*_inches("21, 23, 25, 26.5, 28"), *_inches("30, 31.5, 32.5", seen=False)],
            # [seen] rounds by age; that a child's size is about its age is [memory]
            "head": [heads()["1 to 3 years"], *([heads()["over 3 years"]] * 7)],
            # [seen], second hand
            "cross_back": _inches("9.25, 9.75, 10.25, 10.75, 11.25, 12, 12.25, 13"),
            "upper_arm": _inches("7, 7.5, 8, 8.5, 8.75, 9, 9.25, 9.5"),
            "waist_length": _inches("8.5, 9.5, 10.5, 12.5, 14, 15, 15.5, 16"),
            "armhole": _inches("4.25, 4.75, 5, 5.5, 6, 6.5, 7, 7.5"),
            "arm": _inches("8.5, 10.5, 11.5, 12.5, 13.5, 15, 16, 16.5"),
        },
    )


# [memory] Where no own measure of a grown-up says so: how far below the nape hip and knee lie, in lengths from nape to
# waist. Children are built otherwise; for them these say nothing.
HIP_IN_WAIST_LENGTHS: Final = Fraction(148, 100)
KNEE_IN_WAIST_LENGTHS: Final = Fraction(24, 10)
#: How far below the waist a child's hip lies, in sizes 2 to 16 (crochetkitten.com, measurements for designers) [seen].
#: Where its knee lies no source was seen for, nor anything of a baby.
CHILD_HIP_BELOW_WAIST: Final = 2 * INCH

#: What no body measures less or more than, in cm, by measure: wide, so that a wrong unit or a mistyped figure is found
#: and no body is refused. No source: chosen with room on both sides.
POSSIBLE: Final[dict[str, tuple[int, int]]] = {
    "head": (25, 80),
    "bust": (25, 300),
    "waist": (25, 300),
    "hip": (25, 350),
    "waist_length": (10, 80),
    "hip_length": (15, 120),
    "knee_length": (25, 180),
    "cross_back": (12, 90),
    "arm": (8, 90),
    "upper_arm": (8, 110),
    "armhole": (6, 60),
    "neck_to_cuff": (20, 150),
}

# [memory] Names of ease, least cm of each: tables disagree by a step on what a name means, so cm are told first.
EASE_NAMES: Final[tuple[tuple[Fraction, str], ...]] = (
    (Fraction(15), "oversized"),
    (Fraction(10), "loose"),
    (Fraction(5), "classic"),
    (Fraction(0), "close"),
)

#: US labels of hooks by mm [seen]. The mm are what counts; labels vary between sellers.
HOOKS: Final[dict[Fraction, str]] = {
    Fraction(mm): label
    for mm, label in (
        ("2.25", "B-1"), ("2.75", "C-2"), ("3.25", "D-3"), ("3.5", "E-4"), ("3.75", "F-5"), ("4", "G-6"),
        ("4.5", "7"), ("5", "H-8"), ("5.5", "I-9"), ("6", "J-10"), ("6.5", "K-10.5"), ("8", "L-11"),
        ("9", "M/N-13"), ("10", "N/P-15"),
    )
}  # fmt: skip


def ease_name(ease: Fraction) -> str:
    """What so many cm of ``ease`` (garment less body, round the bust) are commonly called on grown-ups; "smaller than
    the body" below 0. Source: ``EASE_NAMES``."""
    return next((name for least, name in EASE_NAMES if ease >= least), "smaller than the body")
