"""From a pattern to its plan: wanted shapes, exact fitting, measures and warnings."""
