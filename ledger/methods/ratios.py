"""Self-sufficiency ratios as food balance sheets define them.

Mass, energy and money give different ratios for one year, a ratio may be far above one, and an
undefined ratio is None, never 0 (the rules of FAO's trade indicators and of the Japanese ratios).
"""

from __future__ import annotations

import math

from ledger.errors import InputError
from ledger.messages import Message

__all__ = ["domestic_supply", "feed_adjusted", "ratio", "self_sufficiency"]


def ratio(part: float | None, whole: float | None) -> float | None:
    """Return part / whole, or None where that is not defined.

    This is the eaten-based share: what was our own of what was eaten, and the calorie-based
    ratio of the Japanese food balance (domestic kcal per person and day / supplied kcal per
    person and day).

    Parameters
    ----------
    part, whole : float or None
        In one unit (g, kcal or money); None is a thing not known.

    Returns
    -------
    float or None
        May exceed 1. None where `whole` is not above zero, or either is not known.

    References
    ----------
    FAO Statistics Division, trade indicators script (undefined ratios are missing).
    MAFF Japan, calorie-based ratio, as quoted by todo-ran.com (fiscal 2015).

    Examples
    --------
    >>> round(ratio(954, 2417), 4)
    0.3947
    """
    if part is None or whole is None or not (math.isfinite(part) and math.isfinite(whole)):
        return None
    return part / whole if whole > 0 else None


def domestic_supply(
    production: float, imports: float, exports: float, stock_change: float = 0.0
) -> float:
    """Return production + imports - exports - stock change, in the unit given.

    Parameters
    ----------
    production, imports, exports : float
        For a household: grown, bought or received, given away.
    stock_change : float
        Closing stock less opening stock.

    References
    ----------
    FAO, Standardization and Balancing for Food Balance Sheet Calculation (2018): the balance
    identity, stock change taken as closing less opening.
    """
    return production + imports - exports - stock_change


def self_sufficiency(
    production: float, imports: float, exports: float = 0.0, stock_change: float = 0.0
) -> float | None:
    """Return the self-sufficiency ratio, production / domestic supply.

    With `stock_change` left at 0 it is FAO's ratio production / (production + imports -
    exports); with it, the item ratio of the Japanese balance, whose denominator is what was
    used at home.

    Parameters
    ----------
    production, imports, exports, stock_change : float
        As for `domestic_supply`.

    Returns
    -------
    float or None
        Above 1 for a net exporter. None where nothing was supplied (the denominator is zero),
        and where more left than ever came in (it is negative), which no balance sheet defines.

    References
    ----------
    FAO Statistics Division, trade indicators script: SSR; FAO, Food Balance Sheets: A Handbook
    (2001), from memory. Japan: rice-nice.jp, formulas of the item ratio.

    Examples
    --------
    >>> round(self_sufficiency(10865, 36, 8326), 3)  # cocoa beans, Madagascar, 2014
    4.219
    """
    return ratio(production, domestic_supply(production, imports, exports, stock_change))


def feed_adjusted(own: float, feed_self_sufficiency: float | None) -> float | None:
    """Return the part of our own animal products that our own feed made.

    Parameters
    ----------
    own : float
        Our own animal products, in any unit.
    feed_self_sufficiency : float or None
        Share of the feed that was grown at home, 0 to 1; a larger one counts as 1 (feed sold
        does not make eggs).

    Returns
    -------
    float or None
        `own` x the share; None where the share is not known.

    Raises
    ------
    InputError
        When the share is negative.

    References
    ----------
    MAFF Japan: animal products are scaled by the feed self-sufficiency rate, as stated by
    Ishikawa Prefecture (fiscal 2010) and Kumamoto Prefecture.
    """
    if feed_self_sufficiency is None:
        return None
    if feed_self_sufficiency < 0:
        raise InputError(
            "feed",
            Message.of("refusal-share-of", n=feed_self_sufficiency),
            Message.of("refusal-zero-or-more"),
        )
    return own * min(feed_self_sufficiency, 1.0)
