"""A gauge found off: which loads it was on, and the pressure that they truly had."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from ledger.amounts import pressure_psi
from ledger.errors import InputError
from ledger.items import item_key
from ledger.kinds import METHODS, tell
from ledger.messages import Choice, Day, joined, measured, sentence
from ledger.published import Finding, Judgement
from ledger.replay import tables
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = [
    "GaugeOff",
    "GaugeTest",
    "gauge_tests",
    "is_dial_load",
    "loads_of",
    "off_of",
    "recalled",
    "test_line",
    "with_gauge",
]

_ADJUST = 2
"""Up to so many psi a gauge may be adjusted; loads beyond are short as a whole (ISU_GAUGE, MU_GAUGE)."""
_SOURCE = (
    "Iowa State University Extension, about 2015; University of Missouri Extension, about 2020"
)
_CANNERS = frozenset(
    [
        "canner",
        "cooker",
        "kettle",
        "pot",
        "autoclave",
        "topf",
        "kochtopf",
        "einkochtopf",
        "dampfdruckkanner",
        "einkocher",
    ]
)
"""Words by which a piece of equipment names itself as what a load was in."""
_WORST = Fraction(20)


@dataclass(frozen=True)
class GaugeTest:
    """One test: its event, its day (days since 1970), the gauge's key, and psi read too high."""

    ev: int
    day: int
    gauge: str
    name: str
    high: Fraction

    @property
    def is_right(self) -> bool:
        """Whether loads before it were not under-processed by this gauge."""
        return self.high <= 0


@dataclass(frozen=True)
class GaugeOff:
    """What a test makes of one load.

    Attributes
    ----------
    high : Fraction
        Psi that the dial read too high.
    read : Fraction or None
        Psi as written down.
    test : GaugeTest
    tests : tuple of GaugeTest
        All that speak against it; `test` is the one by which it read highest.
    """

    high: Fraction
    read: Fraction | None
    test: GaugeTest
    tests: tuple[GaugeTest, ...] = ()

    @property
    def psi(self) -> Fraction | None:
        """The pressure that the load truly had; None where none was written down."""
        return None if self.read is None else max(self.read - self.high, Fraction(0))

    @property
    def is_short(self) -> bool:
        """Whether the load is short as a whole, whatever its figures say."""
        return self.high > _ADJUST

    @property
    def text(self) -> str:
        """Why the pressure that is judged is another than the one written down."""
        is_read = self.read is not None and self.psi is not None
        what = ("both" if is_read else "short") if self.is_short else "read" if is_read else "plain"
        return sentence(
            "gauge-was-off",
            what=Choice(what),
            name=None if self.test.gauge == "dial" else self.test.name,
            high=measured(_said(self.high)),
            day=Day(day_text(self.test.day)),
            read=None if self.read is None else measured(_said(self.read)),
            true=None if self.psi is None else measured(_said(self.psi)),
            source=_SOURCE,
        )

    @property
    def finding(self) -> Finding:
        """The finding of a load that is short as a whole."""
        return Finding("gauge", 0, float(self.high), "short of it", self.text)


def _said(value: Fraction) -> str:
    return f"{float(value):.2f}".rstrip("0").rstrip(".")


def gauge_tests(state: State) -> list[GaugeTest]:
    """Return every test that counts, in the order of the book."""
    kept, tests = state.lasting(gauge_tests), state.bodies("gauge_tested")
    evs = tuple(ev for ev, _ in tests)
    if evs not in kept:
        kept.clear()
        kept[evs] = [
            GaugeTest(
                ev,
                int(state.moment.on[ev]),
                item_key(body["gauge"]),
                str(body["gauge"]),
                _high(body["reads"]),
            )
            for ev, body in tests
        ]
    found: list[GaugeTest] = kept[evs]
    return found


def _high(text: str) -> Fraction:
    try:
        return Fraction(text.removesuffix("psi").strip())
    except ValueError:
        return _WORST  # written past the door: not taken for right


def is_dial_load(state: State, ev: int, body: Mapping[str, Any]) -> bool:
    """Return whether a load was under pressure by a dial, or by a gauge that nobody wrote down.

    Weighted gauges are not recalled.
    """
    if body["method"] != "pressure":
        return False
    gauge = body.get("gauge") or state.settings.on("gauge", int(state.moment.on[ev]))
    return bool(gauge != "weighted")


def _is_of(state: State, gauge: str, body: Mapping[str, Any], tested: frozenset[str]) -> bool:
    """Return whether a load may have been on a gauge: on it by name, or on none that has a name."""
    named = {item_key(name) for name in body.get("equipment") or ()}
    if gauge == "dial" or gauge in named:
        return True
    canon = state.facts.find(gauge)
    if canon is not None and canon in {state.facts.find(name) for name in named}:
        return True
    return not any(one in tested or _CANNERS & set(one.split()) for one in named)


