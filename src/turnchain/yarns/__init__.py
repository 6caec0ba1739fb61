"""Colours and yarn: stripe orders, the stash, how much is needed, carrying."""
