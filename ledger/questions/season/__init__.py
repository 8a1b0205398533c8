"""The question what the season gave, against last year, what is published and what was wanted."""

from ledger.questions.season.question import COLUMNS, PROJECTION, build
from ledger.questions.season.why import why

__all__ = ["COLUMNS", "PROJECTION", "build", "why"]
