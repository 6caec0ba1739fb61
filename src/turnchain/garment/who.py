"""Whom a pattern is for: as the pattern file says, or as its measures and words suggest.

In: a plan. Out: ``WornBy``. The cautions depend on it; where the file does not say, the more careful reading counts and
the report asks whom it is for.
"""

from __future__ import annotations

import re
from typing import Literal, TypeAlias

from turnchain.fabric.plan import Plan
from turnchain.garment import body
from turnchain.pattern import Pattern, Who
from turnchain.records import frozen

#: Where it is known from: the key ``who``, the size table, own measures, the words of title, note and pieces, nowhere.
Source: TypeAlias = Literal["who", "table", "measures", "words", ""]

_BABY = (
    r"bab(y|ies)|baby's|infants?|newborns?|cots?|cribs?|prams?|layettes?|bootees?|booties|lov(ey|eys|ies)|"
    r"play ?mats?|nurser(y|ies)|christenings?"
)
_CHILD = (
    r"child|children|child's|children's|kids?|kid's|toddlers?|girls?|boys?|youths?|juniors?|teens?|teenagers?|"
    r"toys?|age[ds]? ([1-9]|1[0-7])|([1-9]|1[0-7])[ -]?(years?|yrs?)[ -]old"
)


@frozen
class WornBy:
    """``who`` it is for (None: nothing tells), from which ``source``, and the ``word`` of the pattern that suggests it,
    in small letters (empty: another source)."""

    who: Who | None
    source: Source
    word: str = ""

    @property
    def young(self) -> bool:
        """Whether it is for a child or a baby, said or suggested."""
        return self.who in ("child", "baby")

    @property
    def suggested(self) -> bool:
        """Whether it is not said whom it is for, but suggested by measures or words."""
        return self.source in ("measures", "words")


def of(plan: Plan) -> WornBy:
    """Whom the pattern is for. The first of these that tells: the key ``who``; a word for babies, where no size table
    is named; the size table; measures smaller than any woman's; a word for children; an own bust (an adult)."""
    wearer = plan.pattern.wearer
    if wearer is not None and wearer.who is not None:
        return WornBy(wearer.who, "who")
    word = found(_BABY, words(plan.pattern))
    if word and (wearer is None or wearer.table is None):
        return WornBy("baby", "words", word)
    if wearer is not None and wearer.table is not None:
        return WornBy("child" if wearer.table == "child" else "adult", "table")
    if body.is_child(wearer):
        return WornBy("child", "measures")
    if word := found(_CHILD, words(plan.pattern)):
        return WornBy("child", "words", word)
    return WornBy("adult", "measures") if wearer is not None and wearer.bust is not None else WornBy(None, "")


def words(pattern: Pattern) -> str:
    """Title, note and names of pieces in one text, in small letters (casefolded)."""
    return " ".join((pattern.title, pattern.note, *(piece.name for piece in pattern.pieces))).casefold()


def found(one_of: str, text: str) -> str:
    """The first whole word or words of ``text`` that match ``one_of``, a regular expression of alternatives; empty
    where there are none."""
    match = re.search(rf"(?<![^\W_])(?:{one_of})(?![^\W_])", text)
    return match[0] if match else ""
