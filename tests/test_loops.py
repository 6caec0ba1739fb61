"""The inner loops of the rasteriser, in C and in numpy: the same bytes for the same numbers, and no trust in callers.

What the bytes should be is tested elsewhere, against areas reckoned by hand and against cairo's drawing.
"""

from __future__ import annotations

import os
import random
from array import array
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from both_loops import COMPILED, draw_with
from pictures import png_bytes
from test_writers_png import SCENES, striped
from turnchain.raster import canvas, numpy_loops, picture
from turnchain.raster.edges import TOLERANCE, fill_edges, stroke_edges
from turnchain.records import replace
from turnchain.scene import Path, Scene, Steps

needs_both = pytest.mark.skipif(COMPILED is None, reason="the loops were not compiled here")


def test_they_are_compiled_where_everything_is_tested() -> None:
    assert COMPILED is not None or not os.environ.get("CI")


def both(name: str, *arguments: Any) -> Any:
    """What the loop ``name`` gives in C, which it must give in numpy too."""
    compiled, in_numpy = (getattr(module, name)(*arguments) for module in (COMPILED, numpy_loops))
    assert compiled == in_numpy
    return compiled


def changed(name: str, sheet: bytes, *arguments: Any) -> bytes:
    """What the loop ``name`` makes of ``sheet`` in C, which it must make of it in numpy too."""
    sheets = []
    for module in (COMPILED, numpy_loops):
        sheets.append(bytearray(sheet))
        getattr(module, name)(sheets[-1], *arguments)
    assert sheets[0] == sheets[1]
    return bytes(sheets[0])


coordinate = st.floats(-50, 50, width=32)
point = st.tuples(coordinate, coordinate)
step = st.one_of(
    st.tuples(st.sampled_from("ML"), coordinate, coordinate),
    st.tuples(st.just("C"), *[coordinate] * 6),
    st.just(("Z",)),
)


@st.composite
def outlines(draw: st.DrawFn) -> Steps:
    steps = [("M", *draw(point)), *draw(st.lists(step, max_size=9))]
    return tuple(steps)  # type: ignore[arg-type]


@needs_both
@settings(max_examples=150)
@given(outlines(), st.floats(0, 9), st.booleans(), st.sampled_from([(), (5.0, 3.0), (0.0, 4.0), (7.0,)]))
def test_outlines_and_strokes(steps: Steps, width: float, flat: bool, dash: tuple[float, ...]) -> None:
    lines = both("flatten", steps, TOLERANCE)
    both("fill_lines", *lines)
    path = Path(steps, stroke="#000000", width=width, cap="butt" if flat else "round", dash=dash)
    with draw_with(COMPILED):
        filled, stroked = fill_edges(steps), stroke_edges(path)
    with draw_with(numpy_loops):
        again = stroke_edges(path)
    window = (-60, -60, 60, 60)
    for edges, other in ((filled, filled), (stroked, again)):
        # slabs, wedges and discs stand in another order, which does not show
        compiled = COMPILED.cover(edges, 0.25, -3.5, window)  # type: ignore[union-attr]
        assert compiled == numpy_loops.cover(other, 0.25, -3.5, window)


@needs_both
@settings(max_examples=150)
@given(st.lists(point, min_size=1, max_size=30), st.tuples(*[st.integers(-30, 30)] * 4), coordinate, coordinate)
def test_coverage(points: list[tuple[float, float]], window: tuple[int, ...], x: float, y: float) -> None:
    corners = array("d", [n for point in points for n in point]).tobytes()
    edges = both("fill_lines", corners, [0], [True])
    both("cover", edges, x, y, window)
    both("cover", edges, round(x), round(y), (-200, -200, 200, 200))


