"""What the sources say of jars that fell short or did not seal: by citation, in our own words."""

from __future__ import annotations

from dataclasses import dataclass

from ledger.messages import sentence
from ledger.published.judging import Judgement
from ledger.published.remedy import figure as _figure
from ledger.published.words import cite, figure, inches
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
            sentence("published-unsealed-again", n=figure(again.high)),
            cite(again.source),
        ),
        Advice(
            sentence("published-unsealed-cold", n=figure(cold.high)),
            cite(cold.source),
        ),
        Advice(
            sentence("published-unsealed-freeze", x=inches(ice.high), x2=inches(less.high)),
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
            Advice(sentence("published-write-down-missing"), _ours()),
            *_short(hours),
        ]
    if judgement.standing in ("no published process", "against every published process"):
        ask = Advice(sentence("published-nothing-covers"), _ours())
        danger = judgement.danger
        anew = not judgement.is_ruled_out and (danger is None or danger.anew)
        return [ask, *_short(hours, anew=anew)[:-1]]
    return _short(hours)


def _short(hours: float | None, *, anew: bool = True) -> list[Advice]:
    """Return what is left to do; nothing is run `anew` that is published for no canner."""
    wrong, right = (_figure("reprocess_deadline", c) for c in ("wrong process", "correct process"))
    cold = _figure("fridge_period")
    out = []
    in_time = hours is None or hours <= wrong.high
    if in_time and not anew:
        out.append(
            Advice(sentence("published-cold-alone", n=figure(wrong.high)), cite(cold.source))
        )
    elif in_time:
        out.append(
            Advice(
                sentence("published-run-anew", n=figure(wrong.high), n2=figure(right.high)),
                f"{cite(wrong.source)}; {cite(right.source)}",
            )
        )
        out.append(Advice(sentence("published-else-cold"), cite(cold.source)))
    if hours is None or hours > wrong.high:
        boil = next(f for f in figures("safety", "home_canned_low_acid", "boil_before_eating"))
        out.append(Advice(sentence("published-too-late", n=figure(wrong.high)), cite(boil.source)))
    out.append(Advice(sentence("published-when-in-doubt"), _ours()))
    return out


def _ours() -> str:
    return sentence("published-our-own-advice")
