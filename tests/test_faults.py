"""Faults of machine and maker: nothing old is lost, nothing half-written is left.

A file is written without a name (Linux's ``O_TMPFILE``; elsewhere under a hidden one), in its own folder. When all are
on the disk they take their places in one go, under a lock of the folder: ``writers/files``. So each file is old or new,
and whole, at any moment. All of a run are old or all new, but for one case: a kill, or a power cut, amid the renaming,
which takes milliseconds. ``plan.json`` comes first and ``index.html`` last; the same run again mends it.

Each fault, what holds, and its tests, here or in ``test_making``:

- killed at any step of ``make`` or ``chart``: every file old or new, and whole; the next run mends and clears away.
  ``test_make_killed_at_any_step``, ``test_chart_killed_at_any_step``
- killed while nothing is there yet: whole files only, and nothing hidden; can be made again.
  ``test_a_first_make_killed_at_any_step_can_be_made_again``
- stopped: Ctrl-C, SIGTERM, SIGHUP: all old or all new; cleared away, and said.
  ``test_make_stopped_at_any_step_leaves_all_old_or_all_new``, ``test_a_run_told_to_stop_clears_away_and_says_so``
- started by ``nohup``, the terminal closes: goes on.
  ``test_a_run_that_outlives_its_terminal``
- the disk refuses at any step: all old files stand; the file and the reason are named.
  ``test_make_refused_at_any_step``
- disk full, or read-only: the same, on a real disk of 16 kB and by a limit of file sizes.
  ``test_a_real_disk_full_or_read_only``, ``test_a_disk_with_hardly_any_room``
- no permission: the same; writing without listing is enough.
  ``test_a_folder_without_permission``, ``test_a_folder_that_may_be_written_but_not_listed``
- power cut: every byte is on the disk before the first old file goes.
  ``test_every_byte_is_on_the_disk_before_the_first_old_file_goes``
- no hard links, no locks, few open files: works all the same.
  ``test_a_disk_that_knows_no_second_names``, ``test_a_disk_without_locks``,
  ``test_more_files_than_may_be_open_at_once``
- two runs into one folder: the files of one of them; the other waits, up to a minute, then says so.
  ``test_two_runs_into_one_folder_leave_the_files_of_one``, ``test_a_run_waits_for_the_other``,
  ``test_a_run_that_waits_in_vain_says_so``
- hidden files of a dead run: cleared away, and nothing else.
  ``test_only_hidden_files_of_ours_are_cleared_away``
- the output takes nothing, or its reader is gone: said, or silent; the files are all there.
  ``test_an_output_that_takes_nothing``, ``test_a_reader_that_goes_away``
- the pattern changes while it is read: read again until it rests; else said.
  ``test_a_file_that_changes_while_it_is_read_is_read_again``, ``test_a_file_that_never_rests_is_told``
- a pipe, a device, a folder, a huge file for a pattern: said at once, within bounded memory.
  ``test_what_is_no_pattern_file_is_told_at_once``
- an output that is the pattern or a symbol of the maker: refused.
  ``test_nothing_of_the_makers_is_replaced``
- ``make`` into a folder without a plan of ours, where files of those names stand: refused.
  ``test_a_folder_with_files_of_another_hand``
- a changed pattern no longer makes a file: removed with the others' renaming, if it is as we made it
  (``.turnchain.json`` in the folder keeps digests).
  ``test_what_is_no_longer_made_goes``
- a made file was changed by hand, or the maker's own stands in its place: left as it is, and named.
  ``test_what_was_changed_by_hand_is_left_and_named``
- a symbolic link where ``make`` puts a file: the link is replaced, never written through.
  ``test_a_link_is_replaced_and_never_written_through``
- a first ``make`` that fails: no empty folder is left.
  ``test_a_run_that_fails_leaves_no_empty_folder``
- a text of a picture's name and of another hand, and no picture beside it: refused.
  ``test_notes_of_the_name_of_a_picture``
"""

from __future__ import annotations

import errno
import fcntl
import hashlib
import os
import resource
import shutil
import signal
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import suppress
from pathlib import Path

import pytest