@needs_both
@given(st.integers(0, 1 << 30))
def test_letters_masks_and_colours(seed: int) -> None:
    some = random.Random(seed)

    def numbers(count: int) -> bytes:
        return array("d", [some.uniform(-9, 9) for _ in range(count)]).tobytes()

    def px(count: int) -> bytes:
        return bytes(some.choice((0, 0, 255, some.randrange(256))) for _ in range(count))

    letters = [numbers(4 * some.randrange(5)) for _ in range(3)]
    both("set_letters", letters, [0.0, 3.25, 7.1], *(some.uniform(-2, 2) for _ in range(4)))
    width, height = some.randrange(1, 9), some.randrange(1, 9)
    mask = px(width * height)
    row = some.randrange(9)
    places = [(some.randrange(40 - width), row if some.random() < 0.8 else 0) for _ in range(some.randrange(1, 20))]
    changed("strew", px(40 * 20), 40, mask, width, places, some.random() < 0.5)
    both("fade", px(50), px(50), some.random())
    inside = some.randrange(1, width + 1), some.randrange(1, height + 1)
    part = (*(some.randrange(9) for _ in range(2)), *inside, width - inside[0], height - inside[1])
    changed("lay_full", px(4 * 40 * 20), 40, mask, width, part, px(4))
    lay_numbers(some, 40, bytes(level % 18 for level in mask), width, part)
    both("packed", px(4 * 60), 12, some.random() < 0.5, some.randrange(2))
    changed("fill", px(200), some.randrange(40), 20, some.randrange(1, 10), some.randrange(1, 8), px(2))
    both("overlap", *(rectangles(some, count) for count in (some.randrange(80), some.randrange(150))))


def lay_numbers(some: random.Random, across: int, levels: bytes, width: int, part: tuple[int, ...]) -> None:
    """Lays a mask twice, so that rows that are known by then are used, too."""
    shades = array("d", [some.choice((0, 255, some.uniform(0, 255))) for _ in range(4 * 200)]).tobytes()
    lines = bytes(some.random() < 0.05 for _ in range(180)) + bytes(76)
    ink = tuple(some.uniform(0, 255) for _ in range(4))
    canvas = bytes(some.randrange(200) for _ in range(across * 20))
    found = []
    for module in (COMPILED, numpy_loops):
        sheet, table, known = bytearray(canvas), bytearray(256 * 18), bytearray(256)
        for _ in range(2):
            module.lay_indexed(sheet, across, levels, width, part, table, known, shades, ink, lines)  # type: ignore[union-attr]
        found.append((sheet, table, known))
    assert found[0] == found[1]


def rectangles(some: random.Random, count: int) -> bytes:
    """Rectangles and their places in the order of painting, from the top down."""
    found = []
    for place in range(count):
        left, top = some.uniform(0, 90), some.uniform(0, 90)
        found.append((left, top, left + some.uniform(0, 30), top + some.uniform(0, 30), place))
    found.sort(key=lambda sides: sides[1])
    return array("d", [n for sides in found for n in sides]).tobytes()


@needs_both
@pytest.mark.quick(8)
@pytest.mark.parametrize("full", [False, True])
@pytest.mark.parametrize("name", [*SCENES, "3 stripes", "16 stripes", "without background"])
def test_pictures(name: str, full: bool, monkeypatch: pytest.MonkeyPatch) -> None:
    scene = _scene(name)
    if full:
        monkeypatch.setattr(picture, "chosen", lambda *_: None)
    drawn = []
    for module in (COMPILED, numpy_loops):
        with draw_with(module):
            drawn.append(png_bytes(scene))
    assert drawn[0] == drawn[1]


def _scene(name: str) -> Scene:
    if name == "without background":
        return replace(SCENES["see-through"], background=None)
    return striped(int(name.split()[0])) if "stripes" in name else SCENES[name]


