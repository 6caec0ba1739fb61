"""The commands of the command line, by what a maker wants of them.

In: arguments. Out: commands, which ``cli`` imports one by one as they are called: to begin with (``beginning``), told
in words (``telling``), all of a pattern (``making``), single pictures and paper (``pictures``). Imports stand inside
them too, so that each starts quickly.
"""
