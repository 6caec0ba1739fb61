"""The largest patterns that the reader lets through, and larger: each ends well or in words, within memory and time.

Every run stands in a process of its own under limits of the system, several times what it takes on a quiet machine. No
limit is a promise of speed; each is there so that a slip of the finger is a message and not a machine at a standstill.
"""

from __future__ import annotations

import math
import resource
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner

from fault_injection import PROGRAM, child, python, turnchain
from turnchain.cli import cli
from turnchain.drawing import schematic
from turnchain.errors import PatternError
from turnchain.fabric.gauge import gauge_of
from turnchain.pattern import MOST_CLUSTERS, MOST_PIECES, MOST_ROWS, MOST_YARNS
from turnchain.planning import budget, shaped
from turnchain.planning.kept import KeptPieces
from turnchain.planning.pieces import job_of
from turnchain.planning.planner import plan_pattern
from turnchain.planning.workload import places_ahead
from turnchain.reading.pattern_file import read_text
from turnchain.reading.piece_tables import MOST_POINTS
from turnchain.reading.values import MOST_LETTERS

pytestmark = pytest.mark.slow

BYTES = 1_000_000_000  # of addresses, libraries and all
CPU = 120
HEAD = 'title = "T"\n[swatch]\nclusters = 10\nwidth = 10\nrows = 10\nheight = 10\nweight = 5\n'
LARGEST = f'[[piece]]\nname = "a"\nwidth = {MOST_CLUSTERS - 10}\nlength = {MOST_ROWS - 10}\n'


def yarns(count: int, stock: int = 50) -> str:
    colours = [f"#{i * 83 % 256:02x}{i * 57 % 256:02x}{i * 31 % 256:02x}" for i in range(count)]
    return "".join(
        f'[[yarn]]\nname = "y{i}"\ncolour = "{colour}"\nstock = {stock}\n' for i, colour in enumerate(colours)
    )


def run(folder: Path, text: str, *words: str) -> subprocess.CompletedProcess[str]:
    """Runs the program on a pattern, bounded."""
    (folder / "a.toml").write_text(text, "utf-8")
    return turnchain(*words, folder=folder, AS=BYTES, CPU=CPU)


@pytest.mark.parametrize("words", [
    ("check", "a.toml"), ("words", "a.toml", "-o", "a.md"), ("chart", "a.toml", "--piece", "a", "-o", "a.svg"),
    ("stripes", "a.toml", "-o", "a.png"),
])  # fmt: skip
def test_most_rows_most_clusters_most_yarns(words: tuple[str, ...], tmp_path: Path) -> None:
    order = ", ".join(f'"y{i % MOST_YARNS}"' for i in range(MOST_ROWS))
    text = f"{HEAD}{yarns(MOST_YARNS)}[stripes]\norder = [{order}]\n{LARGEST}"
    done = run(tmp_path, text, *words)
    assert (done.returncode, done.stderr) == (0, "")


def test_a_picture_of_most_rows_and_clusters(tmp_path: Path) -> None:
    done = run(tmp_path, HEAD + LARGEST, "chart", "a.toml", "--piece", "a", "-o", "a.png")
    assert (done.returncode, done.stderr) == (0, "")


def test_most_pieces(tmp_path: Path) -> None:
    pieces = "".join(f'[[piece]]\nname = "p{i}"\nwidth = 10\nlength = 10\n' for i in range(MOST_PIECES))
    done = run(tmp_path, HEAD + pieces, "check", "a.toml")
    assert (done.returncode, done.stderr) == (0, "")
    for scene in schematic.scenes(plan_pattern(read_text(HEAD + pieces, "a.toml"))).values():
        assert scene.height > 1500  # the page of very many pieces grows
    too_many = HEAD + pieces + '[[piece]]\nname = "more"\nwidth = 10\nlength = 10\n'
    with pytest.raises(PatternError, match="must be at most 100"):
        read_text(too_many, "a.toml")


def outlined(rows: int, wide: float, wave: Callable[[int], float], more: str = "") -> str:
    """A piece of the most points an outline may have, whose width goes as ``wave`` does from -1 to 1."""
    count = min(rows, MOST_POINTS)
    points = ", ".join(f"[{i * rows / (count - 1):.2f}, {wide * (1 + 0.98 * wave(i)) / 2:.2f}]" for i in range(count))
    return f'[[piece]]\nname = "a"\noutline = [{points}]\n{more}'


