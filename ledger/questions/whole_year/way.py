"""How a recipe of the plan is made."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    pass

__all__ = ["Way"]


@dataclass(frozen=True)
class Way:
    """How a recipe of the plan is made: its method, the batch it is from (None: as printed), the process.

    `batches` are those whose minutes count, `lot` is the batch's own, of which one unit is so many whole
    units; `lb_from` says where a printed weight is from.
    """

    method: str
    ev: int | None
    process: str
    batches: tuple[int, ...] = ()
    lot: int = -1
    whole: float = 0.0
    lb_from: str = ""
