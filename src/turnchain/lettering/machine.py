"""The fonts of this machine: where their files are, those that suit a writing best first.

In: a writing, or a single character. Out: paths. Fontconfig is asked where it is installed; elsewhere the folders are
searched in which the system keeps fonts. The same fonts on the machine give the same order: its language decides
nothing.
"""

from __future__ import annotations

import os
import sys
import unicodedata
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Final

from turnchain.lettering.scripts import EAST_ASIAN

ENDINGS: Final = (".ttf", ".otf", ".ttc", ".otc")
SECONDS: Final = 20  # for fontconfig, which reads all fonts when it is first asked
#: Fonts that come with macOS and Windows, by how their files' names begin: an order of preference (from memory).
USUAL: Final = {
    "Japanese": ("ヒラギノ角ゴシック", "yugoth", "meiryo", "msgothic"),
    "Simplified Chinese": ("pingfang", "hiragino sans gb", "stheiti", "msyh", "simhei", "simsun"),
    "Traditional Chinese": ("pingfang", "stheiti", "msjh", "mingliu"),
    "Korean": ("applesdgothicneo", "applegothic", "malgun", "gulim"),
}


@cache
def paths(writing: str, character: str) -> tuple[Path, ...]:
    """Files of fonts for ``writing`` that may hold ``character``, best first; for writings of East Asia by the language
    alone. Empty where nothing is found."""
    listed = _by_fontconfig(writing, character)
    return tuple(dict.fromkeys(_in_folders(writing) if listed is None else listed))


def _by_fontconfig(writing: str, character: str) -> list[Path] | None:
    """None where there is no fontconfig."""
    import shutil  # few words need it

    if not (shutil.which("fc-list") and shutil.which("fc-match")):
        return None
    wanted = f":lang={EAST_ASIAN[writing][0]}" if writing in EAST_ASIAN else f":charset={ord(character):x}"
    first = _asked("fc-match", f"sans-serif{wanted}:weight=80")
    others = sorted({*_asked("fc-list", wanted)}, key=_plainest)
    # where no font suits, fc-match still names one
    return [path for path in (*(one for one in first if one in others), *others) if path.suffix.lower() in ENDINGS]


def _asked(command: str, pattern: str) -> list[Path]:
    arguments = [command, "--format=%{file}\\n", pattern] if command == "fc-match" else [
        command, "--format=%{file}\\n", pattern, "file"
    ]  # fmt: skip
    import subprocess  # few words need it

    environment = {**os.environ, "LC_ALL": "C.UTF-8", "LANG": "C.UTF-8", "FC_LANG": "en"}
    try:
        run = subprocess.run(arguments, capture_output=True, timeout=SECONDS, env=environment, check=False)
    except (OSError, subprocess.TimeoutExpired):
        return []
    return [Path(os.fsdecode(line)) for line in run.stdout.splitlines() if line]


def _in_folders(writing: str) -> list[Path]:
    usual = USUAL.get(writing, ())

    def rank(path: Path) -> tuple[int, tuple[bool, str]]:
        name = unicodedata.normalize("NFC", path.name).casefold()
        return next((nth for nth, stem in enumerate(usual) if name.startswith(stem)), len(usual)), _plainest(path)

    return sorted(_files(), key=rank)


def _plainest(path: Path) -> tuple[bool, str]:
    """Fonts without serifs before those with them, else by their paths."""
    name = path.name.casefold()
    return any(word in name for word in ("serif", "mincho", "ming", "song", "myeongjo", "batang")), str(path)


def _files() -> Iterator[Path]:
    for folder in _folders():
        for found, _, names in os.walk(folder):
            yield from (Path(found, name) for name in names if name.lower().endswith(ENDINGS))


def _folders() -> list[Path]:
    home = Path(os.path.expanduser("~"))
    match sys.platform:
        case "darwin":
            return [Path("/System/Library/Fonts"), Path("/Library/Fonts"), home / "Library/Fonts"]
        case "win32":
            windows, local = os.environ.get("WINDIR", r"C:\Windows"), os.environ.get("LOCALAPPDATA", "")
            return [Path(windows, "Fonts"), *([Path(local, "Microsoft/Windows/Fonts")] if local else [])]
    data = os.environ.get("XDG_DATA_HOME") or home / ".local/share"
    return [Path("/usr/share/fonts"), Path("/usr/local/share/fonts"), Path(data, "fonts"), home / ".fonts"]
