"""What was printed, held against the worked cloth.

In: ``WorkedCloth`` s as ``proof.cloth`` measures them, figures as ``proof.printed`` reads them. Out: every figure that
is not so, in words. ``measures`` is the place to begin; ``sewn``, ``yarns`` and ``captions`` stand beside it.
"""
