"""Cloth as drawn: a stripe seen from afar is the colour of its yarn, whatever the fabric and way it lies."""

from __future__ import annotations

from fractions import Fraction
from io import BytesIO

import numpy as np
import pytest
from coloraide import Color
from PIL import Image

from turnchain.drawing.looks import Look
from turnchain.drawing.preview import preview
from turnchain.pattern import Fabric, Pattern, Piece, Stripes, Swatch, Yarn
from turnchain.planning.planner import plan_pattern
from turnchain.scene import Group, Path
from turnchain.writers.formats import PICTURES

YARNS = ("#f6f1e6", "#ebdfc6", "#d3a24c", "#a4443b", "#4f6152", "#1d2b53", "#2a2622", "#8fb3c9", "#c77f9b")
SWATCH = Swatch(Fraction(4), Fraction(10), Fraction(8), Fraction(10))


def seen(
    colour: str, cluster: int = 3, gap: int = 1, worked: str = "upwards", width: int = 700, cm: int = 20
) -> str:
    """The average of the middle of a piece worked in ``colour``, in linear light, as "#rrggbb"."""
    piece = Piece("bit", worked, width=Fraction(cm), length=Fraction(cm))  # type: ignore[arg-type]
    pattern = Pattern("Bit", (SWATCH,), (piece,), Fabric(cluster, gap), (Yarn("Y", colour),), Stripes(("Y",)))
    scene = preview(plan_pattern(pattern), width=width)
    (cloth,) = [item for item in scene.items if isinstance(item, Group) and item.name == "cloth-1"]
    corners = np.array([step[1:] for path in cloth.items if isinstance(path, Path) for step in path.steps[:4]])
    stream = BytesIO()
    PICTURES[".png"].write(scene, stream)
    levels = np.asarray(Image.open(stream).convert("RGB"), dtype=float) / 255
    low, high = corners.min(axis=0), corners.max(axis=0)
    fifth = (high - low) / 5
    (left, top), (right, bottom) = np.rint([low + fifth, high - fifth]).astype(int)
    middle = levels[top:bottom, left:right]
    light = np.where(middle <= 0.04045, middle / 12.92, ((middle + 0.055) / 1.055) ** 2.4)  # IEC 61966-2-1
    return Color("srgb-linear", light.mean(axis=(0, 1)).tolist()).convert("srgb").to_string(hex=True)


def apart(one: str, other: str) -> float:
    return float(Color(one).delta_e(other, method="2000"))


@pytest.mark.quick(2)
@pytest.mark.parametrize("colour", YARNS)
@pytest.mark.parametrize(("cluster", "gap"), [(3, 1), (3, 0), (2, 1), (5, 1), (4, 0)])
def test_a_stripe_from_afar_is_its_yarn(colour: str, cluster: int, gap: int) -> None:
    """CIEDE2000 (coloraide's) under 4: common practice, no source, for colours taken as the same side by side."""
    assert apart(seen(colour, cluster, gap), colour) < 4


@pytest.mark.quick(2)
@pytest.mark.parametrize("colour", YARNS[:6])
def test_a_stripe_that_stands_upright_is_its_yarn(colour: str) -> None:
    assert apart(seen(colour, worked="sideways"), colour) < 4


@pytest.mark.quick(2)
@pytest.mark.parametrize("colour", YARNS)
@pytest.mark.parametrize(("cluster", "gap"), [(3, 1), (3, 0), (2, 1), (5, 1)])
@pytest.mark.parametrize("cm", [60, 150])
def test_a_stripe_of_fine_strands_is_its_yarn(colour: str, cluster: int, gap: int, cm: int) -> None:
    """A garment on a page: strands of a few px, which are drawn in fewer layers."""
    assert apart(seen(colour, cluster, gap, "sideways", cm=cm), colour) < 4


def test_fine_strands_are_drawn_in_fewer_layers() -> None:
    """A ground and six layers for a row."""
    piece = Piece("bit", "sideways", width=Fraction(150), length=Fraction(150))
    pattern = Pattern("Bit", (SWATCH,), (piece,), Fabric(), (Yarn("Y", "#a4443b"),), Stripes(("Y",)))
    scene = preview(plan_pattern(pattern), width=700)
    (cloth,) = [item for item in scene.items if isinstance(item, Group) and item.name == "cloth-1"]
    rows = sum(isinstance(item, Path) for item in cloth.items)
    assert len(cloth.items) <= 7 * rows + 2


def test_black_on_white_has_no_cloth() -> None:
    piece = Piece("bit", "upwards", width=Fraction(20), length=Fraction(20))
    pattern = Pattern("Bit", (SWATCH,), (piece,), Fabric(), (Yarn("Y", "#a4443b"),), Stripes(("Y",)))
    scene = preview(plan_pattern(pattern), look=Look(inks="mono"))
    assert not scene.definitions
