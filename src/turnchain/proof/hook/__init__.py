"""Stitches as a hook makes them: what can be worked into what.

In: stitches, each with the place it is worked into. Out: finished rows, or ``Unworkable`` with the reason. No plan,
words or pictures are used here. The way through the modules:

    stitches    stitches and the spots of a row; a finished row as ``WorkedRow``
    row         a row in the making; begin reading here
    finished    where its clusters and edges stand
"""