from alarm import time_limit
from fault_injection import PROGRAM, child, contents, injected, kill, python, turnchain
from turnchain.cli import cli
from turnchain.drawing.looks import Look
from turnchain.errors import FileError
from turnchain.making import everything, one, planned, record
from turnchain.pages import blog
from turnchain.pages.beside import page as beside
from turnchain.reading import toml_text
from turnchain.reading.pattern_file import read_file
from turnchain.scene import Path as Stroke
from turnchain.scene import Scene, line
from turnchain.writers import files
from turnchain.writers.files import replaced, together

pytestmark = pytest.mark.slow

TINY = """
title = "Small"
[swatch]
clusters = 8
width = 16
rows = 10
height = 10
[[piece]]
name = "front"
width = 8
length = 3
"""
DOT = Scene(12, 8, "dot", "A line.", "en", {}, (Stroke(line(1, 4, 9, 4), stroke="#223344", width=1.0),))


@pytest.fixture(scope="module")
def source(tmp_path_factory: pytest.TempPathFactory) -> Path:
    file = tmp_path_factory.mktemp("pattern") / "small.toml"
    file.write_text(TINY, "utf-8")
    return file


@pytest.fixture
def quick(source: Path, monkeypatch: pytest.MonkeyPatch) -> Callable[[Path], None]:
    """``make`` into a folder, all of it but the drawing: a small picture stands for all, and pages are made once."""
    plan = planned(source)
    pages = {module: make(plan) for module, make in ((beside, beside.page), (blog, blog.markdown))}
    monkeypatch.setattr(everything, "planned", lambda *_, **__: plan)
    monkeypatch.setattr(everything, "scenes", lambda *_: [("front", DOT)])
    monkeypatch.setattr(os, "fsync", lambda _: None)
    monkeypatch.setattr(beside, "page", lambda *_: pages[beside])
    monkeypatch.setattr(blog, "markdown", lambda *_: pages[blog])
    return lambda folder: everything.make_all(source, folder, None, Look())


@pytest.fixture
def swift(tmp_path: Path) -> Iterator[Path]:
    """A folder in memory where there is such a thing: for tests that make and remove thousands of files."""
    memory = Path("/dev/shm")
    if not os.access(memory, os.W_OK):
        yield tmp_path
        return
    with tempfile.TemporaryDirectory(dir=memory) as name:
        yield Path(name)


