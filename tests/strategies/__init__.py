"""Hypothesis strategies for whole books."""

from strategies.books import books, questions, random_book, random_moments
from strategies.gardens import garden_book
from strategies.smaller import smallest, without

__all__ = [
    "books",
    "garden_book",
    "questions",
    "random_book",
    "random_moments",
    "smallest",
    "without",
]
