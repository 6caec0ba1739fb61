"""The fabric in the hand: what can be worked into what.

In: stitches, each with the place it is worked into. Out: finished rows, or ``Unworkable`` with the reason. Nothing is
known here of plans, words or pictures. The way through the modules:

    stitches    what a hook makes and meets; a finished row as ``WorkedRow``
    row         a row in the making; begin reading here
    finished    where its clusters and edges have come to
"""
