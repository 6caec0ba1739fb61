"""Lines of a picture that come again are copied, and the picture is the same as without."""

from __future__ import annotations

import random
from pathlib import Path as FilePath

import numpy as np
import pytest

from pictures import opened, png_bytes
from turnchain.drawing.preview import preview
from turnchain.making import planned
from turnchain.raster import canvas, picture, repeats
from turnchain.scene import Item, Path, Scene, Text, Use, ellipse, polyline, rectangle

CASES = FilePath(__file__).parent / "cases"


def striped(seed: int) -> Scene:
    """Stripes with dots in turn, some of them moved by part of a px, a slanted line and words somewhere on them."""
    rand = random.Random(seed)
    colours = [f"#{rand.randrange(1 << 24):06x}" for _ in range(rand.randint(2, 9))]
    pace, items = rand.choice([8, 12, 15, 12.5]), list[Item]()
    count = int(900 / pace)
    for row in range(count):
        top = row * pace
        if float(top).is_integer():
            items.append(Path(rectangle(20, top, 200, pace // 1), fill=colours[row % len(colours)]))
        moved = 0.3 if rand.random() < 0.05 else 0.0
        items.append(Use("dots", 30 + moved, top + pace / 2, colours[(row + 1) % len(colours)]))
    items.append(Path(polyline([(0, 10), (240, rand.randrange(20, 800))]), stroke="#000000", width=1.5))
    items.append(Text(40, rand.randrange(100, 800), "row 12", 20, "#221d18"))
    dots = tuple(Path(ellipse(9 * nth, 0.4, 5, 4), fill="ink") for nth in range(20))
    return Scene(240, 900, "Stripes", "Stripes.", "en", {"dots": dots}, tuple(items))


@pytest.mark.quick(9)
@pytest.mark.parametrize("band", [1 << 22, 240 * 4 * 50])
@pytest.mark.parametrize("seed", range(12))
def test_a_picture_of_copies_is_the_picture(seed: int, band: int, monkeypatch: pytest.MonkeyPatch) -> None:
    scene = striped(seed)
    monkeypatch.setattr(picture, "BAND", band)
    found = opened(png_bytes(scene))
    monkeypatch.setattr(repeats, "MOST_PAIRS", -1)
    assert np.array_equal(found, opened(png_bytes(scene)))


def painted(scene: Scene, monkeypatch: pytest.MonkeyPatch) -> int:
    """How many lines of px are painted."""
    lines = 0
    keep_to = canvas.Full.keep_to

    def counted(self: canvas.Full, window: canvas.Window) -> None:
        nonlocal lines
        lines += window.bottom - window.top
        keep_to(self, window)

    with monkeypatch.context() as patched:
        patched.setattr(canvas.Full, "keep_to", counted)
        png_bytes(scene)
    return lines


@pytest.mark.quick(0)
def test_a_striped_blanket_is_painted_once_to_a_repeat(monkeypatch: pytest.MonkeyPatch) -> None:
    scene = preview(planned(CASES / "mudflat_blanket.toml"))
    assert painted(scene, monkeypatch) < scene.height / 2
    monkeypatch.setattr(repeats, "MOST_PAIRS", -1)
    assert painted(scene, monkeypatch) == scene.height


def test_one_thing_more_on_a_line_makes_it_another() -> None:
    dots = [repeats.Reach("dot", top, top, top + 4) for top in (0, 4, 8, 12, 16)]
    speck = repeats.Reach("speck", 9, 9, 10)
    plain = repeats.Repeats().lines(dots, 0, 20)
    specked = repeats.Repeats().lines([*dots, speck], 0, 20)
    assert plain is not None
    assert specked is not None
    assert [line for line in range(20) if plain[line] != specked[line]] == [9]
    assert len(set(plain)) == 4
    assert len(set(specked)) == 5


def test_the_order_of_painting_counts() -> None:
    over = [repeats.Reach("one", None, 0, 8), repeats.Reach("other", None, 0, 8)]
    under = [repeats.Reach("other", None, 8, 16), repeats.Reach("one", None, 8, 16)]
    shown = repeats.Repeats().lines([*over, *under], 0, 16)
    assert shown is not None
    assert len(set(shown)) == 2
