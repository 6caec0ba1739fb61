"""Edgings: borders that are planned and worked, row by row.

In: a plan and the [[edging]] tables of its pattern. In the order of the work:

    spreading    so many stitches over so many places, evenly
    places       what the hook meets along an edge, and how many stitches go into each
    turning      corners outwards and inwards, and by how much an edge bends besides
    planned      the edgings of a garment: begin here
    buttonholes  holes along one edge of an edging
    ties         ties at its ends, or a strap
    grams        what all of it takes of its yarns
    words        them in the language of a pattern
"""
