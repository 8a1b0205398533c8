"""How a recipe of the plan is made."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    pass

__all__ = ["Way"]


@dataclass(frozen=True)
class Way:
    """How a recipe of the plan is made: its method, the batch it is from (None: as printed), the process."""

    method: str
    ev: int | None
    process: str
    hours_known: bool
