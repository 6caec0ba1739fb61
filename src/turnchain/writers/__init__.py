"""Writers turn a finished scene into files; they know nothing of crochet.

In: a scene and a binary stream. Out: bytes, the same for the same scene: no clock and no random ids. ``formats`` lists
what can be written and picks the writer; ``files`` is the one place that opens files to be written.
"""
