"""What the loops take and give, in C and in numpy alike: see ``loops``."""

from typing import TypeAlias

from turnchain.scene import Steps

_Px: TypeAlias = bytes | bytearray

def flatten(steps: Steps, tolerance: float) -> tuple[bytes, list[int], list[bool]]: ...
def fill_lines(points: bytes, starts: list[int], closed: list[bool]) -> bytes: ...
def stroke_lines(
    points: bytes, starts: list[int], closed: list[bool], radius: float, flat: bool, disc: bytes, tolerance: float
) -> bytes: ...
def set_letters(
    letters: list[bytes], along: list[float], cosine: float, sine: float, right: float, down: float
) -> bytes: ...
def cover(
    edges: bytes, x: float, y: float, window: tuple[int, int, int, int]
) -> tuple[int, int, int, int, bytes] | None: ...
def strew(
    alpha: bytearray, width: int, mask: _Px, mask_width: int, places: list[tuple[int, int]], in_rows: bool
) -> None: ...
def fade(alpha: _Px, above: _Px, opacity: float) -> bytes: ...
def lay_indexed(
    canvas: bytearray,
    width: int,
    mask: _Px,
    mask_width: int,
    part: tuple[int, int, int, int, int, int],
    table: bytearray,
    known: bytearray,
    shades: bytes,
    ink: tuple[float, float, float, float],
    lines: bytes,
) -> None: ...
def lay_full(
    canvas: bytearray, width: int, mask: _Px, mask_width: int, part: tuple[int, int, int, int, int, int], ink: bytes
) -> None: ...
def packed(colours: _Px, width: int, opaque: bool, lead: int) -> bytes: ...
def fill(canvas: bytearray, start: int, stride: int, count: int, rows: int, px: bytes) -> None: ...
def overlap(below: bytes, above: bytes) -> int: ...