@pytest.fixture(params=["no name", "a hidden name"])
def way(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> str:
    """Both ways in which a file waits; only Linux knows the first."""
    if request.param == "a hidden name":
        monkeypatch.delattr(os, "O_TMPFILE", raising=False)
        monkeypatch.setattr(tempfile, "_O_TMPFILE_WORKS", False, raising=False)  # it looked when it was imported
    elif not hasattr(os, "O_TMPFILE"):
        pytest.skip("this system knows no files without a name")
    return str(request.param)


def aged(folder: Path) -> dict[str, bytes]:
    """Makes every file of ``folder`` an old one, all of them still known as ours."""
    digests = {}
    for file in folder.iterdir():
        if not file.name.startswith("."):
            file.write_bytes(b'{\n "schema": 1, old' if file.name == "plan.json" else b"old " + file.name.encode())
            digests[file.name] = (hashlib.sha256(file.read_bytes()).hexdigest(),)
    (folder / record.FILE).write_bytes(record.Record(digests).data())
    return contents(folder)


def shown(folder: Path) -> dict[str, bytes]:
    """Every file of ``folder`` but the record."""
    return {name: content for name, content in contents(folder).items() if name != record.FILE}


def hidden(folder: Path) -> list[str]:
    return [name for name in shown(folder) if Path(name).name.startswith(".")]


# ------------------------------------------------------------------------------------------------ killed anywhere


def steps_of(run: Callable[[], object]) -> int:
    with injected(0, kill) as taken:
        run()
    return len(taken)


def test_make_killed_at_any_step(quick: Callable[[Path], None], way: str, swift: Path) -> None:
    whole, folder = swift / "whole", swift / "made"
    quick(whole)
    new = contents(whole)
    shutil.copytree(whole, folder)
    old = aged(folder)
    names = {name for name in old if name != record.FILE}
    steps = steps_of(lambda: quick(folder))
    assert steps > 30

    def run(step: int) -> None:
        with injected(step, kill):
            quick(folder)

    mixed = 0
    for step in range(1, steps + 1, 1 if way == "no name" else 2):
        aged(folder)
        assert child(lambda step=step: run(step)) == -signal.SIGKILL, step  # type: ignore[misc]
        found = shown(folder)
        assert {name for name in found if not name.startswith(".turnchain-")} == names
        assert all(found[name] in (old[name], new[name]) for name in names), step
        fresh = [name for name in names if found[name] == new[name]]
        assert "index.html" not in fresh or set(fresh) == names, step
        mixed += 0 < len(fresh) < len(old)
        if step % 5 == 0 or hidden(folder):
            quick(folder)  # the same run again mends everything
            assert contents(folder) == new, step
            for name in set(contents(folder)) - set(old):
                (folder / name).unlink()
    assert mixed  # renames were met, not only what comes before


def test_a_first_make_killed_at_any_step_can_be_made_again(quick: Callable[[Path], None], swift: Path) -> None:
    quick(swift / "whole")
    new = contents(swift / "whole")
    steps = steps_of(lambda: quick(swift / "first"))
    for step in range(1, steps + 1):
        folder = swift / f"made-{step}"

        def run(step: int = step, folder: Path = folder) -> None:
            with injected(step, kill):
                quick(folder)

        assert child(run) == -signal.SIGKILL
        found = contents(folder)
        assert all(found[name] == new.get(name) for name in found), step  # whole, and without hidden ones
        quick(folder)
        assert contents(folder) == new


def test_chart_killed_at_any_step(source: Path, way: str, swift: Path) -> None:
    picture, words = swift / "front.svg", swift / "front.txt"

    def run() -> None:
        one._write([(picture, DOT)], {source: "the pattern"})

    run()
    new = contents(swift)
    for step in range(1, steps_of(run) + 1):
        picture.write_bytes(b"old picture")
        words.write_bytes(b"old words")

        def fault(step: int = step) -> None:
            with injected(step, kill):
                run()

        assert child(fault) == -signal.SIGKILL
        assert picture.read_bytes() in (b"old picture", new["front.svg"])
        assert words.read_bytes() in (b"old words", new["front.txt"])
        run()
        assert contents(swift) == new


# ---------------------------------------------------------------------------------- refused anywhere: all or nothing


def refuse(number: int = errno.ENOSPC) -> None:
    raise OSError(number, "refused")


@pytest.mark.parametrize("number", [errno.ENOSPC, errno.EPERM])
def test_make_refused_at_any_step(number: int, quick: Callable[[Path], None], way: str, swift: Path) -> None:
    quick(swift / "made")
    new = contents(swift / "made")
    old = aged(swift / "made")
    steps = steps_of(lambda: quick(swift / "other"))
    refused = 0

    for step in range(1, steps + 60):  # replacing takes more steps than making anew
        said = ""
        try:
            with injected(step, lambda: refuse(number)):
                quick(swift / "made")
        except FileError as error:
            said = str(error)
        if said:
            refused += 1
            assert files.REASONS[number] in said, step
            assert contents(swift / "made") == old, step
        else:  # a step that may fail: clearing away, a second name
            left = contents(swift / "made")
            assert {name: left[name] for name in new} == new, step
            aged(swift / "made")
            for name in hidden(swift / "made"):
                (swift / "made" / name).unlink()
    assert refused > steps / 2


def test_a_disk_that_knows_no_second_names(
    quick: Callable[[Path], None], way: str, swift: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def no_links(*_: object, **__: object) -> None:
        raise PermissionError(errno.EPERM, "no links here")

    quick(swift / "whole")
    monkeypatch.setattr(os, "link", no_links)
    for _ in range(2):
        quick(swift / "made")
        assert contents(swift / "made") == contents(swift / "whole")


@pytest.mark.parametrize("name", ["tempfile.TemporaryFile", "os.fork"])
def test_a_machine_with_no_room_for_a_second_process(
    name: str, source: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    everything.make_all(source, tmp_path / "two", 300, Look())
    monkeypatch.setattr(name, lambda *_: refuse())
    everything.make_all(source, tmp_path / "one", 300, Look())
    assert contents(tmp_path / "one") == contents(tmp_path / "two")


@pytest.mark.parametrize("command", [
    ("make", "small.toml", "-o", "made", "--width", "300"),
    ("chart", "small.toml", "--piece", "front", "-o", "made/front.png"),
    ("stripes", "small.toml", "-o", "made/stripes.svg"),
    ("words", "small.toml", "-o", "made/small.md"),
    ("page", "small.toml", "-o", "made/small.html"),
    ("print", "small.toml", "-o", "made/small.pdf"),
    ("new", "made/new.toml"),
])  # fmt: skip
def test_a_disk_with_hardly_any_room(command: tuple[str, ...], source: Path, tmp_path: Path) -> None:
    (tmp_path / "small.toml").write_bytes(source.read_bytes())
    (tmp_path / "made").mkdir()
    for name in ("plan.json", "front.png", "front.txt", "stripes.svg", "stripes.txt", "small.pdf", "index.html"):
        (tmp_path / "made" / name).write_bytes(b'{\n "schema": 1, old')
    before = contents(tmp_path)
    done = turnchain(*command, folder=tmp_path, FSIZE=1000)
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr.count("\n") == 1
    assert "cannot be written: it is larger than a file may be there" in done.stderr
    assert contents(tmp_path) == before


def mounts() -> list[str]:
    """What runs a command where it may mount disks of its own; none where the machine allows it to nobody."""
    for words in (["unshare", "-m"], ["unshare", "-rm"]):
        with suppress(OSError):
            if subprocess.run([*words, "mount", "-t", "tmpfs", "none", "/mnt"], capture_output=True).returncode == 0:
                return words
    return []


def on_disk(options: str, command: str, folder: Path, source: Path) -> subprocess.CompletedProcess[str]:
    """Runs the program on a small disk of its own with old files on it; the listing and they come after its words."""
    if not (alone := mounts()):
        pytest.skip("this machine lets nobody mount a disk for a test")
    script = (
        'mount -t tmpfs -o size=16k none "$1" && cd "$1" && printf \'{\\n "schema": 1, old\' > plan.json && '
        'printf old > index.html && cp plan.json index.html "$2" && mount -o remount,$3 "$1"; shift 3; '
        '"$@"; echo "code $?"; ls -A; cat plan.json index.html'
    )
    kept = folder / "kept"
    disk = folder / "disk"
    kept.mkdir()
    disk.mkdir()
    words = [sys.executable, "-c", PROGRAM, *command.format(source=source).split()]
    return subprocess.run(
        [*alone, "sh", "-c", script, "sh", str(disk), str(kept), options, *words],
        capture_output=True, text=True, timeout=60, check=False,
    )  # fmt: skip


@pytest.mark.parametrize(("options", "reason"), [("rw", "the disk is full"), ("ro", "the disk can only be read")])
@pytest.mark.parametrize("command", ["make {source} -o . --width 300", "print {source} -o a.pdf"])
def test_a_real_disk_full_or_read_only(options: str, reason: str, command: str, source: Path, tmp_path: Path) -> None:
    done = on_disk(options, command, tmp_path, source)
    assert f"cannot be written: {reason}\n" in done.stderr
    assert done.stderr.count("\n") == 1
    assert done.stdout == 'code 1\nindex.html\nplan.json\n{\n "schema": 1, oldold'


def rightless() -> list[str]:
    """What runs a command without the rights of root, for whom no permission counts."""
    if os.geteuid() != 0:
        return []
    if not shutil.which("setpriv"):
        pytest.skip("root may write everywhere, and this machine has no setpriv (util-linux) to give that up")
    return ["setpriv", "--bounding-set=-all", "--inh-caps=-all"]


@pytest.mark.parametrize("command", ["make {source} -o made --width 300", "chart {source} --piece front -o made/a.svg"])
def test_a_folder_without_permission(command: str, source: Path, tmp_path: Path) -> None:
    folder = tmp_path / "made"
    folder.mkdir()
    (folder / "plan.json").write_bytes(b'{\n "schema": 1, old')
    folder.chmod(0o555)
    done = subprocess.run(
        [*rightless(), sys.executable, "-c", PROGRAM, *command.format(source=source).split()],
        cwd=tmp_path, capture_output=True, text=True, timeout=60, check=False,
    )  # fmt: skip
    assert (done.returncode, done.stdout) == (1, "")
    assert "cannot be written: there is no permission to write there" in done.stderr
    assert contents(tmp_path) == {"made/plan.json": b'{\n "schema": 1, old'}


def test_a_folder_that_may_be_written_but_not_listed(source: Path, tmp_path: Path) -> None:
    folder = tmp_path / "made"
    folder.mkdir()
    folder.chmod(0o333)
    done = subprocess.run(
        [*rightless(), sys.executable, "-c", PROGRAM, "words", source, "-o", folder / "a.md"],
        capture_output=True, text=True, timeout=60, check=False,
    )  # fmt: skip
    folder.chmod(0o755)
    assert (done.returncode, done.stderr) == (0, "")
    assert list(contents(folder)) == ["a.md"]


def test_more_files_than_may_be_open_at_once(way: str, swift: Path) -> None:
    names = {f"file-{number}": b"%d" % number for number in range(300)}

    def run() -> None:
        resource.setrlimit(resource.RLIMIT_NOFILE, (files.MOST_UNNAMED + 60,) * 2)
        with together() as put:
            for name, content in names.items():
                put(swift / name, lambda stream, content=content: stream.write(content))

    assert child(run) == 0
    assert contents(swift) == names
    assert child(run) == 0  # over old ones
    assert contents(swift) == names


# ------------------------------------------------------------------------------------------------------- stopped


STOPPED = """
import os, signal, sys
from turnchain.writers import files
number, place = int(sys.argv.pop(1)), sys.argv.pop(1)
owner, name = (files._Raw, "write") if place == "write" else (files.os, place)
real, calls = getattr(owner, name), []
def call(*given, **more):
    calls.append(name)
    if len(calls) == 2:
        os.kill(os.getpid(), number)
    return real(*given, **more)
setattr(owner, name, call)
"""


@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM, signal.SIGHUP])
def test_a_run_told_to_stop_clears_away_and_says_so(number: int, source: Path, tmp_path: Path) -> None:
    folder = tmp_path / "made"
    folder.mkdir()
    for name in ("plan.json", "front.svg"):
        (folder / name).write_bytes(b'{\n "schema": 1, old')
    before = contents(tmp_path)
    words = ("make", source, "-o", "made", "--width", "300")
    done = python(STOPPED + PROGRAM, str(int(number)), "write", *words, folder=tmp_path)
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr.strip() == "error: stopped; no file is left half written"
    assert contents(tmp_path) == before


def test_make_stopped_at_any_step_leaves_all_old_or_all_new(
    quick: Callable[[Path], None], way: str, swift: Path
) -> None:
    quick(swift / "made")
    new = contents(swift / "made")
    old = aged(swift / "made")
    ended = set()
    for step in range(1, steps_of(lambda: quick(swift / "made")) + 1):
        aged(swift / "made")
        signal.signal(signal.SIGINT, signal.default_int_handler)  # which tests in the background would not have
        with suppress(KeyboardInterrupt), injected(step, lambda: os.kill(os.getpid(), signal.SIGINT)):
            quick(swift / "made")
        found = {name: content for name, content in shown(swift / "made").items() if name in old}
        assert found in ({name: each[name] for name in found} for each in (old, new)), step
        ended.add(found.items() <= new.items())
    assert ended == {True, False}
    quick(swift / "made")
    assert contents(swift / "made") == new  # whatever a stop amid the clearing away left is gone


def test_a_run_that_outlives_its_terminal(source: Path, tmp_path: Path) -> None:
    ignoring = "import signal; signal.signal(signal.SIGHUP, signal.SIG_IGN)\n"  # as nohup does
    words = ("words", source, "-o", "a.md")
    done = python(ignoring + STOPPED + PROGRAM, str(int(signal.SIGHUP)), "fsync", *words, folder=tmp_path)
    assert (done.returncode, done.stderr) == (0, "")


def test_an_output_that_takes_nothing(source: Path, tmp_path: Path) -> None:
    with open("/dev/full", "wb") as full:
        done = subprocess.run(
            [sys.executable, "-c", PROGRAM, "make", source, "-o", tmp_path / "made", "--width", "300"],
            stdout=full, stderr=subprocess.PIPE, text=True, timeout=60, check=False,
        )  # fmt: skip
    assert (done.returncode, done.stderr) == (1, "error: could not finish: the disk is full\n")
    assert "index.html" in contents(tmp_path / "made")  # the files are all there; only the telling failed


def test_a_reader_that_goes_away(source: Path, tmp_path: Path) -> None:
    reading, writing = os.pipe()
    os.close(reading)
    done = subprocess.run(
        [sys.executable, "-c", PROGRAM, "make", source, "-o", tmp_path / "made", "--width", "300"],
        stdout=writing, stderr=subprocess.PIPE, text=True, timeout=60, check=False,
    )  # fmt: skip
    os.close(writing)
    assert (done.returncode, done.stderr) == (1, "")
    assert "index.html" in contents(tmp_path / "made")


# ----------------------------------------------------------------------------------------------- two runs at once


def test_two_runs_into_one_folder_leave_the_files_of_one(way: str, swift: Path) -> None:
    names = [f"file-{i}" for i in range(8)]
    ready = swift / "ready"

    def run(word: bytes) -> None:
        while not ready.exists():
            time.sleep(0.001)
        for turn in range(30):
            with together() as put:
                for name in names:
                    put(swift / "made" / name, lambda stream, turn=turn: stream.write(word + b" %d" % turn))

    (swift / "made").mkdir()
    codes: list[int] = []
    runs = [lambda word=word: codes.append(child(lambda: run(word))) for word in (b"a", b"b")]
    threads = [threading.Thread(target=one) for one in runs]
    for thread in threads:
        thread.start()
    ready.touch()
    for thread in threads:
        thread.join()
    assert codes == [0, 0]
    found = contents(swift / "made")
    assert list(found) == names
    assert len(set(found.values())) == 1


@pytest.fixture
def other(tmp_path: Path) -> Iterator[int]:
    """Another run that holds the folder."""
    number = os.open(tmp_path, os.O_RDONLY)
    fcntl.flock(number, fcntl.LOCK_EX)
    yield number
    with suppress(OSError):
        os.close(number)


def test_a_run_waits_for_the_other(other: int, way: str, tmp_path: Path) -> None:
    mine = tmp_path / f".turnchain-{'0' * 16}"
    mine.write_bytes(b"still being written")
    seen: list[bool] = []

    def end() -> None:
        seen.append(mine.exists() and not (tmp_path / "a").exists())
        os.close(other)

    timer = threading.Timer(0.3, end)
    timer.start()
    with time_limit(), replaced(tmp_path / "a") as stream:
        stream.write(b"new")
    timer.join()
    assert seen == [True]
    assert contents(tmp_path) == {"a": b"new"}  # and what a dead run left is gone


def test_a_run_that_waits_in_vain_says_so(
    other: int, way: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(files, "TIMEOUT", 0.1)
    (tmp_path / "a").write_bytes(b"old")
    said = "another run of turnchain is putting its files there"
    with time_limit(), pytest.raises(FileError, match=said), replaced(tmp_path / "a") as stream:
        stream.write(b"new")
    assert contents(tmp_path) == {"a": b"old"}


def test_a_disk_without_locks(tmp_path: Path, way: str, monkeypatch: pytest.MonkeyPatch) -> None:
    def none(*_: object) -> None:
        raise OSError(errno.ENOLCK, "no locks here")

    left = tmp_path / f".turnchain-{'0' * 16}"
    left.write_bytes(b"whose?")
    monkeypatch.setattr(files.fcntl, "flock", none)
    with replaced(tmp_path / "a") as stream:
        stream.write(b"new")
    assert contents(tmp_path) == {left.name: b"whose?", "a": b"new"}


def test_only_hidden_files_of_ours_are_cleared_away(tmp_path: Path) -> None:
    others = {".turnchain-notes": b"a", ".turnchain-0123": b"b", f"turnchain-{'0' * 16}": b"c"}
    for name, content in others.items():
        (tmp_path / name).write_bytes(content)
    (tmp_path / f".turnchain-{'0' * 16}").mkdir()
    with replaced(tmp_path / "a") as stream:
        stream.write(b"new")
    assert contents(tmp_path) == {**others, "a": b"new"}


def test_a_file_that_comes_while_another_is_written(way: str, tmp_path: Path) -> None:
    with together() as put:
        put(tmp_path / "a", lambda stream: stream.write(b"new"))
        (tmp_path / "a").write_bytes(b"came")
    assert contents(tmp_path) == {"a": b"new"}


# --------------------------------------------------------------------------------------------- what is being read


def test_a_file_that_changes_while_it_is_read_is_read_again(
    source: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "a.toml"
    file.write_bytes(source.read_bytes()[:100])
    real, calls = os.fstat, []

    def fstat(number: int) -> os.stat_result:
        found = real(number)
        calls.append(number)
        if len(calls) == 1:  # saved just now
            file.write_bytes(source.read_bytes())
        return found

    monkeypatch.setattr(toml_text.os, "fstat", fstat)
    assert read_file(file) == read_file(source)
    assert len(calls) == 6


def test_a_file_that_never_rests_is_told(source: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    file = tmp_path / "a.toml"
    real = os.fstat

    def fstat(number: int) -> os.stat_result:
        with open(file, "ab") as more:
            more.write(b"#")
        return real(number)

    file.write_bytes(source.read_bytes())
    monkeypatch.setattr(toml_text.os, "fstat", fstat)
    with time_limit(), pytest.raises(FileError, match="being written while it is read; try again when it is saved"):
        read_file(file)


@pytest.mark.parametrize(
    ("make", "said"),
    [
        (lambda path: os.mkfifo(path), "this is a pipe or a device"),
        (lambda path: os.symlink("/dev/zero", path), "this is a pipe or a device"),
        (lambda path: os.mkdir(path), "this is a folder"),
        (lambda path: os.symlink(path, path), "cannot be read"),
        (lambda path: os.truncate(os.open(path, os.O_CREAT | os.O_RDWR), 2**40), "at most 1,000,000 bytes"),
        (lambda path: os.symlink("nowhere", path), "there is no such file"),
    ],
    ids=["pipe", "endless", "folder", "circle", "huge", "dangling"],
)
def test_what_is_no_pattern_file_is_told_at_once(make: Callable[[str], None], said: str, tmp_path: Path) -> None:
    make(str(tmp_path / "a.toml"))
    done = turnchain("check", "a.toml", folder=tmp_path, AS=600_000_000, CPU=30)
    assert (done.returncode, done.stdout) == (1, "")
    assert said in done.stderr
    assert done.stderr.count("\n") == 1


# -------------------------------------------------------------------------------------------- what is the maker's


@pytest.mark.parametrize("words", [
    ("words", "mine.txt", "-o", "mine.txt"),
    ("words", "mine.txt", "-o", "./made/../mine.txt"),
    ("words", "mine.txt", "-o", "link.txt"),
    ("words", "link.txt", "-o", "mine.txt"),
    ("page", "mine.html", "-o", "mine.html"),
    ("print", "mine.pdf", "-o", "mine.pdf"),
    ("print", "mine.png", "--piece", "front", "-o", "mine.png"),
    ("chart", "mine.svg", "--piece", "front", "-o", "mine.svg"),
    ("chart", "mine.txt", "--piece", "front", "-o", "mine.png"),
    ("chart", "mine.txt", "--piece", "front", "-o", "mine.svg"),
    ("stripes", "mine.txt", "-o", "mine.png"),
    ("make", "made/plan.json", "-o", "made"),
    ("make", "made/front.txt", "-o", "made"),
    ("chart", "mine", "--piece", "front", "-o", "symbols/dc.svg", "--symbols", "symbols"),
    ("new", "mine"),
])  # fmt: skip
def test_nothing_of_the_makers_is_replaced(words: tuple[str, ...], source: Path, tmp_path: Path) -> None:
    mine = ("mine", *(f"mine.{ending}" for ending in ("html", "pdf", "png", "svg", "txt")))
    for name in (*mine, "made/plan.json", "made/front.txt"):
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_bytes(source.read_bytes())
    (tmp_path / "link.txt").symlink_to("mine.txt")
    symbol = Path(__file__).parents[1] / "symbols" / "dc.svg"
    (tmp_path / "symbols").mkdir()
    (tmp_path / "symbols" / "dc.svg").write_bytes(symbol.read_bytes())
    before = contents(tmp_path)
    done = turnchain(*words, folder=tmp_path)
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr.count("\n") == 1
    assert "as it" in done.stderr or "nothing was written" in done.stderr
    assert contents(tmp_path) == before


def test_a_folder_with_files_of_another_hand(source: Path, tmp_path: Path) -> None:
    for name in ("index.html", "front.png", "notes.md"):
        (tmp_path / name).write_bytes(b"mine")
    before = contents(tmp_path)
    words = ("make", source, "-o", ".", "--width", "300")
    done = turnchain(*words, folder=tmp_path)
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr.startswith("error: .: not made by turnchain, but there already: front.png, index.html; nothing")
    assert contents(tmp_path) == before
    (tmp_path / "index.html").unlink()
    (tmp_path / "front.png").unlink()
    assert turnchain(*words, folder=tmp_path).returncode == 0
    assert (tmp_path / "notes.md").read_bytes() == b"mine"


def test_notes_of_the_name_of_a_picture(source: Path, tmp_path: Path) -> None:
    (tmp_path / "front.txt").write_bytes(b"wash at 30 degrees")
    words = ["chart", str(source), "--piece", "front", "-o", str(tmp_path / "front.svg")]
    with pytest.raises(FileError, match=r"front\.txt: there is already such a text"):
        cli.main(words, standalone_mode=False)
    assert contents(tmp_path) == {"front.txt": b"wash at 30 degrees"}
    (tmp_path / "front.txt").unlink()
    for ending in ("svg", "png", "svg"):  # words beside a picture are ours
        cli.main([*words[:-1], str(tmp_path / f"front.{ending}")], standalone_mode=False)
    assert set(contents(tmp_path)) == {"front.svg", "front.png", "front.txt"}
    (tmp_path / "front.svg").unlink()
    (tmp_path / "front.png").unlink()
    cli.main(words, standalone_mode=False)  # only the pictures were thrown away
    said = (tmp_path / "front.txt").read_bytes()
    own = (b"Stitch counts to keep: 41, 43\n", said + b"wash at 30 degrees\n", b"Wash" + said, said.strip(), b"\xff\n")
    for notes in own:
        (tmp_path / "front.svg").unlink(missing_ok=True)
        (tmp_path / "front.txt").write_bytes(notes)
        with pytest.raises(FileError, match=r"front\.txt: there is already such a text"):
            cli.main(words, standalone_mode=False)
        assert (tmp_path / "front.txt").read_bytes() == notes


def test_every_byte_is_on_the_disk_before_the_first_old_file_goes(
    quick: Callable[[Path], None], way: str, tmp_path: Path
) -> None:
    """So that not even a power cut finds a name without its bytes."""
    quick(tmp_path / "made")
    aged(tmp_path / "made")
    with injected(0, kill) as taken:
        quick(tmp_path / "made")
    first = taken.index("replace")
    assert "write" not in taken[first:]
    written = len(contents(tmp_path / "made")) + 1  # the record twice
    assert taken[:first].count("fsync") == taken.count("replace") == written


def test_a_write_that_fails_names_its_file(tmp_path: Path) -> None:
    """Not the file that happened to be open beside it; and what is no fault of writing is not told as one."""
    with pytest.raises(BrokenPipeError), replaced(tmp_path / "a"):
        raise BrokenPipeError
    said = pytest.raises(FileError, match=r"/a: cannot be written: the disk is full")
    with said, replaced(tmp_path / "b"), replaced(tmp_path / "a") as stream, injected(1, refuse):
        stream.write(b"new")
        stream.flush()
