"""The languages that patterns are told in: a package for each, whose ``table`` puts its phrases together."""
