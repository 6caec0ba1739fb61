"""Recipes: pattern files of common garments with every measure worked out.

In: the name of a recipe and a wearer. Out: the text of a pattern file, with a remark at every measure that says how it
was worked out. A recipe is a data file in ``data``: to add one needs no code. ``formulas`` is the arithmetic that it
may use, ``recipe`` reads the files, ``writing`` fills them in.
"""
