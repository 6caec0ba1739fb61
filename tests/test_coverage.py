"""The scan converter: areas that can be reckoned by hand, the winding rule, strokes, windows."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from both_loops import COMPILED, draw_with
from turnchain.raster import numpy_loops
from turnchain.raster.coverage import Mask, Window, cover
from turnchain.raster.edges import Edges, fill_edges, stroke_edges
from turnchain.scene import Path, Steps, line, polyline, rectangle

WIDE = Window(-200, -200, 200, 200)


@pytest.fixture(autouse=True, params=["compiled", "numpy"])
def drawn_by(request: pytest.FixtureRequest) -> Iterator[None]:
    """All that is said here is true of the loops in C and of those in numpy."""
    if request.param == "compiled" and COMPILED is None:
        pytest.skip("the loops were not compiled here")
    with draw_with(COMPILED if request.param == "compiled" else numpy_loops):
        yield


def px(mask: Mask) -> NDArray[np.uint8]:
    return np.frombuffer(mask.alpha, np.uint8).reshape(mask.height, mask.width)


def area(edges: Edges, window: Window = WIDE) -> float:
    """Px covered."""
    mask = cover(edges, window)
    return 0.0 if mask is None else float(px(mask).astype(float).sum() / 255)


def stroke(steps: Steps, width: float, **style: object) -> Edges:
    return stroke_edges(Path(steps, stroke="#000000", width=width, **style))  # type: ignore[arg-type]


def test_parts_of_a_pixel() -> None:
    mask = cover(fill_edges(rectangle(3.25, -1, 1.5, 1.6)), WIDE)
    assert mask is not None
    assert (mask.left, mask.top) == (3, -1)
    # 3/4 of the px wide; the lower row is 9 of 15 sub-scanlines high
    assert px(mask).tolist() == [[191, 191], [115, 115]]


def test_slanted_edges_are_exact_along_the_row() -> None:
    mask = cover(fill_edges(polyline([(0, 0), (2, 0), (0, 1)], closed=True)), WIDE)
    assert mask is not None
    assert px(mask).tolist() == [[pytest.approx(191, abs=1), pytest.approx(64, abs=1)]]


@pytest.mark.parametrize(
    ("inner", "hole"), [([(2, 2), (8, 2), (8, 8), (2, 8)], 0), ([(2, 2), (2, 8), (8, 8), (8, 2)], 36)]
)
def test_non_zero_winding(inner: list[tuple[float, float]], hole: float) -> None:
    steps = rectangle(0, 0, 10, 10) + polyline(inner, closed=True)
    assert area(fill_edges(steps)) == pytest.approx(100 - hole)


def test_open_outlines_are_filled_as_if_closed() -> None:
    assert area(fill_edges(polyline([(0, 0), (4, 0), (4, 4), (0, 4)]))) == pytest.approx(16)


def test_a_line_after_closing_starts_where_the_outline_did() -> None:
    # SVG 1.1, 8.3.3: the next subpath starts at the same initial point as the current one
    steps: Steps = (*polyline([(5, 5), (9, 5), (9, 9)], closed=True), ("L", 5, 20))
    mask = cover(stroke(steps, 2, cap="butt"), WIDE)
    assert mask is not None
    assert px(mask)[18 - mask.top, 4 - mask.left] == 255


def test_curves() -> None:
    k = 40 * 4 / 3 * (math.sqrt(2) - 1)
    steps: Steps = (("M", 40, 0), ("C", 40, k, k, 40, 0, 40), ("C", -k, 40, -40, k, -40, 0), ("Z",))
    assert area(fill_edges(steps)) == pytest.approx(math.pi * 1600 / 2, rel=2e-3)


@pytest.mark.parametrize(
    ("steps", "style", "expected"),
    [
        (line(0, 0, 30, 40), {"cap": "butt"}, 50 * 6),
        (line(0, 0, 30, 40), {}, 50 * 6 + math.pi * 9),
        (line(5, 5, 5, 5), {}, math.pi * 9),  # a round dot
        (line(5, 5, 5, 5), {"cap": "butt"}, 0),
        ((("M", 5.0, 5.0),), {}, 0),
        # a square with its corners rounded outside
        (rectangle(0, 0, 40, 40), {}, 46**2 - 34**2 - (36 - math.pi * 9)),
        # there and back: covered once
        (polyline([(0, 0), (50, 0), (0, 0)]), {}, 50 * 6 + math.pi * 9),
        (line(0, 0, 50, 0), {"cap": "butt", "dash": (7.0, 3.0)}, 35 * 6),
        (line(0, 0, 47, 0), {"cap": "butt", "dash": (5.0,)}, 25 * 6),
        (line(0, 0, 47, 0), {"cap": "butt", "dash": (0.0, 0.0)}, 47 * 6),
        (line(0, 0, 50, 0), {"dash": (0.0, 10.0)}, 5 * math.pi * 9),  # round dots; none at the very end
        (line(0, 0, 0, 45), {"cap": "butt", "dash": (10.0, 5.0, 2.0)}, (10 + 2 + 5 + 10) * 6),
    ],
)
def test_strokes(steps: Steps, style: dict[str, object], expected: float) -> None:
    assert area(stroke(steps, 6, **style)) == pytest.approx(expected, rel=5e-3)


def test_dashes_turn_corners() -> None:
    corner = polyline([(0, 0), (20, 0), (20, 20)])
    whole, dashed = (area(stroke(corner, 6, cap="butt", dash=dash)) for dash in ((), (100.0, 1.0)))
    assert whole == pytest.approx(dashed)


def test_dashes_join_where_a_closed_line_ends() -> None:
    # the last dash (20) meets the first (10) at a corner: they share 3 x 3, and a quarter disc lies outside
    square = stroke(rectangle(0, 0, 40, 40), 6, cap="butt", dash=(10.0, 130.0, 20.0))
    assert area(square) == pytest.approx((20 + 10) * 6 - 9 + math.pi * 9 / 4, rel=5e-3)


@pytest.mark.parametrize("radius", [0.3, 1, 3, 20])
def test_dots_have_the_area_of_discs(radius: float) -> None:
    assert area(stroke(line(0.3, 0.4, 0.3, 0.4), 2 * radius)) == pytest.approx(math.pi * radius**2, rel=0.02)


@pytest.mark.parametrize("edges", [b"", fill_edges(()), stroke((), 2), fill_edges(rectangle(500, 0, 9, 9))])
def test_nothing_to_see(edges: Edges) -> None:
    assert cover(edges, WIDE) is None


def test_places_that_are_no_numbers_are_refused() -> None:
    with pytest.raises(ValueError, match="no number"):
        cover(fill_edges(rectangle(0, 0, math.nan, 1)), WIDE)


def test_far_outside_costs_nothing() -> None:
    mask = cover(fill_edges(rectangle(-1e9, -1e9, 2e9, 2e9)), Window(0, 0, 4, 3))
    assert mask is not None
    assert px(mask).tolist() == [[255] * 4] * 3


coordinate = st.floats(-40, 40, width=32)


@settings(max_examples=60)
@given(st.lists(st.tuples(coordinate, coordinate), min_size=3, max_size=8))
def test_a_window_shows_what_the_whole_shows_there(points: list[tuple[float, float]]) -> None:
    edges = fill_edges(polyline(points, closed=True))
    window = Window(-7, -11, 13, 9)
    whole, part = np.zeros((400, 400), int), np.zeros((400, 400), int)
    for sheet, limits in ((whole, WIDE), (part, window)):
        if mask := cover(edges, limits):
            lines = slice(mask.top + 200, mask.top + 200 + mask.height)
            sheet[lines, mask.left + 200 : mask.left + 200 + mask.width] = px(mask)
    seen = (slice(189, 209), slice(193, 213))
    assert np.array_equal(whole[seen], part[seen])
    part[seen] = 0
    assert not part.any()


class ThirtyTwoBits:
    """numpy as it is on a machine that counts with 32 bits: places are int32, and wider ones are refused."""

    intp = np.int32

    def __getattr__(self, name: str) -> Any:
        return getattr(np, name)

    def arange(self, *limits: int) -> NDArray[np.int32]:
        return np.arange(*limits, dtype=np.int32)

    def repeat(self, values: Any, counts: Any) -> Any:
        counted = counts if isinstance(counts, np.ndarray) else np.array(counts, np.int32)
        return np.repeat(values, counted.astype(np.int32, casting="safe"))

    def bincount(self, places: NDArray[Any], *others: Any) -> Any:
        return np.bincount(places.astype(np.int32, casting="safe"), *others)

    def cumsum(self, values: Any, *others: Any, **named: Any) -> Any:
        summed = np.cumsum(values, *others, **named)
        narrow = np.asarray(values).dtype in (np.dtype(np.int32), np.dtype(np.bool_))
        return summed.astype(np.int32) if narrow else summed


@pytest.mark.parametrize("width", [3.0, 0.5])
def test_a_machine_of_32_bits_covers_alike(width: float, monkeypatch: pytest.MonkeyPatch) -> None:
    path = Path((("M", 3, 4), ("C", 30, 2, 60, 50, 90, 20), ("L", 9000.5, 33)), stroke="#000000", width=width)

    def covered() -> NDArray[np.uint8]:
        mask = cover(stroke_edges(path), Window(0, 0, 9100, 60))
        assert mask is not None
        return px(mask)

    expected = covered()
    monkeypatch.setattr(numpy_loops, "np", ThirtyTwoBits())
    assert np.array_equal(covered(), expected)
