"""Letters that the shipped fonts lack, from a font that the maker gives or that is found on this machine.

In: files of fonts, and words. Out: advances and outlines scaled to the em of the shipped fonts, so that nothing else
needs to know whose they are; fonts cut down for a PDF; and what is to be told of it. A font whose maker forbids that it
is embedded in documents is not used.

Which fonts are used is a state of the whole process: ``use`` and ``write`` set it, and forget what was worked out
with another. Without either, fonts are looked for when a letter needs one.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable, Iterator
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Final, Protocol, TypeVar

from turnchain.errors import FileError, MakerError
from turnchain.lettering import scripts
from turnchain.scene import Weight

if TYPE_CHECKING:
    from turnchain.lettering.opened import Face

#: The weight (100 to 900, as OpenType counts) that stands for each of ours.
WEIGHTS: Final[dict[Weight, int]] = {"regular": 400, "semibold": 600}
#: The em of the shipped fonts in their units, to which all outlines are scaled.
EM: Final = 2000
NAMED_AT_MOST: Final = 5  # letters, in what is told
ALIKE: Final = 4  # letters that the names of a family's files have in common at their beginning, at least


class _Cache(Protocol):
    def cache_clear(self) -> None: ...


_Cached = TypeVar("_Cached", bound=_Cache)


class _Chosen:
    """What is drawn with; ``fullest``: of the fonts for this writing, the first that has all letters, or most."""

    def __init__(self) -> None:
        self.given: tuple[Path, ...] = ()
        self.writing = "Simplified Chinese"
        self.fullest: Path | None = None
        self.words = ""
        self.caches: list[Callable[[], None]] = []


_chosen = _Chosen()


def renewed(cached: _Cached) -> _Cached:
    """``cached``, which is emptied when other fonts are to be used."""
    _chosen.caches.append(cached.cache_clear)
    return cached


def use(files: Iterable[Path]) -> None:
    """From now on letters that the shipped fonts lack come from ``files`` first, and then from this machine's fonts.
    Raises FileError for a file that cannot be read or is no font, MakerError for one that may not be embedded."""
    given = tuple(files)
    for file in given:
        _check(file)
    if given != _chosen.given:
        _chosen.given, _chosen.fullest = given, None
        _forget()


def write(words: str) -> None:
    """From now on ``words`` are what is written, which ``told`` tells of. Letters that East Asian writings share are
    drawn as in the writing of ``words``, all from one font where one has them; where ``words`` hold none, the choice
    stays as it is."""
    _chosen.words = words
    writing = scripts.east_asian(words)
    if not writing:
        return
    fullest = _fullest(writing, frozenset(one for one in words if _is_east_asian(one)))
    if (writing, fullest) != (_chosen.writing, _chosen.fullest):
        _chosen.writing, _chosen.fullest = writing, fullest
        _forget()


def _forget() -> None:
    for clear in _chosen.caches:
        clear()


def _fullest(writing: str, letters: frozenset[str]) -> Path | None:
    """The first font that has all ``letters``, or the one that has most."""
    from turnchain.lettering import machine  # few words need it

    most: tuple[int, Path | None] = (0, None)
    names = dict.fromkeys((writing, *scripts.EAST_ASIAN))
    for path in dict.fromkeys(path for name in names for path in (*_chosen.given, *machine.paths(name, ""))):
        count = sum(any(face.draws(one) for face in _usable(path, writing)) for one in letters)
        most = max(most, (count, path), key=lambda pair: pair[0])
        if count == len(letters):
            break
    return most[1]


def _is_east_asian(character: str) -> bool:
    own = scripts.writing_of(character)
    return own == "Chinese" or own in scripts.EAST_ASIAN


def _check(file: Path) -> None:
    from turnchain.lettering.opened import faces_in  # few words need it

    try:
        faces = faces_in(file)
    except OSError as error:
        raise FileError(f"{file}: this font cannot be read ({error.strerror or error})") from error
    if not faces:
        raise FileError(f"{file}: not a font with outlines; give a file of the kind TTF, OTF or TTC")
    if not any(face.may_be_embedded for face in faces):
        raise MakerError(f"{file}: the maker of this font does not allow it in documents; give another with --font")


# ------------------------------------------------------------------------------------------------------- letters


def glyph(weight: Weight, character: str) -> tuple[int, str] | None:
    """The advance of ``character`` and its outline as SVG path data (M, L, H, V, C, Q, Z), both in units of which
    ``EM`` make an em, y downwards; None where no font has it."""
    face = face_of(weight, character)
    return face.glyph(character, EM) if face else None


@renewed
@lru_cache(None)
def face_of(weight: Weight, character: str) -> Face | None:
    """The face that ``character`` is drawn from; None where no font has it, and for letters that their neighbours
    shape."""
    if scripts.is_shaped(character) or not character.isprintable():
        return None
    for writing in _writings(character):
        for path in _files(writing, character):
            for face in _usable(path, writing):
                if face.draws(character):
                    return _as_heavy(face, weight, _files(writing, character))
    return None


def _writings(character: str) -> Iterator[str]:
    """Whose fonts are looked through for ``character``: a stray kana in Chinese words comes from the fonts of all the
    rest, where they have it."""
    if _is_east_asian(character):
        yield _chosen.writing
        yield from scripts.EAST_ASIAN
    yield scripts.writing_of(character)


def _files(writing: str, character: str) -> tuple[Path, ...]:
    """All files that may hold ``character``, those of the fonts given first."""
    from turnchain.lettering import machine  # few words need it

    if writing not in scripts.EAST_ASIAN:
        return (*_chosen.given, *machine.paths(writing, character))
    fullest = (_chosen.fullest,) if _chosen.fullest else ()
    return (*fullest, *_chosen.given, *machine.paths(writing, ""))  # one search serves all letters


@lru_cache(None)
def _usable(path: Path, writing: str) -> tuple[Face, ...]:
    """The faces of ``path`` that may be used, those in the forms of ``writing`` first."""
    from turnchain.lettering.opened import faces_in  # few words need it

    try:
        faces = [face for face in faces_in(path) if face.may_be_embedded]
    except OSError:
        return ()
    return tuple(sorted(faces, key=lambda face: face.rank(writing, WEIGHTS["regular"])))


def _as_heavy(found: Face, weight: Weight, files: Iterable[Path]) -> Face:
    """The upright face of the family of ``found`` that comes nearest to ``weight``: in files whose names begin alike,
    so that not all have to be opened."""
    begun = found.path.name[:ALIKE].casefold()
    near = [one for one in files if one.name[:ALIKE].casefold() == begun]
    faces = [face for path in near for face in _usable(path, "") if face.family == found.family and face.upright]
    return _set_to(min((found, *faces), key=lambda face: abs(face.weight - WEIGHTS[weight])), weight)


@lru_cache(None)
def _set_to(face: Face, weight: Weight) -> Face:
    return face.at(WEIGHTS[weight])


# ---------------------------------------------------------------------------------------------------- what is told


def told(lacking: Callable[[str], bool]) -> list[str]:
    """What a maker is told about the letters of what was last given to ``write`` that the shipped fonts lack, as
    ``lacking`` knows: by writing, which font they come from, or that there is none; a sentence each."""
    wanted = dict.fromkeys(character for character in _chosen.words if lacking(character))
    groups: dict[tuple[str, str], list[str]] = {}
    for character in wanted:
        groups.setdefault((_name(character), _outcome(character)), []).append(character)
    return [_sentence(name, outcome, letters) for (name, outcome), letters in groups.items()]


def _name(character: str) -> str:
    return _chosen.writing if _is_east_asian(character) else scripts.writing_of(character)


def _outcome(character: str) -> str:
    if scripts.is_shaped(character):
        return "shaped"
    face = face_of("regular", character)
    return f"{face.family} ({face.path})" if face else ""


def _sentence(name: str, outcome: str, letters: list[str]) -> str:
    shown = ", ".join(f"{one} U+{ord(one):04X}" for one in letters[:NAMED_AT_MOST]) + " ..." * (
        len(letters) > NAMED_AT_MOST
    )
    if outcome == "shaped":
        return (
            f"{name}: its letters change with their neighbours or run from right to left, which is not done yet in PNG "
            "and PDF; boxes stand there instead. SVG, the pages and pattern.md show the words as written"
        )
    if outcome:
        return f"{name}: set in {outcome}"
    if sys.platform == "emscripten":  # the page with Python in the browser
        return (
            f"{name}: there are no letters for it here ({shown}); boxes stand for them in PNG and PDF. On the page and "
            "in SVG the browser's own are shown; the program on your computer finds fonts, or takes --font FILE"
        )
    return (
        f"{name}: no font with these letters found ({shown}); boxes stand for them in PNG and PDF. Install a font for "
        f"{name}, or give one with --font FILE"
    )


def digest(words: Iterable[str], lacking: Callable[[str], bool]) -> str:
    """What says which other fonts draw ``words``: it changes with any of their files; "" where none does."""
    import hashlib  # for a folder of pictures alone

    letters = {one for line in words for one in line}
    found = {face_of(weight, one) for one in letters if lacking(one) for weight in WEIGHTS}
    files = sorted({(str(face.path), face.index) for face in found if face})
    return " ".join(f"{index} {hashlib.sha256(Path(path).read_bytes()).hexdigest()}" for path, index in files)


