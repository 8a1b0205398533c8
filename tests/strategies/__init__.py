"""Hypothesis strategies for whole books."""

from strategies.books import books, questions, random_book, random_moments
from strategies.smaller import smallest, without

__all__ = ["books", "questions", "random_book", "random_moments", "smallest", "without"]
