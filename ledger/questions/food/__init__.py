"""What food weighs, holds and is worth, as figures by where it came from: lots, batches at any depth, meals.

`amounts.FoodFigures` is its door; `contents` says what a unit of each item holds, `portions` what was
taken of lots, `carried` what batches carry on, `eaten` what was on the table, `feed` what the animals
were given, `web` how lots go into batches; `addresses` opens what has an address of its own.
"""

from ledger.questions.food.amounts import FoodFigures
from ledger.questions.food.bases import BASES, SIX
from ledger.questions.food.labels import LABELS

__all__ = ["BASES", "LABELS", "SIX", "FoodFigures"]
