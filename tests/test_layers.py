"""Who may import whom: the ladder of DEVELOPERS.md, read off the sources; and what starting up may not cost."""

from __future__ import annotations

import ast
import re
import subprocess
import sys
import tomllib
from collections import Counter
from functools import cache
from graphlib import TopologicalSorter
from pathlib import Path

import pytest

TOP = Path(__file__).parents[1]
SOURCE = TOP / "src" / "turnchain"
HEAVY = ("numpy", "svgwrite", "fontTools", "coloraide")


def module_of(file: Path) -> str:
    """The name of a module within the package: "plan", "writers.svg"; of a package the package's."""
    return ".".join(file.relative_to(SOURCE).with_suffix("").parts).removesuffix(".__init__") or "__init__"


FILES = {module_of(file): file for file in sorted(SOURCE.rglob("*.py"))}
MODULES = {name: file for name, file in FILES.items() if name not in ("__init__", "fonts")}


def imports(text: str, names: frozenset[str]) -> set[str]:
    """The modules of the package that a source imports, wherever in it; those for type checking alone do not count."""
    found: set[str] = set()
    tree = ast.parse(text)
    typing_only = {
        inner
        for node in ast.walk(tree)
        if isinstance(node, ast.If) and ast.unparse(node.test) == "TYPE_CHECKING"
        for inner in ast.walk(node)
    }
    for node in ast.walk(tree):
        if node in typing_only:
            continue
        if isinstance(node, ast.ImportFrom):
            assert node.level == 0, "imports are absolute here"
            whole = [f"{node.module}.{alias.name}" for alias in node.names]
            found |= {name if name.removeprefix("turnchain.") in names else str(node.module) for name in whole}
        elif isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
    return {name.removeprefix("turnchain.") for name in found} & names


@cache
def graph() -> dict[str, set[str]]:
    names = frozenset(MODULES)
    return {name: imports(file.read_text("utf-8"), names) for name, file in MODULES.items()}


def reach(start: str) -> set[str]:
    """Everything that ``start`` imports, and what that imports in turn."""
    seen: set[str] = set()
    waiting = [start]
    while waiting:
        for name in graph()[waiting.pop()] - seen:
            seen.add(name)
            waiting.append(name)
    return seen


def room(name: str) -> str:
    return name.split(".")[0]


def test_imports_are_seen_wherever_they_stand() -> None:
    names = frozenset({"fabric.plan", "fabric.grid", "scene", "writers.svg"})
    typing = "if TYPE_CHECKING:\n  from turnchain.fabric.grid import Grid\n"
    assert imports(typing + "def f():\n  from turnchain.fabric.plan import Row\n", names) == {"fabric.plan"}
    plain = "from turnchain import scene\nfrom turnchain.fabric import grid\nimport turnchain.writers.svg\n"
    assert imports(plain, names) == {
        "scene", "fabric.grid", "writers.svg",
    }  # fmt: skip


def test_no_module_imports_itself_in_a_circle() -> None:
    # raises CycleError, which names the circle
    list(TopologicalSorter(graph()).static_order())


def faces_of(name: str) -> set[str]:
    """The packages of the program that a module lies in: to import it runs the face of each first."""
    parts = name.split(".")
    return {".".join(parts[:length]) for length in range(1, len(parts))}


def test_no_face_of_a_package_imports_what_lies_in_it() -> None:
    # else each of its modules imports, by way of the face, modules that import it in turn
    assert {name for name in MODULES if any(name in faces_of(other) for other in reach(name))} == set()


def hidden_imports(text: str) -> list[int]:
    """The lines of a source that import something inside a function without a word why: on the line itself, or on the
    first of several that stand together."""
    lines = text.splitlines()
    inside = sorted(
        {
            node.lineno
            for function in ast.walk(ast.parse(text))
            if isinstance(function, ast.FunctionDef)
            for node in ast.walk(function)
            if isinstance(node, ast.Import | ast.ImportFrom)
        }
    )
    said: set[int] = set()
    for number in inside:
        if "  # " in lines[number - 1] or number - 1 in said:
            said.add(number)
    return [number for number in inside if number not in said]


def test_hidden_imports_are_found() -> None:
    assert hidden_imports("import a\ndef f():\n  import b\n  from c import d  # slow\n  import e\n") == [3]


def test_imports_inside_functions_say_why() -> None:
    assert {name: lines for name, file in FILES.items() if (lines := hidden_imports(file.read_text("utf-8")))} == {}


def test_no_two_classes_have_one_name() -> None:
    names = Counter(
        node.name
        for file in FILES.values()
        for node in ast.parse(file.read_text("utf-8")).body
        if isinstance(node, ast.ClassDef) and not node.name.startswith("_")
    )
    assert {name for name, number in names.items() if number > 1} == set()


@pytest.mark.parametrize("writer", [name for name in MODULES if room(name) == "writers"])
def test_writers_know_scenes_and_nothing_of_the_craft(writer: str) -> None:
    craft = {"pattern", "planning", "drawing.chart"}
    assert not {name for name in reach(writer) if name in craft or room(name) == "fabric"}


@pytest.mark.parametrize("name", ["fabric.plan", "planning.planner", "fabric.grid", "pages.report", "plan_json"])
def test_the_plan_and_its_readers_know_nothing_of_drawing(name: str) -> None:
    drawing = {"scene", "drawing.sheet", "drawing.definitions", "drawing.glyphs", "drawing.chart"}
    assert not {found for found in reach(name) if found in drawing or room(found) in ("lettering", "writers")}


