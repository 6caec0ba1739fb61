"""One sheet that shows every look and option of turnchain once, each with the words to type below it.

In: a pattern of the gallery. Out: ``options/options.png``, and ``options/options.svg`` where that is small.
``python gallery/options.py`` builds it; the tests compare it.
"""

from __future__ import annotations

import io
from collections.abc import Callable
from pathlib import Path as FilePath

from turnchain.drawing.chart import chart
from turnchain.drawing.detail import Asked, detail, series
from turnchain.drawing.looks import Look
from turnchain.drawing.posting import SIZES, post
from turnchain.drawing.preview import preview
from turnchain.fabric.lattice import SIDES
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.making import planned
from turnchain.numbers import rounded
from turnchain.records import replace
from turnchain.scene import Group, Item, Path, Scene, Step, Text, Use, rectangle
from turnchain.style import LIGHT
from turnchain.writers.formats import PICTURES

HERE = FilePath(__file__).parent
FOLDER = HERE / "options"
PATTERN = HERE / "patterns" / "fallow_lane_slipover.toml"

COLUMNS, CELL, ROOM, GAP, MARGIN = 5, 380, 500, 34, 60
TITLE, WORDS = 40.0, 19.0
SMALL_SVG = 600_000
CLOSE_UP = "--detail 12 --at right"  # stands for the rows that are really shown

Draw = Callable[[Plan, PiecePlan, Asked], Scene]


def _charted(look: Look | None = None, short: bool = True) -> Draw:
    return lambda plan, piece, asked: chart(plan, piece.name, look=look, short=short)


def _close_up(size: str) -> Draw:
    width, height = SIZES[size]
    return lambda plan, piece, asked: detail(plan, piece.name, asked, (width, height or width))


def _posted(size: str) -> Draw:
    return lambda plan, piece, asked: post(plan, piece.name, size)


#: What is typed, and the picture it makes.
SHOWN: dict[str, Draw] = {
    "chart": _charted(short=False),
    "chart --short": _charted(),
    "chart --short --mono": _charted(Look(inks="mono")),
    "chart --short --full-colour": _charted(Look(inks="full")),
    "chart --short --page dark": _charted(Look(page="dark")),
    # close-ups begin a line of the sheet: clusters reach past their sides
    f"{CLOSE_UP} --size film": _close_up("film"),
    "chart --short --page clear": _charted(Look(page="clear")),
    "chart --short --hand left": _charted(Look(hand="left")),
    "chart --short --true": _charted(Look(proportion="true")),
    "chart --size phone": _posted("phone"),
    f"{CLOSE_UP} --size square": _close_up("square"),
    "chart --size square": _posted("square"),
    "chart --size tall": _posted("tall"),
    "chart --size film": _posted("film"),
    "chart --size blog": _posted("blog"),
    "chart --size blog-sharp": _posted("blog-sharp"),
    "stripes": lambda plan, piece, asked: preview(plan),
}


def captions(asked: Asked) -> list[str]:
    """What stands below the pictures, with the rows that are really shown."""
    words = f"--detail {asked.first} --at {asked.at}"
    return [caption.replace(CLOSE_UP, words) for caption in SHOWN]


def sheet() -> Scene:
    """The whole sheet."""
    plan = planned(PATTERN)
    piece = next((piece for piece in plan.pieces if piece.has_neck), plan.pieces[0])
    asked = next(series(piece), Asked(1, 1, SIDES[1]))
    said = captions(asked)
    scenes = [draw(plan, piece, asked) for draw in SHOWN.values()]
    width = 2 * MARGIN + COLUMNS * CELL + (COLUMNS - 1) * GAP
    top = MARGIN + 2.2 * TITLE
    definitions: dict[str, tuple[Item, ...]] = {}
    title = "Every look and option, once"
    items: list[Item] = [Text(MARGIN, MARGIN + TITLE * 0.8, title, TITLE, LIGHT.ink, "semibold")]
    for nth, (words, scene) in enumerate(zip(said, scenes, strict=True)):
        column = nth % COLUMNS
        if nth and not column:
            top += ROOM + 3 * WORDS + GAP
        left = MARGIN + column * (CELL + GAP)
        shrunk = Shrunk(scene, f"cell-{nth + 1}-", min(CELL / scene.width, ROOM / scene.height))
        items += _cell(shrunk, left + (CELL - scene.width * shrunk.scale) / 2, top, words)
        items.append(Text(left, rounded(top + ROOM + 1.6 * WORDS), words, WORDS, LIGHT.ink))
        definitions |= shrunk.definitions()
    words = f"Every look and option once, from {plan.pattern.title}: {', '.join(said)}."
    height = round(top + ROOM + 3 * WORDS + MARGIN)
    return Scene(width, height, "Every look and option", words, "en-US", definitions, tuple(items))


