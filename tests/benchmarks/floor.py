"""The floor: our own scene drawn by cairo or skia, without SVG between, as little as can be done for the same px.

    python tests/benchmarks/floor.py cairo|skia PATTERN WIDTH OUT.png

It plans the pattern and lays the chart out as turnchain does, then hands every path to the library: definitions are
kept as the library's own paths. What it takes more than planning and layout is what drawing cannot be had under by a
general library. Letters are the same outlines.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable
from pathlib import Path as FilePath
from typing import Any

from turnchain.drawing.chart import chart
from turnchain.drawing.looks import Look
from turnchain.lettering import measuring
from turnchain.making import planned
from turnchain.scene import INK, Group, Item, Path, Scene, Steps, Text, Use

Colour = tuple[float, float, float]


def main() -> None:
    """Draws."""
    library, pattern, width, made = sys.argv[1:]
    plan = planned(FilePath(pattern))
    scene = chart(plan, plan.pieces[0].name, int(width), Look())
    {"cairo": _cairo, "skia": _skia}[library](scene, made)


def colour(text: str) -> Colour:
    """ "#rrggbb" as shares of 1."""
    red, green, blue = bytes.fromhex(text.removeprefix("#"))
    return red / 255, green / 255, blue / 255


def walked(scene: Scene, draw: Callable[[Path, float, float, str], None]) -> None:
    """Calls ``draw`` for every path of ``scene`` in the order of painting, with its place and the ink in force."""

    def walk(items: Iterable[Item], x: float, y: float, ink: str) -> None:
        for item in items:
            match item:
                case Path():
                    draw(item, x, y, ink)
                case Text():
                    draw(Path(_outlines(item), fill=item.colour), x, y, ink)
                case Use():
                    inner = ink if item.ink == INK else item.ink
                    walk(scene.definitions[item.name], x + item.x, y + item.y, inner)
                case Group():
                    walk(item.items, x, y, ink)

    walk(scene.items, 0, 0, "#000000")


_SET: dict[Text, Steps] = {}


def _outlines(text: Text) -> Steps:
    if text not in _SET:
        _SET[text] = measuring.outlines(text)
    return _SET[text]


def _cairo(scene: Scene, made: str) -> None:
    import cairocffi

    surface = cairocffi.ImageSurface(cairocffi.FORMAT_RGB24, scene.width, scene.height)
    context = cairocffi.Context(surface)
    context.set_source_rgb(*colour(scene.background or "#ffffff"))
    context.paint()
    context.set_line_join(cairocffi.LINE_JOIN_ROUND)
    kept: dict[int, Any] = {}

    def draw(path: Path, x: float, y: float, ink: str) -> None:
        context.save()
        context.translate(x, y)
        if id(path.steps) not in kept:
            context.new_path()
            for letter, *numbers in path.steps:
                call = {"M": context.move_to, "L": context.line_to, "C": context.curve_to, "Z": context.close_path}
                call[letter](*numbers)
            kept[id(path.steps)] = path.steps, context.copy_path()
        else:
            context.new_path()
            context.append_path(kept[id(path.steps)][1])
        for own, paint in ((path.fill, context.fill_preserve), (path.stroke, context.stroke_preserve)):
            if own:
                context.set_source_rgba(*colour(ink if own == INK else own), path.opacity)
                context.set_line_width(path.width)
                context.set_line_cap(cairocffi.LINE_CAP_ROUND if path.cap == "round" else cairocffi.LINE_CAP_BUTT)
                context.set_dash(path.dash)
                paint()
        context.restore()

    walked(scene, draw)
    surface.write_to_png(made)


def _skia(scene: Scene, made: str) -> None:
    import skia

    surface = skia.Surface(scene.width, scene.height)
    canvas = surface.getCanvas()
    canvas.clear(skia.Color4f(*colour(scene.background or "#ffffff"), 1))
    kept: dict[int, Any] = {}

    def outline(steps: Steps) -> Any:
        if id(steps) not in kept:
            path = skia.Path()
            for letter, *numbers in steps:
                {"M": path.moveTo, "L": path.lineTo, "C": path.cubicTo, "Z": path.close}[letter](*numbers)
            kept[id(steps)] = steps, path
        return kept[id(steps)][1]

    def draw(path: Path, x: float, y: float, ink: str) -> None:
        canvas.save()
        canvas.translate(x, y)
        for own, style in ((path.fill, skia.Paint.kFill_Style), (path.stroke, skia.Paint.kStroke_Style)):
            if own:
                paint = skia.Paint(AntiAlias=True, Style=style, StrokeWidth=path.width)
                paint.setColor4f(skia.Color4f(*colour(ink if own == INK else own), path.opacity))
                paint.setStrokeJoin(skia.Paint.kRound_Join)
                paint.setStrokeCap(skia.Paint.kRound_Cap if path.cap == "round" else skia.Paint.kButt_Cap)
                if path.dash:
                    dash = [*path.dash, *(path.dash if len(path.dash) % 2 else ())]
                    paint.setPathEffect(skia.DashPathEffect.Make(dash, 0))
                canvas.drawPath(outline(path.steps), paint)
        canvas.restore()

    walked(scene, draw)
    surface.makeImageSnapshot().save(made, skia.kPNG)


if __name__ == "__main__":
    main()
