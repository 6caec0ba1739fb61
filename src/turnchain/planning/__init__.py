"""From a pattern to its plan: wanted shapes, exact fitting, measures and doubts."""

from turnchain.planning.planner import plan_pattern

__all__ = ["plan_pattern"]
