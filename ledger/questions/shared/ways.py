"""Ways to put a crop up that are published: looked up anew for the jar, gauge and altitude of today.

A canner process counts only whole: for the very product, confirmed, at the altitude, for the gauge and the
jar (or the next larger jar that is printed). Where several packs are printed one of them is taken whole.
What is missing, or not printed, is said and nothing is put in its place.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from ledger.errors import LedgerError
from ledger.messages import fixed, sentence
from ledger.messages.units import amount
from ledger.published.batch import JarsDone, altitude_ft
from ledger.published.finding import find, lines_of
from ledger.published.jars import jar_ul
from ledger.published.keeping import keeps_for
from ledger.published.outline import LOADS, jar_finding
from ledger.published.processes import Process, published_for
from ledger.published.words import cite, label, labels
from ledger.reference.schedules import products
from ledger.reference.winter import figure
from ledger.reference.yields import quantities

if TYPE_CHECKING:
    from ledger.published.judging import Judgement
    from ledger.reference.schedules import Schedule
    from ledger.replay import State

__all__ = ["Canned", "canned_ways", "frozen_says", "hands_a_kg", "hands_a_load", "kitchen_lacks", "process_now", "stove_hours"]  # fmt: skip

_WHOLE = ("fruit", "tomato", "vegetable")
_VENT, _HEAT, _COOL = 10 / 60, 0.5, 0.75
"""Hours: venting (published, 10 minutes), heating up and cooling (common practice, from memory)."""
_LOAD_LB = 21.0


@dataclass(frozen=True)
class Canned:
    """A product that a crop may be canned as, in a jar that the household has.

    Attributes
    ----------
    product : str
        As it is called.
    process : Process
    jar : str
        The household's name of it.
    lb : float
        Fresh, for one jar, by the published canner loads.
    lb_from : str
        The document of that.
    """

    product: str
    process: Process
    jar: str
    lb: float
    lb_from: str


def kitchen_lacks(state: State, method: str) -> str | None:
    """Return what has to be known of the kitchen before a process can be looked up; None where all is."""
    altitude = state.settings.on("altitude", state.as_of_day)
    if not altitude:
        return sentence("ways-no-altitude")
    if method == "pressure":
        if state.settings.on("gauge", state.as_of_day) not in ("dial", "weighted"):
            return sentence("ways-no-gauge")
        off = _gauge_off(state)
        if off is not None:
            return off
    return None


def _gauge_off(state: State) -> str | None:
    from ledger.questions.shared.gauges import gauge_tests

    if state.settings.on("gauge", state.as_of_day) != "dial":
        return None
    newest = {
        test.gauge: test
        for test in sorted(gauge_tests(state), key=lambda test: (test.day, test.ev))
    }
    if any(not test.is_right for test in newest.values()):
        return sentence("ways-gauge-off")
    return None


def _here(state: State, lines: Iterable[Schedule]) -> list[Process]:
    """Return the whole, confirmed processes of some lines at today's altitude and gauge."""
    try:
        altitude = altitude_ft(state.settings.on("altitude", state.as_of_day))
    except LedgerError:  # what an older version wrote down
        altitude = None
    if altitude is None:
        return []
    found = published_for(lines, altitude, state.settings.on("gauge", state.as_of_day) or None)
    return [one for one in found if one.confirmed]


def process_now(
    state: State, judged: Judgement, method: str, jar: str, pack: str | None
) -> Process | str:
    """Return today's process for a product of one's own, or why there is none.

    Parameters
    ----------
    state : State
    judged : Judgement
        Of the newest batch that stands as published: it says which product it is.
    method : {'boiling water', 'pressure'}
    jar : str
    pack : str or None
        As in that batch; a process of another pack is another process.
    """
    lacks = kitchen_lacks(state, method)
    if lacks is not None:
        return lacks
    if len(judged.products) != 1:
        return sentence("ways-product-open")
    product = judged.products[0]
    if not lines_of(product, method):
        return sentence("ways-not-by", product=label(product), method=fixed(method))
    lines, found = jar_finding(lines_of(product, method), JarsDone(jar, 0))
    if found.kind != "as published":
        return found.text
    lines = [line for line in lines if line.pack in (pack, "unstated") or pack is None]
    processes = _here(state, lines)
    if not processes:
        return sentence("ways-none-confirmed")
    return _chosen(processes)


