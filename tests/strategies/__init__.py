"""Hypothesis strategies for whole books."""

from strategies.books import books, questions, random_book, random_moments

__all__ = ["books", "questions", "random_book", "random_moments"]
