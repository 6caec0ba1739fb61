"""Text measured and turned into outlines, from the fonts that are shipped with turnchain.

Begin reading with ``measuring``, which is what all rooms use; ``ready`` holds most letters, ``faces`` opens the fonts
for all others. Since no other fonts and only advances are used (no kerning, no shaping), a picture is the same on every
machine, and no renderer's own fonts can move a label.
"""
