"""What stands around drawings of pieces: heading, scale bar, seams by their letters, signs, credit.

In: a plan and places on the page. Out: scene items, and how far down they reach.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction

from turnchain import style
from turnchain.drawing import drafting, heading, key
from turnchain.drawing.drafting import ACCENT, INK, PAPER, SOFT
from turnchain.drawing.to_scale import hundredths
from turnchain.fabric.lattice import SIDES
from turnchain.fabric.plan import Plan
from turnchain.garment import finishing, seam_sides, seams
from turnchain.garment.seam_sides import PlannedSeam
from turnchain.lettering.measuring import measure, wrapped
from turnchain.scene import Group, Item, Path, Scene, arrow, polyline
from turnchain.units import INCH, Unit
from turnchain.wording.languages.language import Speech
from turnchain.wording.tables import language_of, speech_of

WIDTH = style.REFERENCE_WIDTH
MARGIN = 48  # px, left and right
SHORTEST = 40  # px of a scale bar
#: How many cm a scale bar may stand for: 10, 50 or 100 cm; 4, 20 or 40 in.
BARS: dict[Unit, tuple[Fraction, ...]] = {
    "cm": (Fraction(10), Fraction(50), Fraction(100)),
    "in": (4 * INCH, 20 * INCH, 40 * INCH),
}
SMALL = 17.0  # px of the em of signs and notes


def header(plan: Plan, title: str, facts: str) -> tuple[list[Item], float]:
    """The heading with its ``title`` and ``facts``, and the y from which the drawings stand."""
    return heading.of_page(heading.PictureHeading(plan.pattern.title, title, facts), WIDTH, style.LIGHT, MARGIN)


def scale_bar(speech: Speech, unit: Unit, scale: float, y: float) -> Group:
    """A bar as long as 10 cm or 4 in, or as a round length where that would be short, in the scale of the drawing."""
    cm = next((cm for cm in BARS[unit] if cm * Fraction(scale) >= SHORTEST), BARS[unit][-1])
    long = float(cm) * scale
    x = WIDTH - MARGIN - long
    bar = polyline(hundredths([(x, y - 7), (x, y), (x + long, y), (x + long, y - 7)]))
    said = speech.length(cm, unit)
    items = (
        Path(bar, stroke=INK, width=2.0, cap="butt"),
        drafting.words((x + long / 2, y + 20), said, 16, SOFT, "regular", "middle"),
    )
    return Group(items, "scale-bar", speech.say("schematic.bar", length=said))


def legend(plan: Plan, y: float, untold: Iterable[str] = (), ticks: bool = False) -> tuple[list[Item], int]:
    """Measures that found no room, the seams by their letters, the signs (``ticks``: those of seams among them) and the
    credit line; and the height of the page."""
    items: list[Item] = []
    for said in untold:
        for words in wrapped(said, WIDTH - 2 * MARGIN - 200, 17):
            items.append(drafting.words((MARGIN, y), words, 17))
            y += 24
        y += 14
    told = seam_lines(plan)
    if told:
        items.append(drafting.words((MARGIN, y), speech_of(plan.pattern).say("finishing.seams"), 21, INK, "semibold"))
        items.append(drafting.hair((MARGIN, y + 11), (WIDTH - MARGIN, y + 11)))
        y += 40
        for said in told:
            letter, _, rest = said.partition(" ")
            items += drafting.badge((MARGIN + 16, y - 6), letter)
            for words in wrapped(rest, WIDTH - 2 * MARGIN - 44, 19):
                items.append(drafting.words((MARGIN + 44, y), words, 19))
                y += 26
            y += 10
        y += 8
    items += list(_signs(plan, y, ticks))
    y += 50
    lines = wrapped(key.credit(plan.pattern), WIDTH - 2 * MARGIN, SMALL)
    credited = [drafting.words((MARGIN, y + 24 * nth), line, SMALL, SOFT) for nth, line in enumerate(lines)]
    return [*items, Group(tuple(credited), "credit")], round(y + 24 * len(lines) + 16)


def _signs(plan: Plan, y: float, ticks: bool) -> Iterator[Item]:
    """What the lines of the drawings mean; shaped edges where there are any."""
    speech, x = speech_of(plan.pattern), float(MARGIN)

    def said(key: str) -> Item:
        nonlocal x
        words = drafting.words((x + 72, y), speech.say(key), SMALL, SOFT)
        x += 72 + measure(words.words, SMALL) + 34
        return words

    yield drafting.chains((x, y), (x + 60, y), (0.0, -1.0))
    yield said("schematic.chain")
    if any(row.edge(side).move != "straight" for piece in plan.pieces for row in piece.rows for side in SIDES):
        yield Path(polyline([(x, y - 6), (x + 60, y - 6)]), stroke=ACCENT, width=3.4)
        yield said("schematic.shaped")
    yield Path(arrow((x, y - 6), (x + 60, y - 6), 13), stroke=INK, width=3.0)
    yield said("schematic.arrow")
    if ticks:
        yield Path(polyline([(x, y - 6), (x + 60, y - 6)]), stroke=INK, width=2.2)
        for at in (x + 10, x + 46, x + 52):
            yield drafting.tick((at, y - 6), (0.0, -1.0))
        yield said("sewn.ticks")


def seam_lines(plan: Plan) -> list[str]:
    """One line to a letter: what is sewn to what."""
    told: dict[str, list[str]] = {}
    sewn, speech = seams.of(plan), speech_of(plan.pattern)
    for kind in seam_sides.ORDER:
        found: dict[str, list[PlannedSeam]] = {}
        for seam in sewn:
            if seam.kind == kind:
                found.setdefault(seam.letter, []).append(seam)
        for letter, alike in found.items():
            met = _edges_met(speech, plan, alike)
            met = speech.say("seam.edges.worked", met=met) if alike[0].worked else met
            named = "" if kind == "seam" else f"{speech.named_by('kind', kind)}: "  # its letter says that it is one
            told.setdefault(letter, []).append(named + met)
    return [f"{letter} {'; '.join(said)}" for letter, said in told.items()]


def _edges_met(speech: Speech, plan: Plan, alike: list[PlannedSeam]) -> str:
    one, other = finishing.edges_of(speech, plan, alike)
    if one == other and all(seam.one.copy != seam.other.copy for seam in alike):
        return speech.say("seam.copies", one=one)
    return speech.say("seam.edges", one=one, other=other)


def scene(plan: Plan, title: str, words: str, items: list[Item], height: int) -> Scene:
    """The page with its ``title``, the alt text ``words`` and its ``items``, ``height`` px high."""
    return Scene(
        width=WIDTH,
        height=height,
        title=title,
        words=words,
        language=language_of(plan.pattern).tag,
        definitions={},
        items=tuple(items),
        background=PAPER,
    )