def zigzag(i: int) -> float:
    return 1 if i % 2 else -1


def wavy(i: int) -> float:
    return math.sin(i / 20)


def stepped(i: int) -> float:
    return 1 if i // 10 % 2 else -1


NARROW = ", ".join(f"[{i}, {0.6 + i % 3 * 0.4:.1f}]" for i in range(400))
OTHER = ", ".join(f"[{i}, {0.6 + (i + 2) % 3 * 0.4:.1f}]" for i in range(400))
NECK = 'neck = { shoulder = 190, depth = 1800, shape = "round" }\n'
UNFOLLOWED = {
    "waves": outlined(1990, 1900, wavy),
    "zigzag": outlined(500, 500, zigzag),
    "zigzag, high": outlined(1990, 125, zigzag),
    "steps": outlined(500, 500, stepped),
    "steps, wide": outlined(124, 1990, stepped),
    "neck": LARGEST + NECK,
    "neck, sideways": LARGEST + NECK + 'worked = "sideways"\n',
    "narrow": f'[[piece]]\nname = "a"\nleft_outline = [{NARROW}]\nright_outline = [{OTHER}]\n',
}


@pytest.mark.parametrize("kind", UNFOLLOWED)
def test_edges_that_no_rows_can_follow_end_in_words(kind: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """With a thousandth of the bound, so that it is met at once, before there is any plan."""
    monkeypatch.setattr(budget, "MOST_PLACES", budget.MOST_PLACES // 1000)
    with pytest.raises(PatternError) as caught:
        plan_pattern(read_text(HEAD + UNFOLLOWED[kind], "a.toml"), "a.toml")
    said = 'a.toml: piece "a": planning it, after the pieces before it, would take minutes; edges may'
    assert str(caught.value).startswith(said)
    assert "half a cluster a row" in str(caught.value)


@pytest.mark.parametrize("kind", ["zigzag", "steps"])
def test_the_largest_edges_that_no_rows_can_follow_are_planned(kind: str, tmp_path: Path) -> None:
    done = run(tmp_path, HEAD + UNFOLLOWED[kind], "check", "a.toml")
    assert (done.returncode, done.stderr) == (0, "")


DEEP = '[[piece]]\nname = "a"\nwidth = 500\nlength = 500\nworked = "sideways"\n' + NECK.replace("190", "50").replace(
    "1800", "450"
)
TOO_LARGE = {
    "four pieces of waves": "".join(UNFOLLOWED["waves"].replace('"a"', f'"{name}"') for name in "abcd"),
    "four that zigzag": "".join(UNFOLLOWED["zigzag, high"].replace('"a"', f'"{name}"') for name in "abcd"),
    "neck, sideways": UNFOLLOWED["neck, sideways"],
    "neck, sideways, smaller": DEEP,
}


@pytest.mark.parametrize("kind", TOO_LARGE)
def test_what_is_far_too_large_is_refused_before_anything_is_searched(
    kind: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    def searched(*_: object) -> None:
        raise AssertionError("an edge was searched")

    monkeypatch.setattr(shaped, "fit_edge", searched)
    monkeypatch.setattr(shaped, "neck_path", searched)
    with pytest.raises(PatternError, match="would take minutes") as caught:
        plan_pattern(read_text(HEAD + TOO_LARGE[kind], "a.toml"), "a.toml")
    assert len(caught.value.problems) == 1


@pytest.mark.parametrize("kind", ["zigzag", "steps"])
def test_what_is_told_of_a_search_before_it_is_near_what_it_takes(kind: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """At most a little more than it takes, so that nothing is refused that could be planned, and not a tenth."""
    spent: list[int] = []
    spend = budget.SearchBudget.spend

    def spending(self: budget.SearchBudget, places: int) -> None:
        spent.append(places)
        spend(self, places)

    monkeypatch.setattr(budget.SearchBudget, "spend", spending)
    pattern = read_text(HEAD + UNFOLLOWED[kind], "a.toml")
    ahead = places_ahead(job_of(pattern.pieces[0], pattern, gauge_of(pattern.swatches), budget.SearchBudget()))
    plan_pattern(pattern, "a.toml", kept=KeptPieces(alternatives=False))
    assert sum(spent) / 10 < ahead < 1.2 * sum(spent)


def test_the_bound_itself_in_memory_and_time(tmp_path: Path) -> None:
    pieces = "".join(UNFOLLOWED["waves"].replace('"a"', f'"{name}"') for name in "abcd")
    done = run(tmp_path, HEAD + pieces, "check", "a.toml")
    assert (done.returncode, done.stdout) == (1, "")
    assert "would take minutes" in done.stderr
    assert done.stderr.count("\n") == 1


@pytest.mark.parametrize("case", ["heron_top", "kite_kerchief", "mudflat_blanket"])
def test_garments_stay_far_below_the_bound(case: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(budget, "MOST_PLACES", budget.MOST_PLACES // 100)
    text = (Path(__file__).parent / "cases" / f"{case}.toml").read_text("utf-8")
    assert plan_pattern(read_text(text, "a.toml")).pieces


@pytest.mark.parametrize(("count", "rows", "said"), [
    (40, 250, ""), (40, 251, "rows times yarns must be at most 10,000"), (41, 10, "at most 40 yarns"),
])  # fmt: skip
def test_stripes_from_a_large_stash(count: int, rows: int, said: str, tmp_path: Path) -> None:
    piece = f'[[piece]]\nname = "a"\nwidth = 40\nlength = {rows}\n'
    done = run(tmp_path, f'{HEAD}{yarns(count, 1)}[stripes]\nkind = "stash"\n{piece}', "check", "a.toml")
    assert done.returncode == (1 if said else 0), done.stderr
    assert said in done.stderr


@pytest.mark.parametrize(("count", "rows", "said"), [
    (40, 254, "252 rows or more and 40 yarns"), (41, 10, "at most 40 yarns"),
])  # fmt: skip
def test_a_stash_too_large_is_refused_before_any_search(
    count: int, rows: int, said: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Its pieces were planned first: two and a half seconds of two large backs with outlines."""
    piece = f'[[piece]]\nname = "a"\noutline = [[0, 30], [{rows / 2}, 60], [{rows}, 30]]\n'
    pattern = read_text(f'{HEAD}{yarns(count, 1)}[stripes]\nkind = "stash"\n{piece}', "a.toml")

    def search(*_: object) -> None:
        raise AssertionError("a search before the refusal")

    monkeypatch.setattr(KeptPieces, "choice", search)
    with pytest.raises(PatternError, match=said):
        plan_pattern(pattern, "a.toml")


@pytest.mark.parametrize("words", [
    ("chart", "a.toml", "--piece", "a", "-o", "a.png", "--width", "100000"),
    ("print", "a.toml", "--piece", "a", "-o", "a.png", "--paper", "A0", "--dpi", "2400"),
])  # fmt: skip
def test_pictures_that_no_viewer_could_show(words: tuple[str, ...], tmp_path: Path) -> None:
    done = run(tmp_path, HEAD + '[[piece]]\nname = "a"\nwidth = 60\nlength = 40\n', *words)
    assert (done.returncode, done.stdout) == (1, "")
    assert "is too large: at most 1,000 million px in all; take a smaller width or fewer dots" in done.stderr
    assert not (tmp_path / "a.png").exists()


CASES = Path(__file__).parent / "cases"


def _reached(*_: object, **__: object) -> None:
    raise AssertionError("something was drawn")


@pytest.mark.parametrize(("words", "drawing"), [
    (("chart", "--piece", "front", "--width", "100000"), "drawing.chart.ChartPicture"),
    (("stripes", "--width", "100000"), "drawing.preview.Cloth"),
    (("stripes", "--orders", "--width", "100000"), "drawing.contact._cell"),
    (("stripes", "--figure", "--width", "100000"), "drawing.worn._Page.view"),
    (("print", "--piece", "front", "--paper", "A0", "--dpi", "2400"), "printing.sheets.setting"),
    (("make", "--width", "100000"), "drawing.preview.Cloth"),
])  # fmt: skip
def test_what_is_far_too_large_is_refused_before_it_is_drawn(
    words: tuple[str, ...], drawing: str, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """A chart was laid out and drawn, for half a second, before its px were counted."""
    monkeypatch.setattr(f"turnchain.{drawing}", _reached)
    output = tmp_path / ("folder" if words[0] == "make" else "a.png")
    made = CliRunner().invoke(cli, [words[0], str(CASES / "heron_top.toml"), *words[1:], "-o", str(output)])
    assert " is too large: at most 1,000 million px" in str(made.exception)
    assert not output.exists()


M = 990_000
NUMBERS = [
    "1e-300", "1e300", "1e400", "1e99999999999999999999", "-1e-9", "0.1e-999999999", "1" + "0" * 4000, "9" * 900_000,
    "0x" + "f" * 100_000, "0." + "3" * 900_000, "1_0" * 1000, "nan", "inf", "-inf", "1e-9", "1e9", '"1e9 in"', "[[[]]]",
    f'"{"9" * 59}"', f'"1/{"9" * 50}"', "true", "1979-05-27", "{}",
]  # fmt: skip
TEXTS = [
    *(f'{HEAD}[[piece]]\nname = "a"\nwidth = {number}\nlength = 10\n' for number in NUMBERS),
    f"a = {'[' * (M // 2)}{']' * (M // 2)}", "[" * M, "a = " + "{a=" * (M // 4), "a." * (M // 2) + "a = 1",
    "[" + "a." * (M // 3) + "a]", "[[" + "a." * (M // 3) + "a]]", "a" * M, '"' * M, "'" * M, '"""' * (M // 3), "#" * M,
    "\n" * M, "=" * M, "a=1\n" * (M // 4), "[a]\n" * (M // 4), "[[yarn]]\n" * (M // 9), "[[piece]]\n" * (M // 10),
    f"x = [{'1,' * (M // 3)}]", "".join(f"k{i}=1\n" for i in range(20_000)), "\\" * M, "\ufeff" * (M // 3),
    "".join(f"[t{i}]\n" for i in range(20_000)), "".join(f"[a{'.a' * i}]\n" for i in range(48)),
    f'title = "{"x" * (M - 20)}"', HEAD.replace('"T"', f'"{"é" * 300_000}"'), f'{HEAD}note = "{"x" * 2001}"',
]  # fmt: skip


def test_texts_and_numbers_meant_to_burst_a_reader(tmp_path: Path) -> None:
    told = tmp_path / "told"

    def read() -> None:
        resource.setrlimit(resource.RLIMIT_AS, (4 * BYTES, 4 * BYTES))  # what the tests hold already stands in it
        for text in TEXTS:
            told.write_text(f"{text[:60]!r} of {len(text)}", "utf-8")
            try:
                plan_pattern(read_text(text, "a.toml"))
            except PatternError as error:
                lines = str(error).splitlines()
                if not all(line.isprintable() and len(line) < 500 for line in lines):
                    raise

    assert child(read) == 0, told.read_text("utf-8")


def test_the_longest_texts(tmp_path: Path) -> None:
    free = "".join(f'{key} = "{"W" * MOST_LETTERS}"\n' for key in ("by", "licence", "date", "note"))
    head = HEAD.replace('"T"\n', f'"{"W" * MOST_LETTERS}"\n{free}')
    text = f'{head}[[piece]]\nname = "a"\nwidth = 10\nlength = 10\n'
    for words in (("chart", "a.toml", "--piece", "a", "-o", "a.svg"), ("print", "a.toml", "--booklet", "-o", "a.pdf")):
        done = run(tmp_path, text, *words)
        assert (done.returncode, done.stderr) == (0, "")


def test_too_little_memory_is_told_in_words(tmp_path: Path) -> None:
    (tmp_path / "a.toml").write_text(HEAD + LARGEST, "utf-8")
    hungry = "import turnchain.planning.planner as p; p._plan_pattern = lambda *_: bytes(10**10)\n"
    done = python(hungry + PROGRAM, "check", "a.toml", folder=tmp_path, AS=BYTES, CPU=CPU)
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr == "error: could not finish: there is not enough memory\n"
