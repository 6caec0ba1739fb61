"""From a scene to px: our own rasteriser, which can be tested and replaced by itself.

In: a scene. Out: the bands of its picture, which ``writers`` puts into files. Begin reading with
``picture``, the way through it; then ``glyph_cache`` and ``layers`` (masks made once and joined), ``edges`` and
``words`` (outlines as straight edges), ``coverage`` (how much of a px they cover), ``canvas`` and ``palette`` (what
becomes of masks), ``bounds`` (how far items reach), ``repeats`` (lines that come again).
"""
