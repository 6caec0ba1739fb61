"""Whole charts as PNG: what cairo draws of the same chart's SVG, for every piece of every case.

cairo takes a minute or two for the blanket alone. So that the tests stay quick, some rows of each chart are compared
(with the marks and numbers beside them), the tie whole; TURNCHAIN_WHOLE=1 in the environment compares all of all.
Measured so: mean at most 0.20 levels, 99.9999 % of the px within 16, the worst 22 off.
"""

from __future__ import annotations

import io
import os
import shutil
import tomllib
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
from lxml import etree
from PIL import Image

from chart_reader import Chart, strokes
from conftest import Charted
from pictures import Picture, cairos, cairos_svg, check_alike, opened, ours, png_bytes
from turnchain.drawing.chart import chart
from turnchain.drawing.looks import Look
from turnchain.making import planned
from turnchain.records import replace

pytestmark = pytest.mark.slow

CASES = {file.stem: file for file in sorted((Path(__file__).parent / "cases").glob("*.toml"))}
PIECES = [
    (case, piece["name"]) for case, file in CASES.items() for piece in tomllib.loads(file.read_text("utf-8"))["piece"]
]
#: The rows to compare, first and last; None for all.
ROWS: dict[str, tuple[int, int] | None] = {
    "front": (11, 14),
    "back": (11, 12),
    "sleeve": (1, 4),
    "kerchief": (22, 25),
    "tie": None,
    "blanket": (1, 2),
}
WHOLE = bool(os.environ.get("TURNCHAIN_WHOLE"))


@pytest.mark.parametrize(("case", "piece"), PIECES)
def test_a_chart_is_what_cairo_draws(case: str, piece: str, charted: Charted) -> None:
    found = opened(charted(CASES[case], piece, ".png").read_bytes())
    drawing = charted(CASES[case], piece, ".svg")
    rows = None if WHOLE else ROWS[piece]
    if rows is None:
        check_alike(cairos_svg(drawing.read_bytes()), found)
        return
    data, kept = only(rows, drawing)
    expected = cairos_svg(data)
    assert expected.shape == found.shape
    # a whole picture has its mean below 1; here there is no white paper to bring it down
    check_alike(expected[kept], found[kept], mean=1.5)


def only(rows: tuple[int, int], drawing: Path) -> tuple[bytes, tuple[slice, slice]]:
    """The drawing without the stitches of other rows, and the px (down, across) that ``rows`` fill by themselves."""
    chart = Chart(drawing)
    for name in ("header", "key"):  # many letters, far from the rows
        chart.group(name).getparent().remove(chart.group(name))
    tops = {}
    for index in range(1, chart.rows() + 1):
        group = chart.group(f"row-of-stitches-{index}")
        ((_, top),) = chart.places_of_uses(group)
        tops[index] = top
        if not rows[0] <= index <= rows[1]:
            group.getparent().remove(group)
    rise = tops[1] - tops[2]
    # a tenth of a row at both ends, where neighbours reach in
    down = slice(round(tops[rows[1]] + rise / 10), round(tops[rows[0]] + rise * 9 / 10))
    xs = [x for path in chart.group("edges").iter("{*}path") for stroke in strokes(path) for x, _ in stroke]
    return etree.tostring(chart.root), (down, slice(round(min(xs)) - 60, round(max(xs)) + 60))


# Shaped at both edges, and more colours than a palette has room for.
MANY = """
title = "Many colours"
[swatch]
clusters = 8
width = 16
rows = 10
height = 20
[stripes]
order = [{order}]
rows = 1
[[piece]]
name = "sampler"
outline = [[0, 30], [20, 18], [40, 18], [44, 24], [60, 30]]
"""


def many_colours(folder: Path) -> Path:
    yarns = [(f"Y{nth}", f"#{(nth * 37) % 256:02x}{(nth * 91) % 256:02x}{(nth * 53) % 256:02x}") for nth in range(30)]
    file = folder / "many.toml"
    blocks = "".join(f'[[yarn]]\nname = "{name}"\ncolour = "{colour}"\n' for name, colour in yarns)
    file.write_text(MANY.format(order=", ".join(f'"{name}"' for name, _ in yarns)) + blocks, "utf-8")
    return file


def test_a_shaped_chart_of_many_colours_is_what_cairo_draws(tmp_path: Path) -> None:
    scene = chart(planned(many_colours(tmp_path)), "sampler", 900)
    assert Image.open(io.BytesIO(png_bytes(scene))).mode == "RGB", "not indexed: it has too many colours"
    check_alike(cairos(scene), ours(scene))


def test_a_transparent_chart_is_what_cairo_draws() -> None:
    scene = chart(planned(CASES["kite_kerchief"]), "tie", 900, Look(page="clear"))
    expected, found = (seen_through(picture) for picture in (cairos(scene, "RGBA"), ours(scene, "RGBA")))
    assert (found[:, :, 3] == 0).mean() > 0.05, "nothing is transparent"
    check_alike(expected, found)
    with pytest.raises(AssertionError, match="turnchain-pictures-") as caught:
        check_alike(expected, seen_through(ours(replace(scene, background="#ffffff"), "RGBA")))
    shutil.rmtree(str(caught.value).split()[-1])


def seen_through(picture: Picture) -> Picture:
    """Colours times their opacity, and that opacity: what is clear has no colour to compare."""
    opacity = picture[:, :, 3:].astype(int)
    return np.concatenate([picture[:, :, :3] * opacity // 255, opacity], axis=2).astype(np.uint8)


@pytest.fixture(scope="module")
def kerchief(charted: Charted) -> Picture:
    return opened(charted(CASES["kite_kerchief"], "kerchief", ".png").read_bytes())


def moved(picture: Picture) -> Picture:
    return np.roll(picture, 1, axis=1)


def without_stitches(picture: Picture) -> Picture:
    """A row of stitches painted over in white."""
    spoilt = picture.copy()
    middle = picture.shape[0] // 2
    spoilt[middle : middle + 60, 400:1200] = 255
    return spoilt


def in_another_colour(picture: Picture) -> Picture:
    spoilt = picture.copy()
    kelp = (0x75, 0xA5, 0x99)  # the tint of its stripes
    assert (picture == kelp).all(axis=2).mean() > 0.05, "no such stripes"
    spoilt[(picture == kelp).all(axis=2)] = (0x75, 0xA5, 0xB5)
    return spoilt


@pytest.mark.parametrize("spoil", [moved, without_stitches, in_another_colour])
def test_the_comparison_can_fail(spoil: Callable[[Picture], Picture], kerchief: Picture) -> None:
    check_alike(kerchief, kerchief)
    with pytest.raises(AssertionError, match="turnchain-pictures-") as caught:
        check_alike(kerchief, spoil(kerchief))
    shutil.rmtree(str(caught.value).split()[-1])
