"""Cautions that go with a pattern: what can hurt, and why it is said here.

In: a plan. Out: ``Caution`` s, only those that its pieces, words, yarns and wearer call for; ``caution_words`` says
them. None of this replaces local rules.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property
from typing import Literal, TypeAlias

from turnchain.fabric.plan import Plan
from turnchain.garment import roles, who
from turnchain.garment.who import WornBy
from turnchain.pattern import Fibre, Who
from turnchain.records import frozen

Subject: TypeAlias = Literal[
    "sleep", "cords", "open fabric", "loose ends", "small parts", "flame", "blocking", "washing", "hands", "selling"
]
#: Why a caution is given: whom it is for, or what the work is.
Reason: TypeAlias = Literal["wearer", "cover", "cord", "open cover", "open fabric", "yarn", "work"]

_COVER = r"blankets?|throws?|covers?|coverlets?|quilts?|afghans?|shawls?"
_CORD = r"ties?|cords?|strings?|drawstrings?|straps?|ribbons?|laces?|belts?"
_SLEEP = r"pyjamas?|pajamas?|nightgowns?|nightdress(es)?|nightshirts?|sleepwear|sleep"


@frozen
class Caution:
    """A caution about ``subject``, given for a ``reason``.

    ``worn``: whom the pattern is for. ``certain``: it holds as it stands; else only if the piece is for a child or a
    baby. ``fibres`` (of washing alone) are those of the yarns, each once; of flame alone, ``sleepwear`` says that a
    word of the pattern is one for what is slept in, ``open_fabric`` that a piece has gaps between its clusters.
    """

    subject: Subject
    reason: Reason
    worn: WornBy
    certain: bool = True
    fibres: tuple[Fibre, ...] = ()
    sleepwear: bool = False
    open_fabric: bool = False


def cautions(plan: Plan) -> list[Caution]:
    """Every caution that applies, the gravest first; blocking, washing and hands always, so it is never empty."""
    known = _Known(plan)
    found = [
        *_sleep(known), *_cords(known), *_mesh(known), *_loose(known), *_small_parts(known), *_flame(known),
        Caution("blocking", "work", known.worn),
        Caution("washing", "work", known.worn, fibres=known.fibres),
        Caution("hands", "work", known.worn),
    ]  # fmt: skip
    return [*found, Caution("selling", "wearer", known.worn)] if known.worn.young else found


class _Known:
    """What is known of a pattern: from its words, its pieces, yarns and wearer."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self.worn = who.of(plan)
        self.words = who.words(plan.pattern)
        self.pieces = " ".join(piece.name for piece in plan.pieces).casefold()
        self.fibres = tuple(dict.fromkeys(yarn.fibre for yarn in plan.pattern.yarns if yarn.fibre is not None))
        self.open = any(piece.recipe.gap > 0 for piece in plan.pieces)

    def is_for(self, *wearers: Who) -> bool:
        """Whether it is for one of these, said or suggested."""
        return self.worn.who in wearers

    @cached_property
    def cover(self) -> bool:
        """Something to lie under."""
        return bool(who.found(_COVER, self.words))

    @cached_property
    def garment(self) -> bool:
        """Something to wear, as its pieces say."""
        worn = any(part.role != "other" for part in roles.parts(self.plan))
        return worn or (self.plan.pattern.wearer is not None and not self.is_for("home"))

    @cached_property
    def corded(self) -> bool:
        """A piece is a cord, by its name, or a border has ties or a strap."""
        tied = any(one.tie or one.strap for one in self.plan.pattern.edgings)
        return tied or bool(who.found(_CORD, self.pieces))


def _sleep(known: _Known) -> Iterator[Caution]:
    baby = known.is_for("baby")
    if baby or (known.cover and not known.is_for("adult", "pet")):
        yield Caution("sleep", "wearer" if baby else "cover", known.worn)


def _cords(known: _Known) -> Iterator[Caution]:
    if known.worn.young:
        yield Caution("cords", "wearer", known.worn)
    elif known.corded and not known.is_for("adult", "pet"):
        yield Caution("cords", "cord", known.worn, certain=False)


def _mesh(known: _Known) -> Iterator[Caution]:
    if known.open and known.worn.young:
        yield Caution("open fabric", "wearer", known.worn)
    elif known.open and known.cover and not known.is_for("adult", "pet"):
        yield Caution("open fabric", "open cover", known.worn, certain=False)


def _loose(known: _Known) -> Iterator[Caution]:
    if known.worn.young:
        yield Caution("loose ends", "wearer", known.worn)


def _small_parts(known: _Known) -> Iterator[Caution]:
    if known.worn.young or known.is_for("pet"):
        yield Caution("small parts", "wearer", known.worn)


def _flame(known: _Known) -> Iterator[Caution]:
    if known.garment or known.open or known.cover:
        slept_in = bool(who.found(_SLEEP, known.words))
        reason: Reason = "open fabric" if known.open else "yarn"
        yield Caution("flame", reason, known.worn, sleepwear=slept_in, open_fabric=known.open)
