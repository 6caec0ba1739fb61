"""All files of a pattern: what there is, in which order, and that a run that fails leaves everything as it was."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any, BinaryIO
from urllib.parse import unquote

import jsonschema
import pytest
from click.testing import CliRunner
from lxml import html

from test_cli import SMALL, contents
from turnchain.cli import cli
from turnchain.drawing.looks import Look
from turnchain.errors import FileError
from turnchain.making import every_size, everything, made_of, parallel, planned, record
from turnchain.pages import overview as page
from turnchain.plan_json import schema
from turnchain.planning.planner import plan_pattern
from turnchain.reading.pattern_file import read_text
from turnchain.records import replace
from turnchain.scene import INK, Group, Scene, Text, Use, polyline
from turnchain.scene import Path as Path_
from turnchain.writers import formats


def make(source: Path, folder: Path) -> list[Path]:
    """Makes everything at a small size; the files told of, in order."""
    return everything.make_all(source, folder, width=700, look=Look()).written


@pytest.fixture(scope="module")
def source(tmp_path_factory: pytest.TempPathFactory) -> Path:
    file = tmp_path_factory.mktemp("pattern") / "small.toml"
    file.write_text(SMALL, "utf-8")
    return file


@pytest.fixture(scope="module")
def once(source: Path) -> Path:
    """Everything made once; not to be changed."""
    make(source, source.parent / "once")
    return source.parent / "once"


@pytest.fixture
def folder(once: Path, tmp_path: Path) -> Path:
    """A folder with older files of the same names; by its plan it is known as made by turnchain."""
    shutil.copytree(once, tmp_path / "made")
    for file in (tmp_path / "made").iterdir():
        if file.name != "plan.json":
            file.write_bytes(b"old " + file.name.encode())
    return tmp_path / "made"


@pytest.mark.quick(0)
def test_every_piece_has_its_pictures_and_words(once: Path) -> None:
    names = set(contents(once))
    assert {"plan.json", "index.html"} <= names
    assert {f"{piece}{kind}" for piece in ("front", "strip") for kind in (".svg", ".png", ".txt")} <= names
    # beside each image its alt text
    for name in names:
        if name.endswith((".svg", ".png")):
            assert f"{name[:-4]}.txt" in names
    assert [name for name in names if name.startswith(".")] == [record.FILE]


@pytest.mark.quick(0)
def test_the_plan_is_as_its_schema_says(once: Path) -> None:
    plan = json.loads((once / "plan.json").read_text("utf-8"))
    jsonschema.validate(plan, schema())
    assert plan["schema"] == 3
    assert [piece["name"] for piece in plan["pieces"]] == ["front", "strip"]


@pytest.mark.quick(0)
def test_same_input_same_bytes_in_place_of_old_files_the_page_last(
    source: Path, once: Path, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    put: list[str] = []
    replace = os.replace
    monkeypatch.setattr(os, "replace", lambda old, new: (put.append(Path(new).name), replace(old, new)))
    told = make(source, folder)
    assert contents(folder) == contents(once)
    assert put[0] == put[-1] == record.FILE
    assert told[-1].name == put[-2] == "index.html"
    assert sorted(put[1:]) == sorted([*(file.name for file in told), record.FILE]) == sorted(contents(folder))


def test_the_page_leads_to_every_file_and_nowhere_else(once: Path) -> None:
    read = html.parse(str(once / "index.html"))
    links = {*read.xpath("//@href"), *read.xpath("//@src")}
    inside = {unquote(link) for link in links if not link.startswith("#")}
    assert inside == set(contents(once)) - {"index.html", record.FILE}
    ids = set(read.xpath("//@id"))
    assert {link[1:] for link in links if link.startswith("#")} <= ids


def test_pictures_on_the_page_are_told_in_words(once: Path) -> None:
    pictures = html.parse(str(once / "index.html")).xpath("//img")
    assert len(pictures) >= 2
    for picture in pictures:
        words = (once / f"{unquote(picture.get('src'))[:-4]}.txt").read_text("utf-8").strip()
        assert picture.get("alt") == words
        assert len(words) > 30


WORN = """
[wearer]
{wearer}
[[piece]]
name = "front"
width = 12
length = 10
[[piece]]
name = "back"
width = 12
length = 10
"""


@pytest.mark.parametrize(("wearer", "pieces", "has"), [
    ("bust = 60", "", True),
    ('table = "child"\nsize = "2"', "", True),
    ('who = "home"', "", False),
    ("head = 54", "", False),
    ("bust = 60", 'role = "cushion"', False),
    ("bust = 60", 'role = "other"', False),
])  # fmt: skip
def test_the_garment_on_its_wearer_comes_first(wearer: str, pieces: str, has: bool) -> None:
    """Where enough is known of who wears it, and the pieces are those of a garment."""
    text = SMALL[: SMALL.index("[[piece]]")] + WORN.format(wearer=wearer)
    text = text.replace("length = 10", f"length = 10\n{pieces}")
    names = [name for name, _ in everything.scenes(plan_pattern(read_text(text, "x.toml")), 700, Look())]
    assert names[0] == ("on-figure" if has else "stripes")
    assert names.count("on-figure") == has


def test_a_figure_is_loaded_for_a_wearer_alone(source: Path) -> None:
    """It takes time to load, which other patterns have no use for."""
    asked = (
        "import sys, pathlib\nfrom turnchain.making import everything, planned\n"
        "from turnchain.drawing.looks import Look\n"
        f"list(everything.scenes(planned(pathlib.Path({str(source)!r})), 700, Look()))\n"
        "print([one for one in ('worn', 'hanging', 'hung_forms') if f'turnchain.drawing.{one}' in sys.modules])"
    )
    told = subprocess.run([sys.executable, "-c", asked], check=True, capture_output=True, text=True, timeout=120)
    assert told.stdout == "[]\n"


def test_the_page_shows_the_garment_before_its_pieces(tmp_path: Path) -> None:
    text = SMALL[: SMALL.index("[[piece]]")] + WORN.format(wearer="bust = 60")
    (tmp_path / "top.toml").write_text(text, "utf-8")
    written = [file.name for file in make(tmp_path / "top.toml", tmp_path / "top")]
    assert {"on-figure.svg", "on-figure.png", "on-figure.txt"} <= set(written)
    shown = html.parse(str(tmp_path / "top" / "index.html")).xpath("//img/@src")
    assert [Path(one).stem for one in shown][:2] == ["on-figure", "stripes"]


def failing_svg(form: formats.Format, scene: Scene, stream: BinaryIO, **_: Any) -> None:
    stream.write(b"<svg")
    if "strip" in scene.title:
        raise OSError(28, "No space left on device")


def failing_page(*_: object) -> str:
    raise RuntimeError("midway")


@pytest.mark.quick(1)
@pytest.mark.parametrize(
    ("spoil", "error"),
    [
        (lambda patch: patch.setattr(formats.Format, "write", failing_svg), OSError),
        (lambda patch: patch.setattr(page, "overview", failing_page), RuntimeError),
    ],
)
def test_a_run_that_fails_midway_leaves_old_files_whole(
    spoil: Callable[[pytest.MonkeyPatch], None],
    error: type[Exception],
    source: Path,
    folder: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    before = contents(folder)
    spoil(monkeypatch)
    with pytest.raises(error):
        make(source, folder)
    assert contents(folder) == before


def test_a_folder_in_the_way_of_a_file(source: Path, folder: Path) -> None:
    (folder / "strip.svg").unlink()
    (folder / "strip.svg").mkdir()
    before = contents(folder)
    with pytest.raises(FileError, match=r"strip\.svg: cannot be written: there is a folder of that name"):
        make(source, folder)
    assert contents(folder) == before


# ------------------------------------------------------------------------------------- what make knows that it made


def remade(source: Path, made: Path, tmp_path: Path, old: str, new: str) -> tuple[record.MadeFolder, Path]:
    """A copy of the folder ``made``, made again of the pattern with ``old`` replaced by ``new``."""
    folder, changed = tmp_path / "made", tmp_path / "changed.toml"
    if not folder.exists():
        shutil.copytree(made, folder)
    text = source.read_text("utf-8")
    assert old in text
    changed.write_text(text.replace(old, new), "utf-8")
    return everything.make_all(changed, folder, 700, Look()), folder


@pytest.mark.quick(0)
def test_what_is_no_longer_made_goes(source: Path, once: Path, tmp_path: Path) -> None:
    done, folder = remade(source, once, tmp_path, 'name = "strip"', 'name = "band"')
    gone = {name for name in contents(once) if name.startswith("strip") and not name.startswith("stripes")}
    assert len(gone) >= 3
    assert {path.name for path in done.removed} == gone
    assert not gone & set(contents(folder))
    make_fresh = everything.make_all(tmp_path / "changed.toml", tmp_path / "fresh", 700, Look())
    assert contents(folder) == contents(tmp_path / "fresh")
    assert make_fresh.removed == make_fresh.left == done.left == []


def test_what_was_changed_by_hand_is_left_and_named(source: Path, once: Path, tmp_path: Path) -> None:
    folder = tmp_path / "made"
    shutil.copytree(once, folder)
    mine = {"strip.svg": b"<svg>drawn over</svg>", "pattern.md": b"# With notes of mine", "notes.md": b"notes"}
    for name, text in mine.items():
        (folder / name).write_bytes(text)
    done, _ = remade(source, once, tmp_path, 'name = "strip"', 'name = "band"')
    assert {path.name for path in done.left} == {"strip.svg", "pattern.md"}
    assert not {path.name for path in done.left} & {path.name for path in (*done.written, *done.removed)}
    assert {name: contents(folder)[name] for name in mine} == mine
    (folder / "pattern.md").unlink()  # moved away: made anew
    again, _ = remade(source, once, tmp_path, 'name = "strip"', 'name = "band"')
    assert "pattern.md" in {path.name for path in again.written}
    assert again.left == []


def test_a_file_of_the_makers_own_where_a_picture_would_come_is_left(source: Path, once: Path, tmp_path: Path) -> None:
    folder = tmp_path / "made"
    shutil.copytree(once, folder)
    (folder / "band.svg").write_bytes(b"mine")
    done, _ = remade(source, once, tmp_path, 'name = "strip"', 'name = "band"')
    assert [path.name for path in done.left] == ["band.svg"]
    assert (folder / "band.svg").read_bytes() == b"mine"


@pytest.mark.quick(0)
@pytest.mark.parametrize(
    "record_text", [b"", b"{}", b"[" * 100_000, b'{"turnchain": 1, "files": {"../mine": ["a"]}}', None]
)
def test_a_folder_with_no_record_that_can_be_read_is_made_as_before(
    record_text: bytes | None, source: Path, once: Path, folder: Path
) -> None:
    if record_text is None:
        (folder / record.FILE).unlink()
    else:
        (folder / record.FILE).write_bytes(record_text)
    done = everything.make_all(source, folder, 700, Look())
    assert done.left == done.removed == []
    assert contents(folder) == contents(once)


@pytest.mark.quick(0)
def test_a_link_is_replaced_and_never_written_through(source: Path, once: Path, folder: Path, tmp_path: Path) -> None:
    mine = tmp_path / "mine.svg"
    mine.write_bytes(b"mine")
    for name, target in (("front.svg", mine), ("strip.svg", tmp_path / "nowhere"), ("front.png", tmp_path)):
        (folder / name).unlink()
        (folder / name).symlink_to(target)
    make(source, folder)
    assert contents(folder) == contents(once)
    assert not [file for file in folder.iterdir() if file.is_symlink()]
    assert mine.read_bytes() == b"mine"
    assert not (tmp_path / "nowhere").exists()


@pytest.mark.quick(0)
@pytest.mark.parametrize("there", ["", "new", "new/deep"])
def test_a_run_that_fails_leaves_no_empty_folder(
    there: str, source: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / there).mkdir(parents=True, exist_ok=True)
    before = sorted(tmp_path.rglob("*"))
    monkeypatch.setattr(page, "overview", failing_page)
    with pytest.raises(RuntimeError):
        make(source, tmp_path / "new" / "deep" / "made")
    assert sorted(tmp_path.rglob("*")) == before


def test_the_notes_of_the_command_line(source: Path, once: Path, tmp_path: Path) -> None:
    folder = tmp_path / "made"
    shutil.copytree(once, folder)
    (folder / "front.txt").write_bytes(b"mine")
    words = ["make", str(tmp_path / "changed.toml"), "-o", str(folder), "--width", "700"]
    changed = source.read_text("utf-8").replace('name = "strip"', 'name = "band"')
    (tmp_path / "changed.toml").write_text(changed, "utf-8")
    ran = CliRunner().invoke(cli, words)
    assert ran.exit_code == 0
    assert f"note: {folder / 'strip.svg'} is no longer part of the pattern, and was removed\n" in ran.stderr
    assert f"note: {folder / 'front.txt'} was changed since it was made, and was kept; move it away" in ran.stderr
    assert "note: " not in ran.stdout
    assert str(folder / "front.txt") not in ran.stdout.splitlines()


@pytest.mark.quick(0)
def test_pictures_that_show_the_same_are_not_drawn_again(
    source: Path, once: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A change of the pattern gives just what a fresh folder would have, whatever was left as it stood."""
    drawn: list[str] = []
    write = formats.Format.write

    def watched(form: formats.Format, scene: Scene, stream: BinaryIO, **others: Any) -> None:
        drawn.append(f"{scene.title}{form.ending}")
        write(form, scene, stream, **others)

    monkeypatch.setattr(formats.Format, "write", watched)
    monkeypatch.setattr(parallel, "cores", lambda: 1)
    remade(source, once, tmp_path, 'name = "strip"', 'name = "strip"')
    assert drawn == []
    assert contents(tmp_path / "made") == contents(once)
    remade(source, once, tmp_path, "length = 3", "length = 5")
    some = len(drawn)
    assert not [title for title in drawn if "front, stitch chart" in title]
    everything.make_all(tmp_path / "changed.toml", tmp_path / "fresh", 700, Look())
    assert 0 < some < len(drawn) - some
    assert contents(tmp_path / "made") == contents(tmp_path / "fresh")


