"""Whom a pattern is for: as the pattern file says, or as its measures and words suggest.

In: a plan. Out: ``WornBy``. Cautions hang on it; where the file does not say, the more careful reading counts and the
report asks.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal, TypeAlias

from turnchain.fabric.plan import Plan
from turnchain.garment import body
from turnchain.pattern import Pattern, Who

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


@dataclass(frozen=True, slots=True)
class WornBy:
    """``who`` it is for (None: nothing tells), from which ``source``, and the ``word`` that suggests it."""

    who: Who | None
    source: Source
    word: str = ""

    @property
    def young(self) -> bool:
        """For a child or a baby, said or suggested."""
        return self.who in ("child", "baby")

    @property
    def suggested(self) -> bool:
        """Not said, but suggested by measures or words."""
        return self.source in ("measures", "words")


def of(plan: Plan) -> WornBy:
    """Whom the pattern is for."""
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
    """All that the maker says of the pattern, in small letters."""
    return " ".join((pattern.title, pattern.note, *(piece.name for piece in pattern.pieces))).casefold()


def found(one_of: str, text: str) -> str:
    """The first whole word of ``text`` that is ``one_of``; empty where there is none."""
    match = re.search(rf"(?<![^\W_])(?:{one_of})(?![^\W_])", text)
    return match[0] if match else ""
