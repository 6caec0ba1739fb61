"""No words run into other words, into an arrow, or off the page: measured in every kind of picture."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations, pairwise

import pytest

from test_short import CASES
from turnchain.drawing.chart import _empty, chart, laid_out
from turnchain.drawing.detail import detail, series
from turnchain.drawing.folds import NO_FOLDS, folded
from turnchain.drawing.looks import Look
from turnchain.drawing.posting import SIZES
from turnchain.drawing.posting import series as posts
from turnchain.drawing.setting import setting
from turnchain.drawing.sheet import SHORT, WHOLE
from turnchain.fabric.plan import Plan
from turnchain.lettering.measuring import measure
from turnchain.making import planned
from turnchain.pattern import Fabric, Neck, Pattern, Piece, Stripes, Swatch, Yarn
from turnchain.planning.planner import plan_pattern
from turnchain.records import replace
from turnchain.scene import Group, Item, Path, Scene, Text

HEIGHT, DEPTH = 0.70, 0.20  # of the em: capitals above the baseline, descenders below
TOUCH = 0.6  # px that boxes may share: rounded places, and letters that do not fill their boxes


@dataclass(frozen=True)
class Box:
    words: str
    left: float
    top: float
    right: float
    bottom: float

    def meets(self, other: Box) -> bool:
        return (
            min(self.right, other.right) - max(self.left, other.left) > TOUCH
            and min(self.bottom, other.bottom) - max(self.top, other.top) > TOUCH
        )


def box_of(text: Text) -> Box:
    wide = measure(text.words, text.size, text.weight)
    before = wide * {"start": 0.0, "middle": 0.5, "end": 1.0}[text.anchor]
    high, deep = HEIGHT * text.size, DEPTH * text.size
    x, y = text.x, text.y
    if text.turn == 90:
        return Box(text.words, x - deep, y - before, x + high, y - before + wide)
    if text.turn == -90:
        return Box(text.words, x - high, y + before - wide, x + deep, y + before)
    return Box(text.words, x - before, y - high, x - before + wide, y + deep)


def corners_of(text: Text) -> list[tuple[float, float]]:
    """The corners of words turned by any angle about the place of their anchor."""
    level = box_of(replace(text, turn=0.0))
    cosine, sine = math.cos(math.radians(text.turn)), math.sin(math.radians(text.turn))
    xs, ys = (level.left, level.right, level.right, level.left), (level.top, level.top, level.bottom, level.bottom)
    off = [(x - text.x, y - text.y) for x, y in zip(xs, ys, strict=True)]
    return [(text.x + x * cosine - y * sine, text.y + x * sine + y * cosine) for x, y in off]


def turned_meet(one: Text, other: Text) -> bool:
    """Whether the boxes of two lines of words meet: no side of either parts them."""
    quads = corners_of(one), corners_of(other)
    for (x0, y0), (x1, y1) in (side for quad in quads for side in pairwise(quad[:3])):
        reaches = [[x * (y1 - y0) - y * (x1 - x0) for x, y in quad] for quad in quads]
        if max(reaches[0]) <= min(reaches[1]) or max(reaches[1]) <= min(reaches[0]):
            return False
    return True


def every(items: tuple[Item, ...], within: str = "") -> Iterator[tuple[str, Item]]:
    for item in items:
        if isinstance(item, Group):
            yield from every(item.items, item.name or within)
        else:
            yield within, item


def shafts(scene: Scene) -> Iterator[Box]:
    """Arrows beside words."""
    for name, item in every(scene.items):
        if name in ("this-way-up", "row-numbers") and isinstance(item, Path):
            places = [step[-2:] for step in item.steps if len(step) > 1]
            xs, ys = zip(*places, strict=True)
            yield Box("an arrow", min(xs), min(ys), max(xs), max(ys))


def collisions(scene: Scene) -> list[str]:
    """What meets what, and what leaves the page."""
    texts = [item for _, item in every(scene.items) if isinstance(item, Text)]
    boxes = [box_of(item) for item in texts]
    found = [
        f"{one.words!r} and {other.words!r}"
        for (one, a), (other, b) in combinations(zip(boxes, texts, strict=True), 2)
        if (turned_meet(a, b) if a.turn % 90 or b.turn % 90 else one.meets(other))
    ]
    found += [f"{one.words!r} and {way.words}" for one in boxes for way in shafts(scene) if one.meets(way)]
    found += [
        f"{one.words!r} leaves the page"
        for one in boxes
        if one.left < 0 or one.top < 0 or one.right > scene.width or one.bottom > scene.height
    ]
    return found


def panel(
    name: str, wide: float, high: float, yarns: int = 3, neck: Neck | None = None, cluster: int = 3, gap: int = 1
) -> Plan:
    made = tuple(Yarn(f"Yarn number {nth + 1} of the dyer", f"#{(nth * 40961 + 7919) % (1 << 24):06x}")
                 for nth in range(yarns))  # fmt: skip
    swatch = Swatch(Fraction(5), Fraction(10), Fraction(10), Fraction(10))
    piece = Piece(name, width=Fraction(wide), length=Fraction(high), neck=neck)
    title = "A pattern whose title is as long as titles are when nobody shortens them"
    stripes = Stripes(tuple(yarn.name for yarn in made), (2,))
    pattern = Pattern(title, (swatch,), (piece,), Fabric(cluster, gap), made, stripes, by="a maker with a name in full")
    return plan_pattern(pattern)


MADE = {
    "6 cm": lambda: panel("coaster", 6, 6),
    "200 cm long": lambda: panel("scarf", 20, 200),
    "200 cm wide": lambda: panel("throw", 200, 60),
    "24 yarns": lambda: panel("sampler", 40, 48, yarns=24),
    "a neck": lambda: panel("front", 40, 36, neck=Neck(Fraction(12), Fraction(10))),
    "a narrow neck": lambda: panel("top", 24, 20, neck=Neck(Fraction(9), Fraction(5))),
    "closed, of two": lambda: panel("mat", 20, 20, cluster=2, gap=0),
    "of five": lambda: panel("rug", 40, 30, cluster=5),
    **{case: (lambda case=case: planned(CASES / f"{case}.toml")) for case in
       ("heron_top", "kite_kerchief", "mudflat_blanket")},
}  # fmt: skip


def pictures(plan: Plan) -> Iterator[tuple[str, Scene]]:
    for piece in plan.pieces:
        for look in (Look(), Look(hand="left")):
            yield f"{piece.name}, {look.hand}", chart(plan, piece.name, look=look)
            yield f"{piece.name}, short, {look.hand}", chart(plan, piece.name, look=look, short=True)
        yield f"{piece.name}, 800 px", chart(plan, piece.name, 800 if piece.rightmost - piece.leftmost < 100 else 1600)
        for size in SIZES:
            for nth, scene in enumerate(posts(plan, piece.name, size), start=1):
                yield f"{piece.name}, {size} {nth}", scene
        for asked in series(piece):
            yield f"{piece.name}, row {asked.first}", detail(plan, piece.name, asked, (1080, 1080))


@pytest.mark.quick(1)
@pytest.mark.parametrize("name", MADE)
def test_no_words_run_into_one_another(name: str) -> None:
    plan = MADE[name]()
    found = {what: met for what, scene in pictures(plan) if (met := collisions(scene))}
    assert found == {}


def test_words_that_meet_are_found() -> None:
    words = [Text(100.0, 100.0, "shoulder", 20.0, "#000000"), Text(150.0, 105.0, "neck", 20.0, "#000000")]
    scene = Scene(400, 300, "", "", "en", {}, tuple(words))
    assert collisions(scene) == ["'shoulder' and 'neck'"]
    turned = Text(110.0, 95.0, "hem", 20.0, "#000000", anchor="middle", turn=-90)
    assert collisions(Scene(400, 300, "", "", "en", {}, (words[0], turned))) == ["'shoulder' and 'hem'"]
    assert collisions(Scene(160, 300, "", "", "en", {}, (words[0],))) == ["'shoulder' leaves the page"]


@pytest.mark.parametrize("name", MADE)
def test_no_chart_leaves_a_quarter_of_its_page_empty(name: str) -> None:
    plan = MADE[name]()
    for piece in plan.pieces:
        found = setting(plan, piece.name, Look())
        assert _empty(laid_out(found, None, WHOLE)) <= 0.25
        folds = folded(piece)
        if folds != NO_FOLDS:
            assert _empty(laid_out(found, None, SHORT, folds)) <= 0.25
