"""The chapter of the edgings: each a piece of work, its rows to be ticked off after the pieces are sewn.

In: a plan, and in which part of the page it stands. Out: HTML; nothing for a pattern without edgings. The boxes can be
ticked without the script, which keeps them.
"""

from __future__ import annotations

from collections.abc import Sequence

from turnchain.fabric.plan import Plan
from turnchain.garment.edging import planned
from turnchain.garment.edging import words as edging_words
from turnchain.garment.edging.planned import PlannedEdging
from turnchain.pages.beside.markup import in_each, languages_of, plain
from turnchain.pages.choosing import OfSize
from turnchain.wording.languages.language import Speech
from turnchain.wording.tables import speech_of, told_in


def chapter(plan: Plan, part: OfSize, key: str) -> str:
    """The chapter as HTML; what is ticked is kept under ``key``."""
    found = planned.of(plan)
    if not found:
        return ""
    said = [(term, told_in(plan, term)) for term in languages_of(plan.pattern)]
    speeches = [(term, speech_of(one.pattern), one) for term, one in said]
    heading, hint = (plain(speech_of(plan.pattern).say(f"beside.{name}")) for name in ("edgings", "tick"))
    anchor = f"{part.above}edgings"
    return "\n".join(
        [
            f'<section class="edgings" id="{anchor}" data-key="{plain(key)}" aria-labelledby="{anchor}-name">',
            f'<h2 id="{anchor}-name">{heading}</h2><p class="quiet">{hint}</p>',
            *(_edging(speeches, one) for one in found),
            "</section>",
        ]
    )


_Told = Sequence[tuple[str, Speech, Plan]]


def _edging(speeches: _Told, one: PlannedEdging) -> str:
    head = in_each((term, plain(edging_words.introduced(speech, plan, one))) for term, speech, plan in speeches)
    each = [list(edging_words.row_by_row(speech, plan, one)) for _, speech, plan in speeches]
    terms = [term for term, _, _ in speeches]
    steps = [
        _step(f"{one.number}.{nth}", [(term, told) for term, told in zip(terms, same, strict=True)])
        for nth, same in enumerate(zip(*each, strict=True), 1)
    ]
    return f"<p>{head}</p>\n<ol>{''.join(steps)}</ol>"


def _step(value: str, told: Sequence[tuple[str, str]]) -> str:
    words = in_each((term, plain(said)) for term, said in told)
    return f'<li><label><input type="checkbox" value="{value}" autocomplete="off"><span>{words}</span></label></li>'
