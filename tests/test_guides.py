"""README, DEVELOPERS, the page of sources, the notes for contributors: what they name exists, what they show is so."""

from __future__ import annotations

import ast
import importlib
import re
import shlex
import tomllib
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any, get_args, get_type_hints

import click
import pytest

import turnchain
from turnchain import pattern
from turnchain.cli import cli
from turnchain.reading.tables import TABLES

TOP = Path(__file__).parents[1]
PACKAGE = TOP / "src" / "turnchain"
README = (TOP / "README.md").read_text("utf-8")
DEVELOPERS = (TOP / "DEVELOPERS.md").read_text("utf-8")
SOURCES = (PACKAGE / "SOURCES.md").read_text("utf-8")
CODE = re.compile(r"`([^`\n]+)`")
FENCED = re.compile(r"^ *```.*?^ *```", re.M | re.S)


def section(text: str, heading: str) -> str:
    """What stands under a heading of the second level."""
    found = re.search(rf"^## {re.escape(heading)}\n(.*?)(?=^## |\Z)", text, re.M | re.S)
    assert found, heading
    return found[1]


# ----------------------------------------------------------------------------------------------------------- README


def keys_told() -> dict[str, set[str]]:
    """The keys of the README's table by the table of a pattern file in which they stand."""
    told: dict[str, set[str]] = {}
    where = ""
    for line in section(README, "The words of a pattern file").splitlines():
        if line.startswith("| ") and not line.startswith("| where"):
            first, second = (cell.strip() for cell in line.split("|")[1:3])
            where = first or where
            name = "top" if where.startswith("top") else re.sub(r"\W|^in ", "", where)
            told.setdefault(name, set()).update(CODE.findall(second))
    return told


def test_the_table_of_keys_is_complete() -> None:
    """Every key that can be read is told in its table, and no other."""
    told = keys_told()
    for table in TABLES:
        name = re.sub("(?<=[a-z])(?=[A-Z])", "_", table.__name__.removesuffix("Table")).lower()
        name = {"file": "top", "row_swatch": "swatchsc"}.get(name, name)
        # that a file has tables is told by their own lines
        wanted = {key for key in table.keys if name != "top" or key not in told}
        assert told.get(name) == wanted, name


def words_of_choice(hint: Any) -> Iterator[str]:
    """The words that a literal type allows."""
    for one in get_args(hint):
        yield from [one] if isinstance(one, str) else words_of_choice(one)


CHOOSING = (
    pattern.Yarn, pattern.Stripes, pattern.Piece, pattern.Neck, pattern.Seam, pattern.Wearer, pattern.Armhole,
    pattern.FrontOpening, pattern.HalfTriangle, pattern.Edging,
)  # fmt: skip


@pytest.mark.parametrize("kind", CHOOSING)
def test_every_word_of_choice_is_told(kind: type) -> None:
    told = section(README, "The words of a pattern file")
    hints = {name: hint for name, hint in get_type_hints(kind).items() if name != "size"}
    words = [word for hint in hints.values() for word in words_of_choice(hint)]
    assert words
    assert [word for word in words if f'"{word}"' not in told] == []


def test_the_report_shown_is_the_starters() -> None:
    """A part of the starter's own report, line by line."""
    (shown,) = re.findall(r"^ *<!-- the report of the starter.*?```text\n(.*?)```", README, re.M | re.S)
    lines = [line.removeprefix("   ") for line in shown.rstrip().splitlines()]
    report = turnchain.report(turnchain.plan(turnchain.load(PACKAGE / "starter.toml"))).splitlines()
    assert len(lines) > 5
    assert lines == report[2 : 2 + len(lines)]


def commands(text: str) -> list[list[str]]:
    """Every command of turnchain that is told, as words."""
    blocks = "\n".join(FENCED.findall(text))
    told = [*CODE.findall(FENCED.sub("", text)), *re.split(r"\n|&&", blocks)]
    runs = (re.search(r"(?:^|[/\\ ])turnchain((?: [^ ]+)+)$", one.strip()) for one in told)
    return [shlex.split(run[1]) for run in runs if run]


@pytest.mark.parametrize("words", commands(README), ids=" ".join)
def test_every_command_told_can_be_called(words: list[str]) -> None:
    """The command exists and knows the options; what stands in their place is allowed there."""
    if words[0].startswith("--"):
        own = [option for one in cli.get_params(click.Context(cli)) for option in one.opts]  # --help is one of them
        assert words[0] in own
        return
    command = cli.commands[words[0]]
    context = click.Context(command)
    rest = [word for word in words[1:] if word != "..."]
    command.make_parser(context).parse_args(list(rest))
    for parameter in command.params:
        if isinstance(parameter.type, click.Choice) and parameter.opts[0] in rest:
            assert rest[rest.index(parameter.opts[0]) + 1].lower() in map(str.lower, parameter.type.choices)


def test_every_option_told_exists() -> None:
    told = {one.split()[0] for one in CODE.findall(FENCED.sub("", README)) if one.startswith("--")}
    known = {
        option
        for command in cli.commands.values()
        for one in command.params
        for option in (*one.opts, *one.secondary_opts)
    }
    assert told <= known


def test_the_contents_lead_to_headings() -> None:
    headings = re.findall(r"^## (.+)$", README, re.M)
    wanted = [(name, re.sub(r"[^\w -]", "", name.lower()).replace(" ", "-")) for name in headings]
    assert re.findall(r"\[([^\]]+)\]\(#([^)]+)\)", README.split("## ")[0]) == wanted