@pytest.mark.parametrize("name", ["units", "errors", "numbers", "planning.curves", "planning.fitting"])
def test_some_rooms_know_nothing_of_the_craft(name: str) -> None:
    knows = {"fabric.lattice"} if name == "planning.fitting" else set()  # what edges may do, by its edge table
    assert not reach(name) & {"pattern", "fabric.lattice", "fabric.plan", "fabric.grid"} - knows


def test_vocabularies_do_not_import_one_another() -> None:
    for name in ("pattern", "scene", "fabric.lattice"):
        assert graph()[name] <= {"numbers", "units", "errors", "records"}, name


def rungs() -> list[set[str]]:
    """The ladder of DEVELOPERS.md, from the ground up: the rooms in `code` of a rung named at its first row, and of the
    rows below it until the next is named."""
    text = (TOP / "DEVELOPERS.md").read_text("utf-8")
    table = text.split("<!-- ladder -->")[1].split("<!-- end of ladder -->")[0]
    rows = [[cell.strip() for cell in line.split("|")] for line in table.splitlines() if line.startswith("| ")]
    found: list[set[str]] = []
    for _, rung, rooms, *_ in rows[1:]:
        if rung:
            found.append(set())
        found[-1] |= set(re.findall(r"`([a-z_]+)`", rooms))
    return found


def test_the_ladder_of_the_guide_is_that_of_the_code() -> None:
    height = {name: number for number, names in enumerate(rungs()) for name in names}
    rooms = {room(name) for name in MODULES}
    assert rooms - set(height) == set(), "say in DEVELOPERS.md on which rung these stand"
    upwards = [
        f"{name} imports {other}"
        for name, others in graph().items()
        for other in sorted(others)
        if height[room(other)] > height[room(name)]
    ]
    assert upwards == []


def imports_inside(tree: ast.AST) -> set[int]:
    """The lines of imports that stand inside functions."""
    return {
        node.lineno
        for function in ast.walk(tree)
        if isinstance(function, (ast.FunctionDef, ast.AsyncFunctionDef))
        for node in ast.walk(function)
        if isinstance(node, (ast.Import, ast.ImportFrom))
    }


@pytest.mark.parametrize("name", MODULES)
def test_an_import_inside_a_function_says_why_it_stands_there(name: str) -> None:
    """The first of a block speaks for those right below it."""
    text = MODULES[name].read_text("utf-8")
    lines, inside = text.splitlines(), imports_inside(ast.parse(text))
    first = [number for number in sorted(inside) if number - 1 not in inside]
    assert [f"{number}: {lines[number - 1].strip()}" for number in first if "  # " not in lines[number - 1]] == []


def test_imports_inside_functions_are_seen() -> None:
    assert imports_inside(ast.parse("import os\ndef f():\n    if 1:\n        from a import b\n")) == {4}


def test_every_package_that_is_imported_is_asked_for_and_no_other() -> None:
    project = tomllib.loads((TOP / "pyproject.toml").read_text("utf-8"))["project"]
    asked = {re.split("[^A-Za-z0-9_-]", words)[0].lower() for words in project["dependencies"]}
    imported = {
        name.split(".")[0]
        for file in FILES.values()
        for node in ast.walk(ast.parse(file.read_text("utf-8")))
        for name in (
            [alias.name for alias in node.names] if isinstance(node, ast.Import)
            else [str(node.module)] if isinstance(node, ast.ImportFrom)
            else []
        )
    }  # fmt: skip
    foreign = imported - set(sys.stdlib_module_names) - {"turnchain"}
    distributed_as = {"PIL": "pillow"}
    assert {distributed_as.get(name, name.lower()) for name in foreign} == asked


@pytest.mark.parametrize("words", [["--help"], ["make", "--help"], ["check", str(TOP / "tests/cases/heron_top.toml")]])
def test_starting_up_is_quick(words: list[str]) -> None:
    # each of these costs between 30 and 250 ms to come up
    program = (
        "import sys\nfrom turnchain.cli import main\n"
        "try:\n    main()\nexcept SystemExit:\n    pass\n"
        f"print(*(name for name in {HEAVY} if name in sys.modules), file=sys.stderr)"
    )
    run = subprocess.run([sys.executable, "-c", program, *words], capture_output=True, text=True, check=True)
    assert run.stdout
    assert run.stderr.split() == []


#: Rooms and modules that a straight panel in one size and in the shipped letters does without.
NOT_FOR_A_PANEL = (
    "commands.beginning", "commands.making", "lettering.machine", "lettering.opened", "planning.every_size",
    "planning.fitting", "planning.profiles", "planning.progress", "planning.shaped", "proof", "reading.brackets",
    "reading.parts", "recipes",
)  # fmt: skip


def test_a_panel_loads_nothing_of_shapes_and_sizes(tmp_path: Path) -> None:
    # together they take as long as to plan it
    (tmp_path / "panel.toml").write_text(
        'title = "Panel"\n[swatch]\nclusters = 10\nwidth = 20\nrows = 10\nheight = 10\n[[yarn]]\nname = "Reed"\n'
        'colour = "#b9b36a"\n[[piece]]\nname = "panel"\nwidth = 64\nlength = 40\n',
        "utf-8",
    )
    program = (
        "import sys\nfrom turnchain.cli import main\nmain()\n"
        "print(*(name.removeprefix('turnchain.') for name in sys.modules), file=sys.stderr)"
    )
    words = [sys.executable, "-c", program, "chart", "panel.toml", "--piece", "panel", "-o", "panel.svg"]
    run = subprocess.run(words, cwd=tmp_path, capture_output=True, text=True, check=True)
    loaded = run.stderr.split()
    assert "planning.candidates" in loaded
    assert set(NOT_FOR_A_PANEL) & set(loaded) == set()
