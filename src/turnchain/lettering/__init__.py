"""Text measured and turned into outlines, from the fonts that are shipped with turnchain.

Begin reading with ``measuring``, which is what all rooms use. ``ready`` holds most letters, ``faces`` opens the shipped
fonts for others, ``others`` takes what those lack from fonts that are given or found (``machine``, ``opened``), by the
writing that words are in (``scripts``). Only advances are used (no kerning, no shaping): a picture in the shipped
letters is the same on every machine, and no renderer's own fonts can move a label.
"""