def test_the_newest_changes_are_those_of_this_version() -> None:
    version = tomllib.loads((TOP / "pyproject.toml").read_text("utf-8"))["project"]["version"]
    assert re.findall(r"^\*\*(\d+\.\d+\.\d+)\.?\*\*", section(README, "Changes"), re.M)[0] == version


@pytest.mark.parametrize("page", sorted((TOP / ".github").glob("*.md")), ids=lambda page: page.name)
def test_links_of_notes_lead_to_files(page: Path) -> None:
    for link in re.findall(r"\]\(([^)#:]+)\)", page.read_text("utf-8")):
        assert (page.parent / link).exists(), link


# ---------------------------------------------------------------------------------------------------------- sources


@pytest.mark.parametrize("name", sorted(set(CODE.findall(SOURCES)) - {"code"}))
def test_what_the_page_of_sources_names_exists(name: str) -> None:
    """A module of the package, or a name in one."""
    try:
        importlib.import_module(f"turnchain.{name}")
    except ModuleNotFoundError:
        module, _, rest = name.rpartition(".")
        assert hasattr(importlib.import_module(f"turnchain.{module}"), rest)


def marked_from_memory() -> Iterator[str]:
    """Names at the top of modules whose remark says that their value is from memory."""
    for path in sorted(PACKAGE.rglob("*.py")):
        if "proof" in path.parts:
            continue  # it says again what others say
        lines = path.read_text("utf-8").splitlines()
        for node in ast.parse("\n".join(lines)).body:
            target = node.target if isinstance(node, ast.AnnAssign) else None
            if isinstance(node, ast.Assign) and isinstance(node.targets[0], ast.Name):
                target = node.targets[0]
            if isinstance(target, ast.Name):
                first = node.lineno - 1
                while lines[first - 1].startswith("#"):
                    first -= 1
                remark = "\n".join(lines[first : node.lineno])
                if re.search(r"#.*(\[memory\]|(?<!written )from memory)", remark, re.I | re.S):
                    yield f"{'.'.join(path.relative_to(PACKAGE).with_suffix('').parts)}.{target.id}"


@pytest.mark.parametrize("name", list(marked_from_memory()))
def test_what_is_from_memory_stands_on_the_page_of_sources(name: str) -> None:
    assert f"`{name}`" in SOURCES

# ------------------------------------------------------------------------------------------------------- DEVELOPERS


def names_in(path: Path) -> set[str]:
    """Every function, class and value that is given a name in a module."""
    nodes = list(ast.walk(ast.parse(path.read_text("utf-8"))))
    defined = {node.name for node in nodes if isinstance(node, ast.FunctionDef | ast.ClassDef)}
    return defined | {node.id for node in nodes if isinstance(node, ast.Name) and isinstance(node.ctx, ast.Store)}


@cache
def modules() -> dict[str, set[str]]:
    """The names in every module, by all ends of its path: ``planning/moves``, ``moves``; those of one end together."""
    found: dict[str, set[str]] = {}
    for folder in ("src/turnchain", "tests", "gallery"):
        for path in (TOP / folder).rglob("*.py"):
            names, parts = names_in(path), path.relative_to(TOP).with_suffix("").parts
            for first in range(len(parts)):
                found.setdefault("/".join(parts[first:]), set()).update(names)
    return found


@cache
def files() -> frozenset[str]:
    """Every file and folder by the ends of its path."""
    folders = ("src", "tests", "gallery", "symbols", ".ci", ".github")
    paths = [path.relative_to(TOP).parts for folder in folders for path in (TOP / folder).rglob("*")]
    return frozenset("/".join(parts[first:]) for parts in paths for first in range(len(parts))) | {*folders}


def exists(name: str) -> bool:
    """Whether a file, a room, a module, or a name in one is called so; ``Class.attribute`` if both are names."""
    plain = name.removesuffix("()").rstrip("/")
    if plain in files() or plain in modules() or (TOP / plain).exists():
        return True
    module, _, last = plain.rpartition(".")
    if last in ("py", "md", "toml", "txt"):
        return False
    if module in modules():
        return last in modules()[module]
    known = set().union(*modules().values())
    return "/" not in plain and all(one in known for one in plain.split("."))


def named(text: str) -> list[str]:
    """What stands as code in a text and could be a name of the code: no command, no formula, nothing of others."""
    told = {one for one in CODE.findall(FENCED.sub("", text)) if re.fullmatch(r"[.\w/]+(?:\(\))?", one)}
    return sorted(told - {"pytest", "mypy", "CI"})


@pytest.mark.parametrize("name", named(DEVELOPERS))
def test_what_developers_are_told_of_exists(name: str) -> None:
    assert exists(name)


GONE = ("planning/wishes", "test_whole_way", "rooms.py", "planning/moves.Wish", "Job.no_such_thing")


@pytest.mark.parametrize("name", GONE)
def test_a_name_that_is_gone_is_found(name: str) -> None:
    assert not exists(name)


def test_every_room_is_told_to_developers() -> None:
    rooms = {path.parent.name for path in PACKAGE.glob("*/__init__.py")} - {"fonts"}  # data
    assert {room for room in rooms if f"`{room}`" not in DEVELOPERS} == set()


def test_developers_are_told_briefly() -> None:
    """All of it can be read in one sitting; what is longer belongs to the room that it tells of."""
    assert len(DEVELOPERS.encode()) < 13_000
