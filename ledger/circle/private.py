"""What the public is told: noisy histograms by OpenDP. The only file that imports it.

Neighbouring circles differ by one household's whole sheet, which is at most one bin of each of F figures:
the counts differ by F in the L1 norm, and discrete Laplace noise of scale F / epsilon on every count makes
the whole release epsilon-differentially private (Dwork, McSherry, Nissim, Smith 2006; from memory).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.circle.told import Asked, told_of
from ledger.errors import InputError
from ledger.messages import Message

if TYPE_CHECKING:
    from ledger.circle.call import Call
    from ledger.circle.keep import Held
    from ledger.replay.columns import Array

__all__ = ["histograms", "how_many", "needs_library", "quartiles_of"]

_MOST = 24
_CARDS_A_FIGURE = 80
"""Cards times epsilon for each figure: where the noise of a quartile comes down to its error of sampling."""
_DRAWS = 200


def needs_library() -> Any:
    """Return OpenDP.

    Raises
    ------
    InputError
        It is not installed.
    """
    try:
        import opendp.prelude as dp
    except ImportError:
        problem = Message.of("refusal-needs-opendp")
        raise InputError("private", problem, Message.of("refusal-install-many")) from None
    dp.enable_features("contrib")
    return dp


def how_many(cards: int, milli: int, call: Call) -> int:
    """Return how many figures so many cards and so much epsilon carry.

    Raises
    ------
    InputError
        Not one.
    """
    figures = min(_MOST, cards * milli // (1000 * _CARDS_A_FIGURE), len(told_of(call)))
    if figures < 1:
        least = _CARDS_A_FIGURE / cards
        raise InputError(
            "epsilon",
            Message.of("refusal-epsilon-too-small", spent=milli / 1000, cards=cards, least=least),
        )
    return figures


@dataclass(frozen=True)
class _Piece:
    """The bins of one cell within the vector of counts."""

    asked: Asked
    group: dict[str, str]
    zone: str | None
    start: int

    @property
    def bins(self) -> int:
        return len(self.asked.told.edges) - 1

    @property
    def here(self) -> slice:
        return slice(self.start, self.start + self.bins)


def _pieces(call: Call, figures: int) -> list[_Piece]:
    out: list[_Piece] = []
    at = 0
    for asked in told_of(call)[:figures]:
        for zone in call.zones if asked.is_by_zone else (None,):
            group = dict(asked.group) if zone is None else {**asked.group, "zone": zone}
            out.append(_Piece(asked, group, zone, at))
            at += out[-1].bins
    return out


def _counts(pieces: Sequence[_Piece], held: Sequence[Held]) -> Array:
    """Return the counts of all bins of all cells, shape (bins,)."""
    out = np.zeros(sum(piece.bins for piece in pieces), np.int64)
    for piece in pieces:
        values = [
            value
            for one in held
            if piece.zone in (None, one.zone)
            and (value := piece.asked.value(one.figures)) is not None
        ]
        out[piece.here] = np.histogram(values, bins=[*piece.asked.told.edges[:-1], np.inf])[0]
    return out


def histograms(call: Call, held: Sequence[Held], figures: int, milli: int) -> list[dict[str, Any]]:
    """Return the cells of a release to the public, the first `figures` figures of the call.

    Parameters
    ----------
    milli : int
        Epsilon of all of them together, in thousandths; it is spent already.
    """
    pieces = _pieces(call, figures)
    scale = 1000 * figures / milli
    noisy = _noised(_counts(pieces, held), figures, milli / 1000)
    cells = []
    for piece in pieces:
        told, bins = piece.asked.told, noisy[piece.here]
        said = quartiles_of(bins, told.edges, told.step, scale)
        reach = _reach(bins, told.edges, told.step, scale) if said[1] is not None else (None, None)
        cells.append(
            {
                "figure": told.name, "group": piece.group, "edges": list(told.edges), "noisy": bins.tolist(),
                "scale": scale, "low": said[0], "middle": said[1], "high": said[2],
                "middle_from": reach[0], "middle_to": reach[1],
            }
        )  # fmt: skip
    return cells


def mechanism(figures: int, epsilon: float) -> Any:
    """Return OpenDP's measurement: discrete Laplace noise of scale figures / epsilon on a vector of counts."""
    dp = needs_library()
    space = dp.vector_domain(dp.atom_domain(T=int)), dp.l1_distance(T=int)
    made = dp.m.make_laplace(*space, scale=figures / epsilon)
    if made.map(figures) > epsilon + 1e-9:
        raise AssertionError("the mechanism spends more than was written down")
    return made


def _noised(counts: Array, figures: int, epsilon: float) -> Array:
    return np.array(mechanism(figures, epsilon)(counts.tolist()), np.int64)


def quartiles_of(
    noisy: Array, edges: Sequence[int], step: int, scale: float
) -> tuple[int | None, int | None, int | None]:
    """Return low, middle and high of a noisy histogram; None where the noise is most of it.

    Cumulative counts are made monotone first (isotonic regression), after the noise and so free
    of privacy; within a bin values are taken to lie evenly.
    """
    from scipy.optimize import isotonic_regression

    cumulative = np.maximum(isotonic_regression(np.cumsum(noisy)).x, 0)
    # The sum of k counts carries noise of about scale * sqrt(2 k).
    if cumulative[-1] < 2 * scale * np.sqrt(2 * noisy.size):
        return None, None, None
    low, middle, high = (
        round(_at(share * cumulative[-1], cumulative, edges) / step) * step
        for share in (0.25, 0.5, 0.75)
    )
    return low, middle, high


def _at(target: float, cumulative: Array, edges: Sequence[int]) -> float:
    at = int(np.searchsorted(cumulative, target))
    below = cumulative[at - 1] if at else 0.0
    share = (target - below) / (cumulative[at] - below) if cumulative[at] > below else 0.0
    first, last = list(pairwise(edges))[at]
    return float(first + share * (last - 1 - first))


def _reach(
    noisy: Array, edges: Sequence[int], step: int, scale: float
) -> tuple[int | None, int | None]:
    """Return from where to where the middle reaches nine times of ten, by noise of the same scale laid on again.

    Made from what is told alone, by a generator of its own that starts from it.
    """
    rng = np.random.default_rng([abs(int(one)) for one in noisy])
    p = 1 - np.exp(-1 / scale)
    noise = rng.geometric(p, (_DRAWS, noisy.size)) - rng.geometric(p, (_DRAWS, noisy.size))
    middles = [
        said
        for row in np.maximum(noisy, 0) + noise
        if (said := quartiles_of(row, edges, step, scale)[1]) is not None
    ]
    if len(middles) < _DRAWS // 2:
        return None, None
    low, high = np.percentile(middles, [5, 95])
    return round(low), round(high)
