"""What a maker puts into a pattern beside its figures: words, a colour, photographs.

What a camera writes beside a picture: Exif 2.3 (orientation is tag 0x0112, GPS the tag 0x8825), by Pillow.
"""

from __future__ import annotations

import io
from pathlib import Path

import pypdf
import pytest
from PIL import Image

from turnchain.drawing.looks import Look
from turnchain.errors import FileError, PatternError
from turnchain.garment import parts
from turnchain.making.everything import make_all
from turnchain.making.printed import print_booklet
from turnchain.pattern import Photo
from turnchain.planning.planner import plan_pattern
from turnchain.printing.photographs import LONGEST, prepared
from turnchain.reading.pattern_file import read_text

SMALL = """title = "Dune mat"
{top}
[swatch]
clusters = 8
width = 20
rows = 10
height = 10
[[piece]]
name = "mat"
width = 10
length = 6
{piece}
{photo}
"""
ORIENTATION, GPS = 0x0112, 0x8825


def text(top: str = "", piece: str = "", photo: str = "") -> str:
    return SMALL.format(top=top, piece=piece, photo=photo)


def taken(path: Path, ending: str = "JPEG", size: tuple[int, int] = (400, 300)) -> None:
    """A photograph taken with the camera on its side: red at its left, so that it is seen with red at the top."""
    image = Image.new("RGB", size, "blue")
    image.paste("red", (0, 0, size[0] // 2, size[1]))
    exif = Image.Exif()
    exif[ORIENTATION] = 6
    exif[GPS] = {1: "N", 2: (54.0, 20.0, 0.0)}
    image.save(path, ending, exif=exif)


def test_the_makers_words_are_read_by_paragraphs() -> None:
    top = 'introduction = """\none\nline\n \n\ntwo"""\ncontact = "c"\ncolour = "#123456"'
    pattern = read_text(text(top, 'before = "b"\nafter = "a"'), "a.toml")
    assert (pattern.introduction, pattern.contact, pattern.colour) == ("one line\n\ntwo", "c", "#123456")
    assert (pattern.pieces[0].before, pattern.pieces[0].after) == ("b", "a")


@pytest.mark.parametrize(
    ("photo", "said"),
    [
        ('file = "../a.jpg"\nalt = "x"', "a file in the folder of the pattern"),
        ('file = "/a.jpg"\nalt = "x"', "a file in the folder of the pattern"),
        ('file = "c:a.jpg"\nalt = "x"', "a file in the folder of the pattern"),
        ('file = "a.gif"\nalt = "x"', "a picture whose name ends in"),
        ('file = "a.jpg"', "words for who cannot see it"),
        ('alt = "x"', "needs its file"),
        ('file = "a.jpg"\nalt = "x"\nplace = "mta"', 'did you mean "mat"'),
    ],
)
def test_a_photograph_that_cannot_stand_is_told(photo: str, said: str) -> None:
    with pytest.raises(PatternError) as caught:
        read_text(text(photo=f"[[photo]]\n{photo}"), "a.toml")
    assert said in str(caught.value)


@pytest.mark.parametrize(("name", "ending"), [("a.jpg", "JPEG"), ("a.png", "PNG"), ("a.webp", "WEBP")])
def test_a_photograph_is_turned_and_stripped(tmp_path: Path, name: str, ending: str) -> None:
    taken(tmp_path / name, ending)
    assert Image.open(tmp_path / name).getexif().get_ifd(GPS), "the camera wrote where it was"
    made = prepared(tmp_path, Photo(name, "x"))
    image = Image.open(io.BytesIO(made.data))
    assert (image.format, image.size) == ("JPEG", (made.width, made.height)) == ("JPEG", (300, 400))
    assert not dict(image.getexif())
    assert b"Exif" not in made.data
    top, foot = (image.getpixel((150, y)) for y in (40, 360))
    assert isinstance(top, tuple)
    assert isinstance(foot, tuple)
    assert top[0] > 200 > 60 > top[2]
    assert foot[2] > 200 > 60 > foot[0]


def test_a_photograph_is_no_larger_than_it_is_printed(tmp_path: Path) -> None:
    taken(tmp_path / "a.jpg", size=(4000, 3000))
    made = prepared(tmp_path, Photo("a.jpg", "x"))
    assert max(made.width, made.height) == LONGEST
    assert made.data == prepared(tmp_path, Photo("a.jpg", "x")).data


def test_a_photograph_elsewhere_or_none_is_refused(tmp_path: Path) -> None:
    folder = tmp_path / "inner"
    folder.mkdir()
    taken(tmp_path / "a.jpg")
    (folder / "link.jpg").symlink_to(tmp_path / "a.jpg")
    (folder / "text.jpg").write_text("no picture")
    refused = {"link.jpg": "a link out of it", "none.jpg": "no such photograph", "text.jpg": "can be read"}
    for name, said in refused.items():
        with pytest.raises(FileError, match=said):
            prepared(folder, Photo(name, "x"))


def test_photographs_stand_in_folder_and_booklet(tmp_path: Path) -> None:
    taken(tmp_path / "own.jpg")
    source = tmp_path / "mat.toml"
    source.write_text(text(photo='[[photo]]\nfile = "own.jpg"\nalt = "the mat on a table"\nplace = "mat"'))
    make_all(source, tmp_path / "made", 400, Look())
    assert Image.open(tmp_path / "made" / "photo-1.jpg").size == (300, 400)
    assert "![the mat on a table](photo-1.jpg)" in (tmp_path / "made" / "pattern.md").read_text("utf-8")
    print_booklet(source, tmp_path / "mat.pdf", "A4", Look(), None)
    images = [image.image for page in pypdf.PdfReader(tmp_path / "mat.pdf").pages for image in page.images]
    assert [image.size for image in images if image] == [(300, 400)]


def test_a_makers_photograph_is_never_replaced(tmp_path: Path) -> None:
    """Of the name that is made for it, in the folder that everything is made in."""
    taken(tmp_path / "photo-1.jpg")
    before = (tmp_path / "photo-1.jpg").read_bytes()
    source = tmp_path / "mat.toml"
    source.write_text(text(photo='[[photo]]\nfile = "photo-1.jpg"\nalt = "x"'))
    with pytest.raises(FileError):
        make_all(source, tmp_path, 400, Look())
    assert (tmp_path / "photo-1.jpg").read_bytes() == before


def test_a_photograph_stands_at_its_place_by_its_number_in_the_file() -> None:
    photos = "".join(f'[[photo]]\nfile = "{name}.jpg"\nalt = "{name}"\n{place}' for name, place in
                     (("a", ""), ("b", 'place = "mat"\n'), ("c", "")))  # fmt: skip
    plan = plan_pattern(read_text(text(photo=photos), "a.toml"))
    top, mat = (list(parts.photos(plan, place)) for place in (plan.pattern.photos[0].place, "mat"))
    assert [(nth, photo.alt) for nth, photo in top] == [(1, "a"), (3, "c")]
    assert [(nth, photo.alt) for nth, photo in mat] == [(2, "b")]


@pytest.mark.parametrize(("wearer", "said"), [
    ("", 0), ("[wearer]\nbust = 90", 0), ('[wearer]\nwho = "adult"', 1), ('[wearer]\nwho = "baby"', 1),
])  # fmt: skip
def test_whom_it_is_for_is_said_as_far_as_the_file_says_it(wearer: str, said: int) -> None:
    assert len(parts.about(plan_pattern(read_text(text(photo=wearer), "a.toml")))) == said
