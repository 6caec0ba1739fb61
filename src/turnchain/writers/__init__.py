"""Writers turn a finished scene into files; nothing in them is about crochet.

In: a scene and a binary stream. Out: bytes, the same for the same scene: no time and no random ids. ``formats`` lists
what can be written and picks the writer; ``files`` is the one place that opens files to be written.
"""
