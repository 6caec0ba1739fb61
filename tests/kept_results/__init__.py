"""Existing pattern files keep their meaning: some hundreds of them, and a digest of each thing they make.

In: pattern files over all that a pattern file can say. Out: for each of them digests of its parts: plan, report,
written pattern, drawings, or what its maker is told where it cannot be made. ``test_kept_results`` compares them with
those that are kept in ``kept.txt``. From the top of the repository::

    python -m tests.kept_results                       which parts of which files are others than those kept
    python -m tests.kept_results --write               keeps them as they are now, and tells what changed
    python -m tests.kept_results --show NAME FOLDER    writes the parts of one file into a folder, to be compared with
                                                       those that another state of the program writes

Nothing here says that a result is right: what was kept was only made once, by a program that passed all other tests. A
changed digest is a question: is the change wanted, and do makers know of it?
"""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))  # what the tests share, where this is started as a program
