"""What the sources say of jars that fell short or did not seal: by citation, in our own words."""

from __future__ import annotations

from dataclasses import dataclass

from ledger.published.judging import Judgement
from ledger.published.remedy import figure as _figure
from ledger.published.words import cite, inches, number
from ledger.reference.storage import figures

__all__ = ["Advice", "after_batch", "unsealed_jars"]


@dataclass(frozen=True)
class Advice:
    """One thing to do, and the document that says so."""

    text: str
    source: str


def unsealed_jars() -> list[Advice]:
    """Return what to do with jars that were processed as published and did not seal."""
    again = _figure("reprocess_deadline", "correct process")
    cold, ice = _figure("fridge_period"), _figure("freeze_headspace", publisher="Michigan")
    less = _figure("freeze_headspace", publisher="Kansas")
    return [
        Advice(
            f"Within {number(again.high)} hours: open the jar, look for a nick in the rim, fill it again "
            "leaving the printed headspace, take a new lid and run the whole published process again.",
            cite(again.source),
        ),
        Advice(
            f"Or put it into the refrigerator and eat it within {number(cold.high)} week at the most "
            "(two of the sources say a few days).",
            cite(cold.source),
        ),
        Advice(
            f"Or freeze it, with {inches(ice.high)} of room at the top ({inches(less.high)} by another source).",
            f"{cite(ice.source)}; {cite(less.source)}",
        ),
    ]


def after_batch(judgement: Judgement, hours: float | None = None) -> list[Advice]:
    """Return what to do after a batch, as the sources say it.

    Parameters
    ----------
    judgement : Judgement
    hours : float, optional
        Since the process ended; None is not known.

    Returns
    -------
    list of Advice
        Empty where every figure written down reaches the published one.
    """
    if judgement.standing in ("as published", "beyond it"):
        return []
    if judgement.standing in ("not recorded", "to check yourself"):
        return [
            Advice(
                "Write down what is missing, or look it up, before the jars go on the shelf. Until then "
                "treat them as jars that fell short.",
                "our own advice",
            ),
            *_short(hours),
        ]
    if judgement.standing in ("no published process", "against every published process"):
        ask = Advice(
            "Nothing published covers this batch, so nothing says how it stands. Ask an extension adviser, "
            "with the recipe and these figures, before anybody eats of it.",
            "our own advice",
        )
        return [ask, *_short(hours)[:-1]]
    return _short(hours)


def _short(hours: float | None) -> list[Advice]:
    wrong, right = (_figure("reprocess_deadline", c) for c in ("wrong process", "correct process"))
    cold = _figure("fridge_period")
    out = []
    if hours is None or hours <= wrong.high:
        out.append(
            Advice(
                f"Where the process itself was too short, too cool or the wrong one, it is to be run anew, "
                f"whole and with new lids, within {number(wrong.high)} hours; only jars that had the right "
                f"process and did not seal have {number(right.high)}.",
                f"{cite(wrong.source)}; {cite(right.source)}",
            )
        )
        out.append(
            Advice(
                "Else within the same time refrigerate them (a few days), or freeze them.",
                cite(cold.source),
            )
        )
    if hours is None or hours > wrong.high:
        boil = next(f for f in figures("safety", "home_canned_low_acid", "boil_before_eating"))
        out.append(
            Advice(
                f"More than {number(wrong.high)} hours after the process, or where that is not known: do not taste "
                "it, not even a little. Discard it so that no person or animal eats it. Older advice was to boil "
                "it before eating; since 2013 the advice is to discard.",
                cite(boil.source),
            )
        )
    out.append(
        Advice(
            "When in doubt ask an extension adviser, with this batch's figures.", "our own advice"
        )
    )
    return out
