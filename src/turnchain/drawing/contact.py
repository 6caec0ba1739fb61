"""A contact sheet: several orders of the same yarns side by side, as worn, with what each would mean.

In: a plan. Out: a ``Scene``: under every order its ends to weave in, what is left of each yarn, and warnings.
"""

from __future__ import annotations

from collections.abc import Iterator

from turnchain import style
from turnchain.drawing import columns, heading, key
from turnchain.drawing.cloth import Cloth, Tabletop
from turnchain.drawing.colours import Colours
from turnchain.drawing.looks import Look
from turnchain.drawing.preview import lay_in
from turnchain.errors import MakerError, PatternError
from turnchain.fabric.plan import Plan
from turnchain.numbers import rounded
from turnchain.scene import Fits, Group, Item, Path, Scene, line
from turnchain.wording.languages.language import Speech
from turnchain.wording.tables import speech_of
from turnchain.yarns import colour_checks, figure_words
from turnchain.yarns.colouring import choices, in_order

COLUMNS = 3
MARGIN, GAP = 48.0, 44.0  # px at the reference width
TALLEST = 0.9  # a cell's cloth is at most this many times as high as the cell is wide
MOST_WARNINGS = 2  # shown under one order; the others are counted


def contact_sheet(
    plan: Plan, width: int = style.REFERENCE_WIDTH, look: Look | None = None, fits: Fits | None = None
) -> Scene:
    """Every order of ``colouring.choices`` that these pieces can be worked in, three side by side, ``width`` px wide
    and as high as they need, of which ``fits`` is asked first. Orders that cannot be worked are left out. MakerError
    for fewer than two yarns."""
    if len(plan.pattern.yarns) < 2:
        raise MakerError(f"other orders need two yarns or more; this pattern has {len(plan.pattern.yarns)}")
    look = look or Look()
    unit = width / style.REFERENCE_WIDTH
    margin, gap = MARGIN * unit, GAP * unit
    cell = (width - 2 * margin - (COLUMNS - 1) * gap) / COLUMNS
    speech = speech_of(plan.pattern)
    words = heading.PictureHeading(plan.pattern.title, speech.say("orders.title"), speech.say("orders.lead"))
    head, y = heading.of_page(words, width, look.theme, MARGIN)
    if fits is not None:
        fits(width, y + max(one.size[1] for one in lay_in(plan, None, cell, TALLEST * cell)))
    items: list[Item] = [*head]
    definitions: dict[str, tuple[Item, ...]] = {}
    told: list[str] = []
    lowest = 0.0
    for index, (title, ordered) in enumerate(_orders(plan, speech)):
        if index and index % COLUMNS == 0:
            y, lowest = lowest + 34 * unit, 0.0
        left = margin + (index % COLUMNS) * (cell + gap)
        group, bottom, said = _cell(ordered, title, (left, y, cell), unit, look, index, definitions)
        items.append(group)
        told.append(f"{title}: {'; '.join(said)}")
        lowest = max(lowest, bottom)
    foot = columns.Column(margin, lowest + 30 * unit, width - 2 * margin, unit, look.theme)
    foot.words(key.credit(plan.pattern), size=columns.SMALL, colour=look.theme.soft)
    items.append(Group(tuple(foot.items), "credit"))
    return Scene(
        width=width,
        height=round(foot.y + 30 * unit),
        title=speech.say("orders.picture", title=plan.pattern.title),
        words=speech.say("orders.alt", title=plan.pattern.title, orders=". ".join(told)),
        language=speech.language.tag,
        definitions=definitions,
        items=tuple(items),
        background=look.background,
    )


def _orders(plan: Plan, speech: Speech) -> Iterator[tuple[str, Plan]]:
    """The orders that can be worked, each with its name and its plan; one that cannot (too many colours apart) is left
    out."""
    for name, stripes in choices(plan):
        try:
            ordered = in_order(plan, stripes)
        except PatternError:
            continue
        yield speech.say(f"orders.{name}", yarn=stripes.between or "", n=stripes.seed), ordered


def _cell(
    plan: Plan,
    title: str,
    place: tuple[float, float, float],
    unit: float,
    look: Look,
    index: int,
    definitions: dict[str, tuple[Item, ...]],
) -> tuple[Group, float, list[str]]:
    """One order: its name, cloth and figures; the y of its foot and what it says."""
    left, top, width = place
    column = columns.Column(left, top, width, unit, look.theme)
    column.heading(title)
    laid = lay_in(plan, None, width, TALLEST * width)
    table = Tabletop(round(left), round(column.y + 12 * unit))
    cloth = Cloth(table, Colours(plan.pattern, look.inks, plan.pieces), look.theme, unit, prefix=f"order-{index + 1}-")
    stitches = [item for one in laid for item in cloth.piece(one)]
    definitions.update(cloth.made)
    column.y = table.top + max(one.size[1] for one in laid) + 8 * unit
    speech = speech_of(plan.pattern)
    said = figure_words.caption(plan, speech)
    for words in said:
        column.words(words, size=columns.SMALL)
    warnings = colour_checks.told(plan, speech)
    for words in warnings[:MOST_WARNINGS]:
        column.words(words, size=columns.SMALL, colour=look.theme.accent)
    if len(warnings) > MOST_WARNINGS:
        more = speech.say("orders.more", n=len(warnings) - MOST_WARNINGS)
        column.words(more, size=columns.SMALL, colour=look.theme.accent)
    rule = line(rounded(left), rounded(column.y + 14 * unit), rounded(left + width), rounded(column.y + 14 * unit))
    column.items.append(Path(rule, stroke=look.theme.hair, width=rounded(max(0.8, unit)), cap="butt"))
    return Group((*column.items, *stitches), f"order-{index + 1}", title), column.y, [*said, *warnings]