EDGE = array("d", [0, 0, 9, 5]).tobytes()
BLENDS = bytearray(256 * 17), bytearray(256), bytes(32), (0.0, 0.0, 0.0, 255.0), bytes(256)
WRONG: list[tuple[str, tuple[Any, ...]]] = [
    ("flatten", ((("Z",),), 1.0)),
    ("flatten", ((("M", 0.0, float("inf")),), 1.0)),
    ("fill_lines", (EDGE, [0, 9], [True, True])),
    ("fill_lines", (EDGE, [0], [])),
    ("stroke_lines", (EDGE, [-1], [True], 1.0, False, b"", 0.1)),
    ("stroke_lines", (EDGE, [0], [True], 1.0, False, b"12345678", 0.1)),
    ("fill_lines", (memoryview(b" " + EDGE)[1:], [0], [True])),  # no place for a number
    ("set_letters", ([EDGE], [], 1.0, 0.0, 0.0, 0.0)),
    ("set_letters", ([EDGE[:24]], [0.0], 1.0, 0.0, 0.0, 0.0)),
    ("cover", (EDGE[:24], 0.0, 0.0, (0, 0, 9, 9))),
    ("strew", (bytearray(20), 5, bytes(4), 2, [(4, 0)], False)),
    ("strew", (bytearray(20), 5, bytes(4), 2, [(-1, 0)], False)),
    ("strew", (bytearray(20), 5, bytes(4), 2, [(0, 0), (0, 3)], True)),
    ("strew", (bytearray(20), 0, bytes(4), 2, [(0, 0)], True)),
    ("strew", (bytearray(20), 5, bytes(4), 2, [(0, 0, 0)], True)),
    ("strew", (bytearray(20), 5, bytes(4), 2, [0], True)),
    ("fade", (bytes(4), bytes(5), 0.5)),
    ("lay_indexed", (bytearray(20), 5, bytes(4), 2, (4, 0, 2, 2, 0, 0), *BLENDS)),
    ("lay_indexed", (bytearray(20), 5, bytes(4), 2, (0, 0, 2, 2, 1, 0), *BLENDS)),
    ("lay_indexed", (bytearray(20), 5, bytes(4), 2, (0, -1, 2, 2, 0, 0), *BLENDS)),
    ("lay_indexed", (bytearray(20), 5, bytes(4), 2, (0, 0, 2, 2, 0, 0), bytearray(9), *BLENDS[1:])),
    ("lay_indexed", (bytearray(20), 5, bytes(4), 2, (0, 0, 2, 2, 0, 0), *BLENDS[:4], bytes(255))),
    ("lay_full", (bytearray(80), 5, bytes(4), 2, (4, 0, 2, 2, 0, 0), bytes(4))),
    ("lay_full", (bytearray(80), 5, bytes(4), 2, (0, 0, 2, 2, 0, 0), bytes(3))),
    ("packed", (bytes(7), 1, True, 0)),
    ("packed", (bytes(20), 2, True, 0)),
    ("packed", (bytes(20), 0, True, 0)),
    ("packed", (bytes(20), 1, True, 5)),
    ("fill", (bytearray(20), 0, 5, 6, 4, b"ab")),
    ("fill", (bytearray(20), 17, 5, 2, 1, b"ab")),
    ("fill", (bytearray(20), -1, 5, 2, 1, b"ab")),
    ("fill", (bytearray(20), 0, 5, 2, 5, b"ab")),
]


@needs_both
@pytest.mark.parametrize(("name", "arguments"), WRONG)
def test_what_does_not_fit_is_refused(name: str, arguments: tuple[Any, ...]) -> None:
    with pytest.raises(ValueError, match=r"fit|out|outside|four|number|begins|before|shades|rows"):
        getattr(COMPILED, name)(*arguments)


class Meddling:
    """A number that changes lists whenever it is asked what it is."""

    def __init__(self, lists: list[list[Any]], change: Callable[[list[Any]], None]) -> None:
        self._lists, self._change = lists, change

    def __float__(self) -> float:
        for each in self._lists:
            self._change(each)
        return 1.0

    def __index__(self) -> int:
        return int(float(self))

    def __bool__(self) -> bool:
        return bool(float(self))


@needs_both
@pytest.mark.parametrize("change", [list.clear, lambda each: each.extend([(1 << 60, 1 << 60)] * 9999)])
def test_lists_do_not_change_while_they_are_read(change: Callable[[list[Any]], None]) -> None:
    lists: list[list[Any]] = [[], [], [], [], []]
    starts, closed, letters, along, places = lists
    meddling = Meddling(lists, change)
    starts += [0, 1]
    closed += [meddling, meddling]
    letters += [EDGE, EDGE]
    along += [meddling, 1.0]
    places += [(0, meddling), (0, 0)]
    assert COMPILED is not None
    COMPILED.stroke_lines(EDGE, starts, closed, 1.0, False, b"", 0.1)
    with pytest.raises(ValueError, match="fit"):
        COMPILED.set_letters(letters, along, 1.0, 0.0, 0.0, 0.0)
    with pytest.raises(TypeError):
        COMPILED.strew(bytearray(20), 5, bytes(4), 2, places, True)
    assert all(len(each) == 2 for each in lists)


def test_a_band_paints_nothing_beside_itself() -> None:
    window = canvas.Window(10, 20, 30, 25)
    band = canvas.Full("#ffffff", window)
    band.fill(canvas.Window(0, 0, 100, 21), "#112233")
    band.keep_to(canvas.Window(12, 20, 30, 25))
    band.fill(canvas.Window(0, 23, 13, 99), "#445566")
    found = np.frombuffer(band.colours(), np.uint8).reshape(5, 20, 3)
    expected = np.full((5, 20, 3), 255)
    expected[0] = 0x11, 0x22, 0x33
    expected[3:, 2:3] = 0x44, 0x55, 0x66
    assert np.array_equal(found, expected)
