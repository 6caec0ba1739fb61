"""WebP and JPEG: the px of the PNG, read back by Pillow; dots to the inch and colours named; limits told in words."""

from __future__ import annotations

import io
from pathlib import Path

import numpy as np
import pytest
from click.testing import CliRunner
from PIL import Image, ImageCms

from pictures import opened, png_bytes
from test_cli import SMALL
from test_writers_png import SCENES
from turnchain.cli import cli
from turnchain.errors import MakerError
from turnchain.raster import limits
from turnchain.records import replace
from turnchain.scene import Scene
from turnchain.writers import formats, image, webp

NAMES = ("nested uses", "see-through", "text")


def written(ending: str, scene: Scene, dpi: float | None = None) -> bytes:
    stream = io.BytesIO()
    formats.PICTURES[ending].write(scene, stream, dpi)
    return stream.getvalue()


@pytest.mark.parametrize("name", NAMES)
def test_a_webp_has_every_px_of_the_png(name: str) -> None:
    with Image.open(io.BytesIO(written(".webp", SCENES[name]))) as picture:
        assert picture.format == "WEBP"
        assert np.array_equal(np.asarray(picture.convert("RGB")), opened(png_bytes(SCENES[name])))


@pytest.mark.parametrize("name", NAMES)
def test_a_jpeg_is_near_the_png(name: str) -> None:
    with Image.open(io.BytesIO(written(".jpg", SCENES[name]))) as picture:
        assert picture.format == "JPEG"
        apart = np.abs(np.asarray(picture).astype(int) - opened(png_bytes(SCENES[name])))
    assert 0 < apart.mean() < 2  # and the two are not the same, so that the comparison sees something


@pytest.mark.parametrize("name", NAMES)
def test_a_clear_page_stays_clear(name: str) -> None:
    clear = replace(SCENES[name], background=None)
    with Image.open(io.BytesIO(written(".webp", clear))) as picture:
        alpha = np.asarray(picture)[:, :, 3]
    assert alpha.min() == 0
    assert alpha.max() > 0
    with pytest.raises(MakerError, match="a JPEG cannot be without background"):
        written(".jpeg", clear)


@pytest.mark.parametrize("ending", [".webp", ".jpg"])
def test_dots_and_colours_are_named(ending: str) -> None:
    data = written(ending, SCENES["text"], dpi=300)
    with Image.open(io.BytesIO(data)) as picture:
        exif = picture.getexif()
        dots = picture.info.get("dpi") or (exif[webp.X_RESOLUTION], exif[webp.Y_RESOLUTION])
        assert [round(float(number)) for number in dots] == [300, 300]
        profile = ImageCms.ImageCmsProfile(io.BytesIO(picture.info["icc_profile"]))
    assert "sRGB" in str(ImageCms.getProfileDescription(profile))


@pytest.mark.parametrize("ending", [".webp", ".jpg", ".jpeg"])
def test_same_scene_same_bytes(ending: str) -> None:
    first = written(ending, SCENES["nested uses"])
    image.srgb.cache_clear()
    assert written(ending, SCENES["nested uses"]) == first


@pytest.mark.parametrize(("ending", "longest"), [(".webp", limits.WEBP.side), (".jpg", limits.JPEG.side)])
def test_what_a_format_cannot_hold_is_told(ending: str, longest: int) -> None:
    long = replace(SCENES["strokes"], width=longest + 1, height=20)
    with pytest.raises(MakerError, match=f"too large for .*: at most {longest:,} px"):
        written(ending, long)
    with Image.open(io.BytesIO(written(ending, replace(long, width=longest)))) as picture:
        assert picture.size == (longest, 20)


@pytest.mark.parametrize("ending", [".webp", ".jpg", ".jpeg", ".png"])
def test_every_format_is_made_by_the_command_line(ending: str, tmp_path: Path) -> None:
    (tmp_path / "small.toml").write_text(SMALL, "utf-8")
    out = tmp_path / f"front{ending}"
    words = ["chart", str(tmp_path / "small.toml"), "--piece", "front", "-o", str(out), "--width", "500"]
    ran = CliRunner().invoke(cli, words)
    assert (ran.exit_code, ran.output.split()) == (0, [str(out), str(out.with_suffix(".txt"))])
    with Image.open(out) as picture:
        assert picture.width == 500
    assert ending in CliRunner().invoke(cli, ["chart", "--help"]).output
