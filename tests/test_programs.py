"""turnchain for programs: text in, results out, and what the command line writes is the same to the byte."""

from __future__ import annotations

import ast
import io
import subprocess
import sys
from pathlib import Path

import pypdf
import pytest
from click.testing import CliRunner

import turnchain
from turnchain import programs
from turnchain.cli import cli
from turnchain.drawing.looks import Look
from turnchain.records import replace

CASES = Path(__file__).parent / "cases"
HERON = CASES / "heron_top.toml"
SOURCE = Path(turnchain.__file__).parent


def test_the_worked_example() -> None:
    """As the docstring of ``programs`` has it."""
    pattern = turnchain.loads(HERON.read_text("utf-8"))
    plan = turnchain.plan(pattern)
    scene = turnchain.chart(plan, "front")
    assert turnchain.svg(scene).startswith(b"<?xml")
    assert turnchain.png(scene).startswith(b"\x89PNG")
    assert "front" in scene.words
    assert "front" in turnchain.report(plan)


def test_a_look_is_the_command_lines() -> None:
    """Nothing asked for is what a chart looks like anyway, and every word is one that drawing knows."""
    assert turnchain.look() == Look()
    assert turnchain.look(mono=True) == Look(inks="mono")
    assert turnchain.look(full_colour=True) == Look(inks="full")
    assert turnchain.look("left", page="dark", true=True) == Look("left", "tint", "dark", "true")


def test_everything_offered_is_there_and_typed() -> None:
    """The names for type checkers are those that are offered."""
    tree = ast.parse((SOURCE / "__init__.py").read_text("utf-8"))
    typed = {alias.asname for node in ast.walk(tree) if isinstance(node, ast.ImportFrom) for alias in node.names}
    assert typed - {None, "annotations"} == set(turnchain.__all__)
    assert all(getattr(turnchain, name) is getattr(programs, name) for name in turnchain.__all__)


def test_no_name_offered_is_that_of_a_room() -> None:
    """A room that is imported would take its place."""
    rooms = {file.stem for file in SOURCE.glob("*.py")} | {file.name for file in SOURCE.iterdir() if file.is_dir()}
    assert not rooms & set(turnchain.__all__)


def test_other_names_are_told() -> None:
    with pytest.raises(AttributeError, match="it offers"):
        _ = turnchain.crochet  # type: ignore[attr-defined]


def test_importing_it_brings_no_room() -> None:
    code = "import sys, turnchain; print([name for name in sys.modules if name.startswith('turnchain.')])"
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert run.stdout.strip() == "[]"


@pytest.mark.quick(1)
@pytest.mark.parametrize(
    ("command", "made"),
    [
        (("chart", "--piece", "front", "-o", "x.svg"), lambda plan: turnchain.svg(turnchain.chart(plan, "front"))),
        (("chart", "--piece", "back", "--short", "-o", "x.png"),
         lambda plan: turnchain.png(turnchain.chart(plan, "back", short=True))),
        (("chart", "--piece", "front", "--detail", "12", "--at", "right", "-o", "x.svg"),
         lambda plan: turnchain.svg(turnchain.close_up(plan, "front", (12, 12), "right"))),
        (("stripes", "-o", "x.svg"), lambda plan: turnchain.svg(turnchain.stripes(plan))),
        (("stripes", "--orders", "-o", "x.svg"), lambda plan: turnchain.svg(turnchain.orders(plan))),
        (("words", "-o", "x.md"), lambda plan: turnchain.words(plan).encode()),
        (("page", "-o", "x.html"), lambda plan: turnchain.page(plan).encode()),
        (("print", "--piece", "front", "-o", "x.pdf"),
         lambda plan: turnchain.pdf(plan, turnchain.on_paper(plan, pieces=("front",)))),
        (("print", "--booklet", "-o", "x.pdf"), lambda plan: turnchain.pdf(plan, turnchain.booklet(plan))),
    ],
    ids=lambda one: " ".join(one) if isinstance(one, tuple) else "",
)  # fmt: skip
def test_the_command_line_writes_the_same_bytes(command: tuple[str, ...], made, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    name, *options, file = command
    run = CliRunner().invoke(cli, [name, str(HERON), *options, str(tmp_path / file)])
    assert run.exit_code == 0, run.output
    assert (tmp_path / file).read_bytes() == made(turnchain.plan(turnchain.load(HERON), str(HERON)))


def test_a_picture_is_saved_by_its_ending(tmp_path: Path) -> None:
    scene = turnchain.schematic(turnchain.plan(turnchain.load(HERON)))
    turnchain.save(scene, tmp_path / "x.svg")
    assert (tmp_path / "x.svg").read_bytes() == turnchain.svg(scene)
    with pytest.raises(turnchain.MakerError, match="must end in"):
        turnchain.save(scene, tmp_path / "x.docx")


def test_errors_have_their_places() -> None:
    with pytest.raises(turnchain.PatternError) as caught:
        turnchain.loads(HERON.read_text("utf-8").replace('colour = "#6f8aa3"', 'colour = "blue"'))
    (problem,) = caught.value.problems
    assert problem.path == ("yarn", 0, "colour")
    assert problem.line


@pytest.mark.quick(6)
@pytest.mark.parametrize(
    "wrong",
    [
        lambda plan: turnchain.chart(plan, "hood"),
        lambda plan: turnchain.post(plan, "front", "huge"),
        lambda plan: turnchain.look(page="blue"),
        lambda plan: turnchain.words(plan, "xx"),
        lambda plan: turnchain.markdown(plan, "xx"),
        lambda plan: turnchain.booklet(plan, language="xx"),
        lambda plan: turnchain.close_up(plan, "front", (1, 2), "middle"),
        lambda plan: turnchain.orders(replace(plan, pattern=replace(plan.pattern, yarns=plan.pattern.yarns[:1]))),
    ],
)
def test_what_is_not_there_is_told(wrong) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(turnchain.MakerError):
        wrong(turnchain.plan(turnchain.load(HERON)))


@pytest.mark.quick(0)
def test_a_pdf_is_in_the_language_of_its_pages() -> None:
    plan = turnchain.plan(turnchain.load(HERON))
    assert tag(turnchain.pdf(plan, turnchain.booklet(plan, language="de"))) == "de"
    assert tag(turnchain.pdf(plan, turnchain.on_paper(plan, pieces=("front",)))).startswith("en")


def tag(pdf: bytes) -> str:
    return str(pypdf.PdfReader(io.BytesIO(pdf)).root_object["/Lang"])
