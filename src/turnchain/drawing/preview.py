"""The fabric as it will look: soft clusters in the colours of the yarns, in true proportion.

In: a plan. Out: a ``Scene`` of one piece, or of all laid out as worn, with a card of the yarns.
"""

from __future__ import annotations

import math

from turnchain import style
from turnchain.drawing import border, columns, edged, heading, key, placement
from turnchain.drawing.cloth import Cloth, Tabletop
from turnchain.drawing.colours import Colours
from turnchain.drawing.looks import Look
from turnchain.drawing.placement import Placed, Scale
from turnchain.fabric.plan import Plan
from turnchain.garment import borders, roles
from turnchain.garment.edging import planned as edgings
from turnchain.garment.edging import words as edging_words
from turnchain.lettering import measuring
from turnchain.numbers import rounded
from turnchain.scene import Fits, Group, Item, Path, Scene, Text, rectangle
from turnchain.style import Theme
from turnchain.wording.tables import language_of, speech_of

MARGIN = 48.0  # px at the reference width
TALLEST = 1.7  # the laid-out pieces are at most this many times as high as the page is wide
STEP = 0.25  # px: half pitches and rows have whole multiples of it


def preview(
    plan: Plan, name: str | None = None, width: int = style.REFERENCE_WIDTH, look: Look | None = None,
    fits: Fits | None = None,
) -> Scene:
    """All pieces as worn, or the one called ``name``, ``width`` px wide and as high as they need, of which ``fits`` is
    asked first. Raises KeyError where there is no such piece."""
    look = look or Look()
    speech = speech_of(plan.pattern)
    unit = width / style.REFERENCE_WIDTH
    margin = MARGIN * unit
    head, top = heading.of_page(_heading(plan, name), width, look.theme, MARGIN)
    high = edged.around(plan)
    laid = lay_in(plan, name, width - 2 * margin, TALLEST * width, high)
    across, edge = max(one.x + one.size[0] for one in laid), high * laid[0].scale.row
    table = Tabletop(round((width - across) / 2), round(top + 16 * unit + edge))
    bottom = table.top + max(one.size[1] for one in laid) + edge
    if fits is not None:
        fits(width, bottom)
    cloth = Cloth(table, Colours(plan.pattern, look.inks, plan.pieces), look.theme, unit)
    pieces = [Group(tuple(cloth.piece(one)), f"cloth-{index}", one.piece.name) for index, one in enumerate(laid, 1)]
    along = border.drawn(plan, laid, cloth)
    bordered = [Group(tuple(items), f"border-{index}") for index, items in enumerate(along, 1) if items]
    names = [_name(one, table, look.theme, unit, edge) for one in laid]
    card, height = _card(plan, look, cloth.colours, margin, bottom + 50 * unit, unit, width)
    return Scene(
        width=width,
        height=height,
        title=speech.say("stripes.title", title=plan.pattern.title),
        words=told(plan, name),
        language=language_of(plan.pattern).tag,
        definitions=cloth.made,
        items=(*head, *pieces, *bordered, *names, *card),
        background=look.background,
    )


def _heading(plan: Plan, name: str | None) -> heading.PictureHeading:
    """All pieces as worn or, of what nobody wears, as finished; or one with its rows and clusters."""
    if name is not None:
        return heading.PictureHeading(plan.pattern.title, name, key.summary(plan.pattern, plan.piece(name)))
    say = speech_of(plan.pattern).say
    title = say("stripes.worn" if roles.is_worn(plan) else "finished")
    return heading.PictureHeading(plan.pattern.title, title, say("stripes.all"))


def lay_in(plan: Plan, name: str | None, width: float, height: float, around: float = 0.0) -> list[Placed]:
    """The pieces (None: all) laid out in px, y upwards, as large as fits ``width`` and ``height`` (px) at the
    proportion of the gauge, but for steps of ``STEP`` px; so many rows ``around`` all of them stay free. Raises
    KeyError where there is no piece ``name``."""

    def lay(to: Scale) -> list[Placed]:
        return placement.laid_out(plan, to, around) if name is None else placement.alone(plan.piece(name), to)

    row = float(plan.gauge.row / plan.gauge.half)
    whole = lay(Scale(1.0, row))
    across = max(one.x + one.size[0] for one in whole)
    free = 2 * around * row
    scale = min(width / (across + free), height / (max(one.size[1] for one in whole) + free))
    return lay(Scale(_stepped(scale), _stepped(scale * row)))


