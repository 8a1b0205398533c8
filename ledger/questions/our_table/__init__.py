"""The question what share of what we ate was our own, by energy, by weight and by shop value."""

from ledger.questions.our_table.question import COLUMNS, PROJECTION, build
from ledger.questions.our_table.why import why

__all__ = ["COLUMNS", "PROJECTION", "build", "why"]