def _chosen(processes: list[Process]) -> Process:
    """Return one process, whole: hot packed where that is printed, the first option of it."""
    return min(processes, key=lambda one: (one.schedule.pack == "raw", one.option, -one.minutes))


def canned_ways(state: State, crop: str, jars: Iterable[str]) -> tuple[list[Canned], list[str]]:
    """Return how a crop may be canned in some jars, and what is to be said of what may not.

    Only what is the crop itself counts: pickles, relishes and jams are recipes of their own.
    """
    fit = find(crop).candidates
    if not fit:
        return [], [sentence("ways-no-canning", crop=crop)]
    whole = [key for key in fit if products()[key].group in _WHOLE and _load(key) is not None]
    if not whole:
        return [], [sentence("ways-only-as", crop=crop, products=labels(fit))]
    out: list[Canned] = []
    said: dict[str, str] = {}
    for key in whole:
        for method in ("boiling water", "pressure"):
            lines = lines_of(key, method)
            if not lines:
                continue
            lacks = kitchen_lacks(state, method)
            if lacks is not None:
                said[method] = sentence(
                    "ways-lacks", product=label(key), method=fixed(method), why=lacks
                )
                continue
            found = [one for jar in sorted(jars) if (one := _canned(state, key, lines, jar))]
            if not found:
                said[method] = sentence("ways-no-jar", product=label(key), method=fixed(method))
            out += found
        if out:
            break  # one product of a crop is enough: the plan is of the glut, not of the menu
    return out, [] if out else list(said.values())


def _canned(state: State, key: str, lines: Iterable[Schedule], jar: str) -> Canned | None:
    fit, found = jar_finding(list(lines), JarsDone(jar, 0))
    if found.kind != "as published":
        return None
    processes = _here(state, fit)
    pounds = _load(key)
    volume, quart, pint = jar_ul(jar), jar_ul("quart"), jar_ul("pint")
    if not processes or pounds is None or not volume or not quart or not pint:
        return None
    by_quart, by_pint, where = pounds
    if by_pint is not None and volume <= pint:
        lb = by_pint * volume / pint
    elif by_quart is not None:
        lb = by_quart * volume / quart
    else:
        assert by_pint is not None
        lb = by_pint * volume / pint
    return Canned(label(key), _chosen(processes), jar, lb, where)


def _load(key: str) -> tuple[float | None, float | None, str] | None:
    """Return pounds of fresh produce for a quart and for a pint, by published canner loads, and where."""
    for row in quantities(key):
        if row.basis == "canner_load" and row.confirmed:
            quarts, pints = row.lb_per_7_quarts, row.lb_per_9_pints
            if quarts or pints:
                return (
                    None if quarts is None else float(quarts / LOADS["quart"]),
                    None if pints is None else float(pints / LOADS["pint"]),
                    cite(row.source),
                )
    return None


def frozen_says(crop: str) -> str | None:
    """Return the published period of a crop in the freezer, with its source; None where none is printed."""
    keeping = keeps_for("food", "freeze", crop, "freezer")
    return (
        None
        if keeping is None
        else sentence("ways-frozen", span=amount(keeping.span), source=keeping.source)
    )


def stove_hours(method: str, minutes: float) -> float:
    """Return hours of stove for one canner load: heating up, venting, the process, cooling under pressure."""
    return _HEAT + (_VENT + _COOL if method == "pressure" else 0.0) + minutes / 60


def hands_a_load() -> float:
    """Return hands' hours for a load of 7 quarts: the middle of a guess without a source."""
    return figure("glut", "hands", "hours to peel, fill and clear, per load of 7 quarts").middle


def hands_a_kg() -> float:
    """Return hands' hours for a kilogram that is frozen, by the same guess: a load of 7 quarts takes 21 lb."""
    return hands_a_load() / (_LOAD_LB * 0.45359237)
