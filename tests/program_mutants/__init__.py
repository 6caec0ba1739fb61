"""Mutants of the program: its own code changed in one place at a time, and whether the tests see it.

In: rooms, how many mutants of each, a seed. Out: for each room caught / total with a 95 % interval, and every survivor
with its place and its line. From the top of the repository (needs ``.[test]``)::

    python -m tests.program_mutants                                  300 mutants of every room
    python -m tests.program_mutants --rooms units sizes --mutants 60 --seed 5 --jobs 2
    python -m tests.program_mutants --all                            every mutant there is
    python -m tests.program_mutants --minutes 90                     as many as there is time for, the rooms in turn
    python -m tests.program_mutants --keep found.jsonl               what is found is kept, and not tried again
    python -m tests.program_mutants --keep found.jsonl --again --seconds 60       but what survived is

A mutant turns round a comparison, a sum, a condition or a pair of words such as left and right, moves a whole number by
one, or takes the larger for the smaller. Sites are drawn evenly over the modules of a room. A mutant is run against
the tests that pass through the changed line, until one fails or ``--seconds`` of them have passed: first those that
found others of its module and its room, then the quickest; after a third of the time the kept results of files, and
last the gallery. These are the tests of the quick set with all of their cases, and the random files of the slow one.
One that does not come to an end is caught. The share that is told is a lower bound: the other slow tests and the dear
ones may see more. Files are not touched. Tests that fail already are left out, and said. Tests that start the program
anew do not see a mutant, so they are no help here.
Wilson's interval is the usual one for a share (E. B. Wilson, 1927).

The modules, in the order they build on one another:

    changes      every mutant of a module
    sampling     which modules make a room, which tests know it, and the mutants that change nothing (unchanged.toml)
    processes    a process for each mutant, bounded
    marking      modules that tell which of their lines are passed through
    recording    which lines each test passes through, and how long it takes
    anew         mutants of what is reckoned when a module is imported
    running      one mutant against its tests
    keeping      what was found, in a file
"""