def recalled(tests: list[GaugeTest], day: int) -> GaugeTest | None:
    """Return the test by which a load of a day read highest; None where no test speaks against it."""
    return max(_against(tests, day), key=lambda one: one.high, default=None)


def _against(tests: list[GaugeTest], day: int) -> list[GaugeTest]:
    """Return the tests that speak against a load of a day.

    Parameters
    ----------
    tests : list of GaugeTest
        Of one gauge, in order.
    day : int
        Days since 1970.

    Returns
    -------
    list of GaugeTest
        The last test before it, and of those from its day on until one that was right: a
        gauge does not mend by itself, and which came first on one day nobody knows.
    """
    against = []
    before = [one for one in tests if one.day < day]
    if before and not before[-1].is_right and not _is_right_on(tests, day):
        against.append(before[-1])
    for one in tests:
        if one.day < day:
            continue
        if one.is_right and one.day > day:
            break
        if not one.is_right:
            against.append(one)
    return against


def _is_right_on(tests: list[GaugeTest], day: int) -> bool:
    """Return whether the tests of a day, of which there are some, were all right."""
    there = [one for one in tests if one.day == day]
    return bool(there) and all(one.is_right for one in there)


def off_of(state: State, ev: int, body: Mapping[str, Any]) -> GaugeOff | None:
    """Return what the household's gauge tests make of a load; None where nothing gets worse."""
    tests = state.once(gauge_tests)
    known = state.lasting(off_of).get(ev)
    if known is None or known[0] is not tests:
        known = state.lasting(off_of)[ev] = tests, _off_of(state, ev, body, tests)
    found: GaugeOff | None = known[1]
    return found


def _off_of(
    state: State, ev: int, body: Mapping[str, Any], tests: list[GaugeTest]
) -> GaugeOff | None:
    if not tests or not is_dial_load(state, ev, body):
        return None
    day, tested = int(state.moment.on[ev]), frozenset(one.gauge for one in tests)
    found = [
        one
        for gauge in sorted(tested)
        if _is_of(state, gauge, body, tested)
        for one in _against([one for one in tests if one.gauge == gauge], day)
    ]
    if not found:
        return None
    worst = max(found, key=lambda one: one.high)
    return GaugeOff(worst.high, _read(body.get("psi")), worst, tuple(found))


def _read(said: object) -> Fraction | None:
    try:
        return pressure_psi(said)
    except InputError:
        return None


def with_gauge(found: Judgement, off: GaugeOff | None) -> Judgement:
    """Return a judgement at the true pressure that says why it is another than was written down."""
    if off is None:
        return found
    if off.is_short:
        return replace(found, findings=(off.finding, *found.findings))
    told = tuple(
        replace(one, text=joined(" ", (one.text, off.text))) if one.field == "psi" else one
        for one in found.findings
    )
    if told == found.findings:
        return replace(found, notes=(*found.notes, off.text))
    return replace(found, findings=told)


def loads_of(state: State, gauge: str) -> list[int]:
    """Return the loads to look at for a gauge: those since the last test that was right.

    Parameters
    ----------
    gauge : str
        ``dial``, or a piece of equipment.
    """
    key, tests = item_key(gauge), state.once(gauge_tests)
    mine = [one for one in tests if one.gauge == key]
    tested = frozenset(one.gauge for one in tests) | {key}
    right = max((one.day for one in mine if one.is_right), default=None)
    batches, equipment = state.journal.tables["batches"], state.journal.tables["equipment"]
    rows = state.moment.of(batches["ev"])
    loads = rows[batches["method"][rows] == METHODS.index("pressure")]
    named: dict[int, list[str]] = {}
    for ev, item in zip(equipment["ev"].tolist(), equipment["item"].tolist(), strict=True):
        named.setdefault(ev, []).append(state.journal.items.texts[item])
    out = []
    for ev, code in zip(
        batches["ev"][loads].tolist(), batches["gauge"][loads].tolist(), strict=True
    ):
        day = int(state.moment.on[ev])
        body = {"method": "pressure", "gauge": tables.GAUGES[code], "equipment": named.get(ev)}
        is_since = right is None or day >= right
        if not is_since and recalled(mine, day) is None:
            continue
        if is_dial_load(state, ev, body) and _is_of(state, key, body, tested):
            out.append(ev)
    return sorted(out)


def test_line(state: State, test: GaugeTest) -> str:
    """Return a test as one readable line."""
    line = tell("gauge_tested", state.body(test.ev))
    return sentence("told-on", day=Day(day_text(test.day)), line=line)