@pytest.mark.quick(0)
def test_one_change_after_the_other_gives_what_a_fresh_folder_would_have(tmp_path: Path) -> None:
    """A colour and a name, then a measure and stripes, and all of it taken back."""
    first = SMALL[: SMALL.index("[[piece]]")] + SMALL[SMALL.rindex("[[piece]]") :]
    coloured = first.replace("#223344", "#884433").replace('"Ink"', '"Rust"')
    ash = "[[yarn]]\nname = 'Ash'\ncolour = '#99a0a8'\n[stripes]\norder = ['Rust', 'Ash']\n"
    striped = coloured.replace("length = 3", "length = 4").replace("[[piece]]", f"{ash}[[piece]]")
    file = tmp_path / "small.toml"
    seen: dict[str, dict[str, bytes]] = {}
    for text in (first, coloured, striped, first):
        file.write_text(text, "utf-8")
        everything.make_all(file, tmp_path / "made", 240, Look())
        if text not in seen:
            everything.make_all(file, tmp_path / f"fresh-{len(seen)}", 240, Look())
            seen[text] = contents(tmp_path / f"fresh-{len(seen)}")
        assert contents(tmp_path / "made") == seen[text]
    assert len({files["plan.json"] for files in seen.values()}) == 3


def test_a_picture_spoilt_or_gone_is_drawn_again(source: Path, once: Path, tmp_path: Path) -> None:
    shutil.copytree(once, tmp_path / "made")
    (tmp_path / "made" / "front.png").unlink()
    remade(source, once, tmp_path, 'name = "strip"', 'name = "strip"')
    assert contents(tmp_path / "made") == contents(once)


