"""The page as a folder of static files, with Python in the browser: any plain web host can serve it.

In: a folder to write, and Python for browsers (the npm package ``pyodide``, fetched by npm, or a folder of it). Out:
the page, the program with what it needs as archives, a list of files to keep for working offline, and all of it once
more as one zip to upload. Nothing that is built belongs into the repository.
"""

from __future__ import annotations

import hashlib
import json
import shutil
import subprocess
import tarfile
from collections.abc import Iterator
from importlib import resources
from importlib.resources.abc import Traversable
from io import BytesIO
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Final
from zipfile import ZIP_DEFLATED, BadZipFile, ZipFile, ZipInfo

from turnchain.design.server import page_files
from turnchain.errors import FileError, MakerError

PYTHON = "314.0.7"  # the version of pyodide that was tried
LIBRARY = "python_stdlib.zip"
PACKAGES = "pyodide-lock.json"  # the packages that it could fetch: here none
NEEDED: Final = ("pyodide.mjs", "pyodide.asm.mjs", "pyodide.asm.wasm", LIBRARY, PACKAGES)
#: What a chart, its words and its yarn need; and what paper needs beside that.
PROGRAM: Final = ("turnchain", "svgwrite", "tomlkit", "pydyf")
PAPER: Final = ("fontTools",)
#: Of these packages, what neither charts nor paper need: it would be fetched by every visitor.
LEFT_OUT: Final = (
    "__pycache__", "design", "proof", "ufoLib", "merge", "voltLib", "t1Lib", "mtiLib", "svgLib", "diff",
    "fontBuilder.py", "ttx.py", "tfmLib.py", "afmLib.py", "reportLabPen.py", "cli.py", "commands", "options.py",
    "everything.py", "parallel.py", "putting.py", "record.py", "printed.py", "made_of.py", "many.py", "progress_bar.py",
    "canvas.py", "palette.py", "coverage.py", "layers.py", "numpy_loops.py", "picture.py", "glyph_cache.py",
    "repeats.py", "turnchain/raster/edges.py", "turnchain/raster/loops.py", "turnchain/raster/words.py",
    "turnchain/writers/image.py", "turnchain/writers/png.py",
    "photograph.py", "moving.py", "webp.py", "jpeg.py",
    "interpolatable.py", "interpolatablePlot.py", "interpolatableHelpers.py", "woff2.py",
    "fontTools/varLib/instancer", "fontTools/varLib/avar", "fontTools/varLib/mutator.py", "fontTools/varLib/plot.py",
    "fontTools/varLib/interpolate_layout.py",
    "fontTools/feaLib/parser.py", "fontTools/feaLib/builder.py", "fontTools/feaLib/lexer.py", "variableScalar.py",
    "fontTools/cu2qu/ufo.py", "fontTools/misc/filesystem", "fontTools/qu2cu", "qu2cuPen.py",
    "benchmark.py", "eexec.py", "freetypePen.py", "hashPointPen.py", "interpolatableTestContourOrder.py",
    "interpolatableTestStartingPoint.py", "momentsPen.py", "pointInsidePen.py", "psLib.py", "psOperators.py",
    "py23.py", "scaleUpem.py", "statisticsPen.py", "symfont.py", "testTools.py", "fontTools/varLib/hvar.py",
)  # fmt: skip
#: The same of Python's own library.
UNUSED: Final = (
    "multiprocessing/", "_pyrepl/", "unittest/", "xmlrpc/", "wsgiref/", "pdb.py", "doctest.py", "pydoc.py",
    "imaplib.py", "pickletools.py", "tarfile.py", "_pyio.py", "optparse.py", "statistics.py", "smtplib.py", "ftplib.py",
    "poplib.py", "mailbox.py", "turtle.py", "cProfile.py", "http/server.py", "http/cookiejar.py", "logging/handlers.py",
    "configparser.py", "bdb.py", "socketserver.py", "sqlite3/", "ensurepip/", "venv/", "idlelib/", "curses/",
    "trace.py", "logging/config.py", "profile.py", "pstats.py", "profiling/", "webbrowser.py", "tabnanny.py",
    "compileall.py", "zipapp.py", "_osx_support.py", "_aix_support.py", "_apple_support.py", "_android_support.py",
    "asyncio/windows_events.py", "asyncio/windows_utils.py", "asyncio/proactor_events.py",
    "concurrent/futures/process.py", "email/_header_value_parser.py", "plistlib.py", "_pydatetime.py", "__hello__.py",
    "__phello__/", "_markupbase.py", "antigravity.py", "asyncio/__main__.py", "asyncio/tools.py", "cmd.py", "code.py",
    "colorsys.py", "ctypes/", "email/mime/", "filecmp.py", "fileinput.py", "getpass.py", "graphlib.py",
    "html/parser.py", "http/cookies.py", "json/tool.py", "modulefinder.py", "netrc.py", "nturl2path.py",
    "pathlib/types.py", "platform.py", "pty.py", "pyclbr.py", "sched.py", "shelve.py", "shlex.py", "symtable.py",
    "sysconfig/__main__.py", "this.py", "tty.py", "urllib/robotparser.py", "uuid.py", "wave.py",
    "xml/etree/ElementInclude.py",
)  # fmt: skip
ENCODINGS: Final = (
    "__init__", "aliases", "ascii", "charmap", "cp437", "idna", "latin_1", "punycode", "raw_unicode_escape",
    "unicode_escape", "mac_roman", "utf_16", "utf_16_be", "utf_16_le", "utf_32", "utf_32_be", "utf_32_le", "utf_8",
    "utf_8_sig",
)  # fmt: skip
KEPT: Final = (".py", ".json", ".toml", ".txt", ".css", ".js", ".svg", ".md")
POLICY: Final = (
    "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; font-src 'self'; "
    "img-src 'self' blob: data:; connect-src 'self'; worker-src 'self'; manifest-src 'self'; base-uri 'none'; "
    "form-action 'none'"
)


