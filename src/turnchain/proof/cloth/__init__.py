"""Measures of worked cloth: what the maker in the machine has in hand, measured with a tape.

In: the rows of a piece as they came out, in which yarn each was worked, and how wide and high a swatch says a stitch
is. Out: edges, measures, areas, ends. Nothing is known of plans or of what is printed. In the order in which to read:
``tape`` (centimetres from swatches), ``edges`` (the edges stitch by stitch), ``measures``, ``yarn``.
"""