def test_whatever_a_scene_holds_changes_its_digest() -> None:
    line = Path_(polyline([(0, 0), (1, 1)]), stroke="#000000")
    scene = Scene(9, 9, "t", "w", "en", {"own": (line,)}, (line, Use("own", 1, 2, "#111111"), Text(1, 2, "a", 9, INK)))
    others = [
        replace(scene, width=8), replace(scene, height=8), replace(scene, title="u"), replace(scene, words="v"),
        replace(scene, language="de"), replace(scene, background=None), replace(scene, definitions={}),
        replace(scene, definitions={"own": (replace(line, width=1.5),)}), replace(scene, items=scene.items[1:]),
        *(replace(scene, items=(replace(line, **{name: value}),)) for name, value in [
            ("fill", "#000000"), ("stroke", None), ("width", 2.0), ("cap", "butt"), ("dash", (1.0,)), ("opacity", 0.5)
        ]),
        *(replace(scene, items=(Group(scene.items, name, words),)) for name, words in [("", ""), ("a", ""), ("", "a")]),
        replace(scene, items=(*scene.items[:2], replace(scene.items[2], turn=90.0))),
    ]  # fmt: skip
    digests = [record.scene_digest(one) for one in (scene, *others)]
    assert len(set(digests)) == len(digests)
    assert record.scene_digest(replace(scene)) == digests[0]