def _cell(shrunk: Shrunk, left: float, top: float, words: str) -> list[Item]:
    """One picture; a clear one on a chequered ground."""
    scene, scale = shrunk.scene, shrunk.scale
    wide, high = scene.width * scale, scene.height * scale
    box = rectangle(rounded(left), rounded(top), rounded(wide), rounded(high))
    ground = [Path(box, fill=scene.background)] if scene.background else _chequers(left, top, wide, high)
    frame = Path(box, stroke=LIGHT.hair, width=1.0)
    items: list[Item] = [*ground, Group(shrunk.items(left, top), "", words)]
    if words.startswith("--detail"):  # what reaches past its side
        items.append(Path(rectangle(0, rounded(top), rounded(left), rounded(high)), fill=LIGHT.paper))
    return [*items, frame]


def _chequers(left: float, top: float, wide: float, high: float, side: float = 12.0) -> list[Item]:
    steps: list[Step] = []
    for row in range(int(high // side) + 1):
        for column in range(row % 2, int(wide // side) + 1, 2):
            x, y = column * side, row * side
            steps += rectangle(
                rounded(left + x), rounded(top + y), rounded(min(side, wide - x)), rounded(min(side, high - y))
            )
    return [Path(tuple(steps), fill="#ececec")]


class Shrunk:
    """A scene made smaller, its definitions' names begun with ``prefix``."""

    def __init__(self, scene: Scene, prefix: str, scale: float) -> None:
        self.scene, self.prefix, self.scale = scene, prefix, scale

    def definitions(self) -> dict[str, tuple[Item, ...]]:
        """All definitions, smaller."""
        made = self.scene.definitions.items()
        return {self.prefix + name: tuple(self._item(item, 0, 0) for item in items) for name, items in made}

    def items(self, left: float, top: float) -> tuple[Item, ...]:
        """All items, smaller, from (``left``, ``top``) on."""
        return tuple(self._item(item, left, top) for item in self.scene.items)

    def _item(self, item: Item, left: float, top: float) -> Item:
        scale = self.scale
        if isinstance(item, Group):
            return Group(tuple(self._item(one, left, top) for one in item.items), "", item.words)
        if isinstance(item, Path):
            steps = tuple(self._step(step, left, top) for step in item.steps)
            dash = tuple(length * scale for length in item.dash)
            return replace(item, steps=steps, width=item.width * scale, dash=dash)
        # On quarters of a px, stamps of stitches are made once for many places.
        x, y = (round(4 * place) / 4 for place in (left + item.x * scale, top + item.y * scale))
        if isinstance(item, Use):
            return replace(item, name=self.prefix + item.name, x=x, y=y)
        return replace(item, x=x, y=y, size=item.size * scale)

    def _step(self, step: Step, left: float, top: float) -> Step:
        command, *places = step
        shift = (left, top)
        moved = [rounded(shift[i % 2] + place * self.scale) for i, place in enumerate(places)]  # type: ignore[operator]
        return (command, *moved)  # type: ignore[return-value]


def build() -> list[FilePath]:
    """Writes the sheet; the files written."""
    FOLDER.mkdir(exist_ok=True)
    scene, written = sheet(), []
    for ending in (".png", ".svg"):
        stream = io.BytesIO()
        path = FOLDER / f"options{ending}"
        PICTURES[ending].write(scene, stream)
        if ending == ".png" or len(stream.getvalue()) <= SMALL_SVG:
            path.write_bytes(stream.getvalue())
            written.append(path)
    return written


if __name__ == "__main__":
    for path in build():
        print(path, path.stat().st_size)
