"""Fixtures of the tests of circles."""

from circle_tools import circle, hand_in, rng, season

__all__ = ["circle", "hand_in", "rng", "season"]
