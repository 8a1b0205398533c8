"""What lots cost, as figures: bought, grown, worked and worn, down to the events.

`lots.CostFigures` is its door; `charges`, `garden` and `durables` are its parts, `sources` hands out
columns of the replay with their events, and `addresses` opens what has an address of its own.
"""

from ledger.questions.costs.labels import LABELS
from ledger.questions.costs.lots import CostFigures

__all__ = ["LABELS", "CostFigures"]