def build(folder: Path, pyodide: Path | None = None) -> list[Path]:
    """Writes the page into ``folder``, and beside it the same as a zip; returns the paths of both. ``pyodide`` is a
    folder with Python for browsers (None: npm fetches it). MakerError where that is missing, FileError where nothing
    can be written or other files stand in ``folder``."""
    files = dict(_files(pyodide))
    files["offline.js"] = _offline(files)
    archive = folder.with_name(f"{folder.name}.zip")
    if folder.exists() and any(folder.iterdir()) and not (folder / "offline.js").exists():
        raise FileError(f"{folder}: other files stand there; give a folder of its own")
    try:
        for name, data in files.items():
            (folder / name).parent.mkdir(parents=True, exist_ok=True)
            (folder / name).write_bytes(data)
        archive.write_bytes(_zipped(files))
    except OSError as error:
        raise FileError(f"{folder}: cannot be written ({error.strerror})") from error
    return [folder, archive]


def _files(pyodide: Path | None) -> Iterator[tuple[str, bytes]]:
    for name, (_, data) in page_files().items():
        if name not in ("engine.js", "index.html"):
            yield name, data
    browser = resources.files("turnchain.design").joinpath("browser")
    for name in ("engine.js", "worker.js", "manifest.webmanifest"):
        yield name, browser.joinpath(name).read_bytes()
    yield "index.html", _index(page_files()["index.html"][1])
    for name, data in _python(pyodide).items():
        yield f"python/{name}", data
    yield "python/program.zip", _zipped(dict(_packages(PROGRAM)))
    yield "python/paper.zip", _zipped(dict(_packages(PAPER)))


def _index(page: bytes) -> bytes:
    """The page's first file with a policy of its own, since a plain host sends none, and what a home screen needs."""
    first = b'<meta charset="utf-8">'
    policy = f'<meta http-equiv="Content-Security-Policy" content="{POLICY}">'
    return page.replace(first, first + f'\n{policy}\n<link rel="manifest" href="manifest.webmanifest">'.encode())


