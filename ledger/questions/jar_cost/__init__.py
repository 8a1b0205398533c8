"""The question what each jar really cost, all in and out of pocket, against the shop's price."""

from ledger.questions.jar_cost.question import COLUMNS, PROJECTION, build
from ledger.questions.jar_cost.why import why

__all__ = ["COLUMNS", "PROJECTION", "build", "why"]
