"""Cautions that go with a pattern: what can hurt, and whose rules apply.

In: a plan. Out: ``Caution`` s, only those that its pieces, words and wearer call for. Each names the rules it was taken
from; figures that no source was seen for are left out. None of this replaces local rules.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from turnchain.fabric.plan import Plan
from turnchain.garment import roles

ALWAYS = "follow your local rules; ask a qualified person where a child's safety depends on it"

_CHILD = r"child|children|child's|kids?|toddlers?|girls?|boys?"
_BABY = r"bab(y|ies)|baby's|infants?|newborns?|cots?|cribs?|prams?|layette|bootees?|booties"
_COVER = r"blankets?|throws?|covers?|coverlets?|quilts?|afghans?|shawls?"
_CORD = r"ties?|cords?|strings?|drawstrings?|straps?|ribbons?|laces?|belts?"
_SLEEP = r"pyjamas?|pajamas?|nightgowns?|nightdress(es)?|nightshirts?|sleepwear|sleep"


@dataclass(frozen=True, slots=True)
class Caution:
    """``about`` what, the caution in ``words``, and ``because`` of what in the pattern it is given."""

    about: str
    words: str
    because: str


def lines(plan: Plan) -> list[str]:
    """Every caution that applies, one to a line, and always whose rules to follow."""
    return [*(f"{one.about} ({one.because}): {one.words}" for one in cautions(plan)), ALWAYS]


def cautions(plan: Plan) -> list[Caution]:
    """Every caution that applies."""
    known = _Known(plan)
    return [*_sleep(known), *_cords(known), *_mesh(known), *_small_parts(known), *_flame(known)]


class _Known:
    """What is known of a pattern: from its words, its pieces and its wearer."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        pieces = " ".join(piece.name for piece in plan.pieces)
        self.pieces = pieces.casefold()
        self.words = f"{plan.pattern.title} {plan.pattern.note} {pieces}".casefold()

    @cached_property
    def baby(self) -> bool:
        """The words speak of a baby."""
        return _has(_BABY, self.words)

    @cached_property
    def child(self) -> str:
        """Why this is taken for a child's piece; empty where nothing says so."""
        wearer = self.plan.pattern.wearer
        if wearer is not None and wearer.table == "child":
            return "for a child's size"
        if self.baby:
            return "for a baby, as its words say"
        return "for a child, as its words say" if _has(_CHILD, self.words) else ""

    @cached_property
    def grown(self) -> bool:
        """The wearer is a grown-up."""
        wearer = self.plan.pattern.wearer
        return not self.child and wearer is not None and wearer.table == "woman"

    @cached_property
    def cover(self) -> bool:
        """Something to lie under."""
        return _has(_COVER, self.words)

    @cached_property
    def garment(self) -> bool:
        """Something to wear, as its pieces say."""
        return any(part.role != "other" for part in roles.parts(self.plan)) or self.plan.pattern.wearer is not None

    @cached_property
    def open(self) -> bool:
        """The fabric has gaps."""
        return self.plan.pieces[0].fabric.gap > 0

    @cached_property
    def corded(self) -> bool:
        """A piece is a cord, by its name."""
        return _has(_CORD, self.pieces)


def _has(words: str, text: str) -> bool:
    return re.search(rf"(?<![^\W_])({words})(?![^\W_])", text) is not None


def _sleep(known: _Known) -> Iterator[Caution]:
    if not (known.cover or known.baby) or known.grown:
        return
    because = "for a baby, as its words say" if known.baby else "a cover, and babies are given covers"
    yield Caution(
        "sleep",
        "under 12 months no blanket and no loose cover belongs where a baby sleeps (AAP 2022); what is sold for cots "
        "and as sleep bags has rules of its own (EN 16779-1, EN 16781)",
        because,
    )


def _cords(known: _Known) -> Iterator[Caution]:
    if known.grown or not (known.child or known.corded):
        return
    head = "" if known.child else "if it is for a child: "
    yield Caution(
        "cords",
        f"{head}no cords or drawstrings at hood or neck up to 7 years; elsewhere, to 14 years, only as EN 14682 has "
        "it (in the US 16 CFR 1120 with ASTM F1816)",
        known.child or "a piece is a cord or a tie",
    )


def _mesh(known: _Known) -> Iterator[Caution]:
    if not known.open or known.grown or not (known.child or known.cover):
        return
    head = "" if known.child else "if it is for a baby: "
    yield Caution(
        "open fabric",
        f"{head}gaps and carried strands trap fingers and toes; the closed fabric (gap = 0) has none, and strands are "
        "woven in or cut on the wrong side",
        known.child or "an open fabric, and a cover",
    )


def _small_parts(known: _Known) -> Iterator[Caution]:
    if known.child:
        yield Caution(
            "small parts",
            "buttons, toggles and pompoms come off and choke: none for small children, and all others sewn on to stay "
            "(in the US 16 CFR 1501; mechanical safety of children's clothing CEN/TR 16792)",
            known.child,
        )


def _flame(known: _Known) -> Iterator[Caution]:
    if not (known.garment or known.open or known.cover):
        return
    rules = "16 CFR 1610"
    if known.child:
        rules += ", for children's sleepwear 1615 and 1616"
    sleepwear = "; this is not sleepwear unless the yarn is tested for it" if _has(_SLEEP, known.words) else ""
    yield Caution(
        "flame",
        f"keep {'open fabric' if known.open else 'it'} off flames and heaters (in the US {rules}){sleepwear}",
        "open fabric" if known.open else "yarn burns",
    )