# ----------------------------------------------------------------------------- nothing is done where all of it stands

SIZED = SMALL.replace('title = "', 'sizes = ["S", "M"]\ntitle = "').replace("width = 12\n", 'width = "12 (14) cm"\n')


def stamps(folder: Path) -> dict[str, tuple[int, int]]:
    """Of every file when it was written, and which it is on its disk."""
    return {str(file): (file.stat().st_mtime_ns, file.stat().st_ino) for file in folder.rglob("*") if file.is_file()}


@pytest.mark.quick(0)
def test_what_stands_whole_is_not_made_again(
    source: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    first = made_of.make(source, tmp_path / "made", 700, Look())
    before = stamps(tmp_path)
    monkeypatch.setattr(every_size, "planned_sizes", None)  # to plan would fail
    again = made_of.make(source, tmp_path / "made", 700, Look())
    assert again == first
    assert stamps(tmp_path) == before
    assert [path.name for path in first.written][:2] == ["plan.json", "pattern.md"]
    with pytest.raises(TypeError):
        made_of.make(source, tmp_path / "made", 701, Look())


@pytest.mark.quick(0)
def test_what_is_made_unless_it_stands_is_what_is_always_made(source: Path, once: Path, tmp_path: Path) -> None:
    made_of.make(source, tmp_path / "made", 700, Look())
    theirs, ours = (contents(folder) | {record.FILE: b""} for folder in (once, tmp_path / "made"))
    assert ours == theirs


@pytest.mark.quick(0)
@pytest.mark.parametrize("spoil", [
    lambda folder: (folder / "front.png").unlink(),
    lambda folder: (folder / "front.txt").write_text("mine"),
    lambda folder: (folder / "index.html").rename(folder / "page.html"),
    lambda folder: (folder / record.FILE).unlink(),
])  # fmt: skip
def test_a_folder_that_was_changed_does_not_stand_whole(
    spoil: Callable[[Path], None], source: Path, tmp_path: Path
) -> None:
    folder = tmp_path / "made"
    made_of.make(source, folder, 700, Look())
    of = made_of.digest(source, Look(), 700, None, None)
    assert made_of.stands(folder, of)
    assert made_of.stands(folder, "") is None
    spoil(folder)
    assert made_of.stands(folder, of) is None


def test_whatever_a_folder_is_made_of_changes_its_digest(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    file, symbols = tmp_path / "own.toml", tmp_path / "symbols"
    symbols.mkdir()
    for name in ("kelp.toml", "worked.jpg", "symbols/dc.svg"):
        (tmp_path / name).write_text(name)
    fabric, photo = '[fabric]\nkind = "kelp.toml"\n', '[[photo]]\nfile = "worked.jpg"\n'
    file.write_text(f"{SMALL}{fabric}{photo}")
    look = Look(symbols=symbols)

    def found(*asked: object) -> str:
        return made_of.digest(file, look, *(asked or (700, None, None)))

    digests = [found(), found(701, None, None), found(700, "de", None), found(700, None, "M")]
    digests += [made_of.digest(file, one, 700, None, None) for one in (Look(), replace(look, page="dark"))]
    for name in ("kelp.toml", "worked.jpg", "symbols/dc.svg"):
        (tmp_path / name).write_text("other")
        digests.append(found())
    (symbols / "ch.svg").write_text("new")
    digests.append(found())
    file.write_text(file.read_text().replace('title = "', 'title = "Other '))
    digests.append(found())
    monkeypatch.setattr(made_of, "program", lambda: "another")
    digests.append(found())
    assert len(set(digests)) == len(digests)
    assert found() == digests[-1]
    (tmp_path / "kelp.toml").unlink()
    assert found() == ""


@pytest.mark.quick(0)
def test_a_pattern_that_changes_while_it_is_made_is_made_again(source: Path, tmp_path: Path) -> None:
    file = tmp_path / "pattern.toml"
    file.write_bytes(source.read_bytes())

    def changed(*_: object) -> None:
        file.write_text(file.read_text("utf-8").replace("length = 3", "length = 5"), "utf-8")

    made_of.make(file, tmp_path / "made", 700, Look(), watch=changed)
    held = record.read(tmp_path / "made")
    assert held is not None
    assert held.made_of == ""


@pytest.mark.quick(0)
def test_of_several_sizes_all_folders_must_stand(tmp_path: Path) -> None:
    file = tmp_path / "sized.toml"
    file.write_text(SIZED, "utf-8")
    first = made_of.make(file, tmp_path / "made", 700, Look())
    before = stamps(tmp_path)
    assert made_of.make(file, tmp_path / "made", 700, Look()) == first
    assert stamps(tmp_path) == before
    gone = next(path for path in first.written if path.name == "front.svg")
    gone.unlink()
    assert made_of.make(file, tmp_path / "made", 700, Look()).written == first.written
    assert gone.exists()


def test_other_plans_are_looked_for_where_they_are_told_of_and_change_nothing() -> None:
    """A picture tells of none; the search for them takes longer than the plan."""
    case = Path(__file__).parent / "cases" / "heron_top.toml"
    plain, others = planned(case), planned(case, others=True)
    assert not any(piece.alternatives for piece in plain.pieces)
    assert any(piece.alternatives for piece in others.pieces)
    assert plain == replace(others, pieces=tuple(replace(piece, alternatives=()) for piece in others.pieces))
