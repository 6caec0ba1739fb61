"""Text measured and turned into outlines, from the fonts that travel with turnchain.

Begin reading with ``measuring``, which is what all rooms use; ``ready`` holds most letters, ``faces`` opens the fonts
for all others. Since the fonts are shipped and only advances are used (no kerning, no shaping), a picture is the same
on every machine, and no renderer's idea of text can move a label.
"""
