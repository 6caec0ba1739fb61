"""The inner loops of the rasteriser: in C (``compiled``) where there was a compiler, else in numpy (``numpy_loops``).

Both take and give the same bytes, which the tests compare, so that no picture depends on which of them drew it. In C a
chart takes half the time, and numpy need not be loaded. Numbers stand in buffers of float64; masks and canvases are
buffers of a byte, a colour of four, for each px, row behind row.

- ``flatten(steps, tolerance)``: an outline as polylines: x and y of all points, where each polyline starts, and
  whether it is closed. Curves are cut so that no piece is farther from them than ``tolerance`` px. ValueError for a
  place that is no finite number.
- ``fill_lines(points, starts, closed)``: the ``Edges`` of their area; open ones are closed.
- ``stroke_lines(points, starts, closed, radius, flat, disc, tolerance)``: the ``Edges`` of a stroke along them,
  ``radius`` px to each side; ``flat``: without round ends; ``disc``: the corners of a polygon in place of a round
  joint.
- ``set_letters(letters, along, cosine, sine, right, down)``: the ``Edges`` of ``letters``, each moved ``along`` its
  line, turned, enlarged and moved together.
- ``cover(edges, x, y, window)``: the coverage of edges moved by (x, y), inside ``window`` (left, top, right, bottom):
  left, top, width and height (px) of the mask, and its px; None where there are none.
- ``strew(alpha, width, mask, mask_width, places, in_rows)``: joins ``mask`` to ``alpha`` at each of ``places`` (its
  left upper px); ``in_rows``: row by row, of those in one row first every so many-th, so that they do not touch.
- ``fade(alpha, above, opacity)``: what is to be painted of ``alpha`` (see ``layers.faded``).
- ``lay_indexed(canvas, width, mask, mask_width, part, table, known, shades, ink, lines)``: lays a part of ``mask`` (x,
  y, width and height on the canvas, then x and y in the mask) on numbers of colours. ``table`` has a row for each of
  256 numbers and a column for each level: what it becomes. Rows that are not ``known`` are filled in when they are
  needed: with the numbers that follow for those flagged in ``lines``, else with the nearest of ``shades`` (four float64
  each) to each step towards ``ink``.
- ``lay_full(canvas, width, mask, mask_width, part, ink)``: the same on colours, multiplied with their opacity.
- ``packed(colours, width, opaque, lead)``: the rows of such a canvas as files want them, each behind ``lead`` (0 or 1)
  zeros: three bytes for each px where all is ``opaque``; else four, no longer multiplied with their opacity.
- ``fill(canvas, start, stride, count, rows, px)``: fills ``rows`` with ``count`` times the bytes ``px``, the first from
  the byte ``start`` on, each ``stride`` bytes behind the one before.
- ``overlap(below, above)``: how much rectangles share (see ``palette``), in 256ths of a px.

In C, ValueError for buffers that do not fit one another: nothing outside them is read or written.
"""

from __future__ import annotations

try:
    from turnchain.raster._loops import (
        cover,
        fade,
        fill,
        fill_lines,
        flatten,
        lay_full,
        lay_indexed,
        overlap,
        packed,
        set_letters,
        strew,
        stroke_lines,
    )
except ImportError:  # no compiler where the program was installed
    from turnchain.raster.numpy_loops import (
        cover,
        fade,
        fill,
        fill_lines,
        flatten,
        lay_full,
        lay_indexed,
        overlap,
        packed,
        set_letters,
        strew,
        stroke_lines,
    )

__all__ = [
    "cover", "fade", "fill", "fill_lines", "flatten", "lay_full", "lay_indexed", "overlap", "packed", "set_letters",
    "strew", "stroke_lines",
]  # fmt: skip