def _offline(files: dict[str, bytes]) -> bytes:
    """The list of files to keep, under a version that changes with any of them."""
    digest = hashlib.sha256()
    for name, data in sorted(files.items()):
        digest.update(name.encode() + hashlib.sha256(data).digest())
    listed = "', '".join(["./", *sorted(files.keys() - {"index.html"})])
    text = resources.files("turnchain.design").joinpath("browser", "offline.js").read_text("utf-8")
    return text.replace("{version}", digest.hexdigest()[:16]).replace("{files}", listed).encode()


def _packages(names: tuple[str, ...]) -> Iterator[tuple[str, bytes]]:
    """The files of installed packages that Python reads."""
    for name in names:
        yield from _walk(resources.files(name), name)
    if "turnchain" in names:
        yield from _walk(resources.files("turnchain.symbols"), "turnchain/symbols")


def _walk(folder: Traversable, path: str) -> Iterator[tuple[str, bytes]]:
    for one in sorted(folder.iterdir(), key=lambda one: one.name):
        inner = f"{path}/{one.name}"
        if one.name in LEFT_OUT or inner in LEFT_OUT:
            continue
        if one.is_dir():
            yield from _walk(one, inner)
        elif one.name.endswith(KEPT):
            yield inner, one.read_bytes()


def _zipped(files: dict[str, bytes]) -> bytes:
    """An archive of ``files``; the same bytes for the same files."""
    stream = BytesIO()
    with ZipFile(stream, "w", ZIP_DEFLATED, compresslevel=9) as archive:
        for name, data in sorted(files.items()):
            archive.writestr(ZipInfo(name), data, ZIP_DEFLATED)
    return stream.getvalue()


def _python(pyodide: Path | None) -> dict[str, bytes]:
    """Python for browsers: of a folder given, or by npm."""
    if pyodide is not None:
        return _from_folder(pyodide)
    npm = shutil.which("npm")
    if npm is None:
        raise MakerError(
            "Python for browsers is fetched by npm, which is not on this computer; install Node.js with npm, or give a "
            f"folder of pyodide {PYTHON} with --pyodide"
        )
    with TemporaryDirectory() as place:
        command = [npm, "pack", "--silent", f"pyodide@{PYTHON}"]
        run = subprocess.run(command, cwd=place, capture_output=True, text=True, check=False)
        packed = next(Path(place).glob("*.tgz"), None)
        if run.returncode or packed is None:
            raise MakerError(f"npm could not fetch pyodide {PYTHON}: {run.stderr.strip() or 'it gave nothing'}")
        with tarfile.open(packed) as archive:
            archive.extractall(place, filter="data")
        return _from_folder(Path(place) / "package")


def _from_folder(folder: Path) -> dict[str, bytes]:
    try:
        found = {name: (folder / name).read_bytes() for name in NEEDED}
    except OSError as error:
        raise MakerError(f"{folder}: no pyodide in it ({error.filename or ''} is missing)") from error
    try:
        return {**found, LIBRARY: _thinned(found[LIBRARY]), PACKAGES: _no_packages(found[PACKAGES])}
    except (BadZipFile, ValueError) as error:
        raise MakerError(f"{folder}: the pyodide in it cannot be read ({error})") from error


def _no_packages(listed: bytes) -> bytes:
    """The list of packages without any: all that the page needs comes with it."""
    return json.dumps({**json.loads(listed), "packages": {}}).encode()


def _thinned(library: bytes) -> bytes:
    """Python's own library without what is never used here."""
    with ZipFile(BytesIO(library)) as archive:
        return _zipped({name: archive.read(name) for name in archive.namelist() if _used(name)})


def _used(name: str) -> bool:
    if name.startswith("encodings/"):
        return name.removeprefix("encodings/").partition(".")[0] in ENCODINGS
    return not name.endswith("/") and not name.startswith(UNUSED)