def _stepped(length: float) -> float:
    """``length`` px down to a whole step, so that the cache of ``raster`` needs few pictures for the whole cloth; the
    proportion is off by as little as that."""
    return max(STEP, math.floor(length / STEP) * STEP)


def told(plan: Plan, name: str | None) -> str:
    """The alt text of the preview of the piece called ``name``, or of all, without drawing it."""
    pieces = [piece for piece in plan.pieces if name in (None, piece.name)]
    speech, said = speech_of(plan.pattern), []
    for piece in pieces:
        way = "stripes.upright" if placement.lies_on_its_side(plan, piece) else "stripes.level"
        yarns = list(dict.fromkeys(row.colour for row in piece.row_levels if row.colour))
        told = ", ".join(yarns) if yarns else speech.say("stripes.one_yarn")
        said.append(speech.say(way, piece=piece.name, yarns=told))
    alt = speech.say("stripes.alt", title=plan.pattern.title, pieces="; ".join(said))
    return " ".join((alt, *_bordered(plan)))


def _bordered(plan: Plan) -> list[str]:
    """What the borders are worked in, in a sentence each; none where the pattern names no yarn."""
    speech, yarn = speech_of(plan.pattern), borders.border_yarn(plan)
    if yarn is None:
        return []
    return [edging_words.told(speech, plan, one) for one in edgings.of(plan)] if plan.pattern.edgings else [
        speech.say("stripes.border", yarn=yarn.name)
    ]  # fmt: skip


def _name(laid: Placed, table: Tabletop, theme: Theme, unit: float, edge: float) -> Text:
    """The piece's name below it and its border, ``edge`` px high."""
    x, y = table.px((laid.x + laid.size[0] / 2, laid.y))
    size = 20 * unit
    return Text(x, rounded(y + edge + 1.5 * size), laid.piece.name, rounded(size), theme.soft, anchor="middle")


def _card(
    plan: Plan, look: Look, colours: Colours, left: float, top: float, unit: float, width: int
) -> tuple[list[Item], int]:
    """The yarns with their letters and names, in a row of chips; and the height of the page."""
    items: list[Item] = []
    size, tall, gap = 116 * unit, 74 * unit, 24 * unit
    used = {row.colour: row for piece in plan.pieces for row in piece.rows if row.colour}
    edged = {one.name for edging in edgings.of(plan) if (one := edgings.yarn_of(plan, edging.asked))}
    x, y, high = left, top, tall
    for index, yarn in enumerate(plan.pattern.yarns):
        row = used.get(yarn.name)
        if row is None and yarn.name not in edged:
            continue
        words = measuring.wrapped(yarn.name, size, 18 * unit)
        wide = max(size, *(measuring.measure(line, 18 * unit) for line in words))
        if x > left and x + wide > width - left:
            x, y = left, y + high + 24 * unit
            high = tall
        high = max(high, tall + (24 + 22 * len(words)) * unit)
        colour = colours.of(row) if row else colours.of_yarn(yarn.name)
        box = (rounded(x), rounded(y), rounded(size), rounded(tall))
        corners = [(x, y + tall), (x, y), (x + size, y), (x + size, y + tall)]
        items.append(Path(rectangle(*box), fill=colour, stroke=look.theme.hair, width=rounded(max(0.7, unit))))
        items += colours.hatched(row, corners, unit) if row else ()
        ink = style.ink_on(colour)
        at, letter = (rounded(x + 12 * unit), rounded(y + tall - 13 * unit)), style.letter(index)
        items.append(Text(*at, letter, rounded(26 * unit), ink, "semibold"))
        base = y + tall + 24 * unit
        for line in words:
            items.append(Text(rounded(x), rounded(base), line, rounded(18 * unit), look.theme.ink))
            base += 22 * unit
        x += wide + gap
    bottom = y + (high + 24 * unit if items else 0)
    foot = columns.Column(left, bottom, width - 2 * left, unit, look.theme)
    for said in (*_bordered(plan), key.credit(plan.pattern)):
        foot.words(said, size=columns.SMALL, colour=look.theme.soft)
    return [Group(tuple(items), "yarns"), Group(tuple(foot.items), "credit")], round(foot.y + 30 * unit)
