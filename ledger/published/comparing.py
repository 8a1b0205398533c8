"""One batch beside one complete printed process, field by field."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction

from ledger.amounts import parse_amount, pressure_psi
from ledger.errors import LedgerError
from ledger.messages import Choice, joined, measured, sentence
from ledger.published.batch import AcidDone, BatchDone, Finding, Used
from ledger.published.jars import jar_ul
from ledger.published.parts import parts_of
from ledger.published.processes import Process
from ledger.published.strength import is_bottled, strength_of
from ledger.published.words import (
    acid_text,
    band,
    cite,
    cited,
    figure,
    fixed,
    inches,
    listed,
    number,
    pack_word,
    plain,
    sizes_word,
)
from ledger.reference.schedules_sources import source

__all__ = ["acid_done", "compare", "kind_of"]

_SLIP, _SLIP_MINUTES = 3, 30
_OVER_PSI, _DIAL_TO = 4, 20
_ON_WEIGHTS = frozenset({Fraction(5), Fraction(10), Fraction(15)})
_WEIGHTS = ((34, 5), (69, 10), (103, 15))
"""kPa that makers print on a weight, and its psi (CANNER_METRIC)."""
_BAR, _BAR_PSI = 2, Fraction("14.50377")
_BY_SIZE = frozenset(f"lima_beans_shelled-raw-quart-{gauge}-1" for gauge in ("dial", "wt"))
_SMALL = Fraction(3, 2)
"""Headspace of small lima beans packed raw in quarts (AIB539_1994_LIMA): the table gives that of large ones."""
_NEEDLE = Fraction(1, 10)
_RULER_IN = Fraction(1, 25)
"""A millimetre: what a ruler shows in a kitchen."""
_OVER_IN = Fraction(1, 4)


def kind_of(published: Fraction, done: Fraction | None) -> str:
    """Return how what was done stands to a published figure."""
    if done is None:
        return "not recorded"
    if done == published:
        return "as published"
    return "short of it" if done < published else "beyond it"


def compare(process: Process, batch: BatchDone, jar: str) -> list[Finding]:
    """Return minutes, pressure, headspace and acid of a batch beside one whole process.

    Parameters
    ----------
    process : Process
        One option at one altitude; its figures are taken together.
    batch : BatchDone
    jar : str
        The jar compared, as the household names it.
    """
    out = [_minutes(process, batch)]
    if process.psi is not None:
        out.append(_psi(process, batch))
    out.append(_headspace(process, batch))
    if process.schedule.acids:
        out.append(_acid(process, batch, jar))
    return out if process.confirmed else [_unsure(one) for one in out]


def _unsure(one: Finding) -> Finding:
    """Return a finding that rests on a recalled figure: never "as published"."""
    text = joined(" ", (one.text, sentence("finding-figure-not-confirmed")))
    if one.kind in ("as published", "beyond it"):
        return replace(one, kind="to check yourself", text=text)
    return replace(one, text=text)


def _where(process: Process) -> str:
    s = process.schedule
    parts = [sizes_word(s.jar), sentence("finding-of-pack", pack=pack_word(s.pack))]
    if s.gauge:
        parts.append(sentence("finding-of-gauge", gauge=fixed(s.gauge)))
    if s.method == "pressure" and s.product.startswith("tomato"):
        parts.append(sentence("finding-of-option", n=s.option))
    return joined(", ", (*parts, band(process.low_ft, process.high_ft)))


def _minutes(process: Process, batch: BatchDone) -> Finding:
    published = Fraction(process.minutes)
    kind = kind_of(published, batch.minutes)
    texts = [sentence("finding-minutes", n=process.minutes, where=_where(process))]
    if batch.minutes is None:
        texts.append(sentence("finding-minutes-ask"))
    else:
        texts.append(sentence("finding-done", done=figure(batch.minutes)))
        if kind == "short of it":
            texts.append(sentence("finding-minutes-short", n=figure(published - batch.minutes)))
        elif kind == "beyond it":
            texts.append(sentence("finding-minutes-longer"))
            if batch.minutes > published * _SLIP and batch.minutes > published + _SLIP_MINUTES:
                kind = "to check yourself"
                texts.append(sentence("finding-is-figure-right"))
    text = joined(" ", texts)
    return Finding("minutes", process.minutes, plain(batch.minutes), kind, text)


def _psi(process: Process, batch: BatchDone) -> Finding:
    assert process.psi is not None
    published, done = Fraction(process.psi), weight_psi(batch)
    kind = kind_of(published, done)
    if done is not None and published < done < published + _NEEDLE:
        kind = "as published"  # 76 kPa is 11.02 psi: no needle shows the difference
    texts: list[str] = [sentence("finding-psi", n=process.psi, where=_where(process))]
    if done is None:
        texts.append(sentence("finding-psi-ask"))
        return Finding("psi", process.psi, None, kind, joined(" ", texts))
    texts.append(sentence("finding-done", done=_said(batch, done)))
    if kind == "short of it" and done < _BAR and batch.pressure_said and _bare(batch):
        texts.append(sentence("finding-was-it-bar"))
        kind = "to check yourself" if done * _BAR_PSI >= published else kind
    elif kind == "short of it":
        texts.append(sentence("finding-psi-short", n=figure(published - done)))
    elif doubt := _strange(process, batch, done):
        kind = "to check yourself"
        texts.append(doubt)
    return Finding("psi", process.psi, plain(done), kind, joined(" ", texts))


def weight_psi(batch: BatchDone) -> Fraction | None:
    """Return the pressure in psi; what makers print on a metric weight is the figure it stands for."""
    if batch.psi is None or batch.gauge != "weighted":
        return batch.psi
    for kilopascal, psi in _WEIGHTS:
        if batch.psi == pressure_psi(f"{kilopascal} kPa"):
            return Fraction(psi)
    return batch.psi


def _bare(batch: BatchDone) -> bool:
    return bool(re.fullmatch(r"[\d.,\s]+", batch.pressure_said or ""))


def _said(batch: BatchDone, done: Fraction) -> str:
    if batch.pressure_said is None or _bare(batch):
        return measured(number(done))
    return sentence("finding-psi-said", said=batch.pressure_said, n=figure(done))


def _strange(process: Process, batch: BatchDone, done: Fraction) -> str | None:
    """Return why a pressure that reaches the printed one may be a slip or another unit."""
    if done > _DIAL_TO:
        where = cited(cite(source("UW_MULTICOOKER")))
        gauges = sentence("finding-gauges-run-to", n=_DIAL_TO, source=where)
        return joined(" ", (gauges, sentence("finding-was-it-kpa")))
    if process.schedule.gauge == "weighted" and done not in _ON_WEIGHTS:
        return sentence("finding-which-weight")
    if process.schedule.gauge == "dial" and done > process.psi + _OVER_PSI:  # type: ignore[operator]
        return sentence("finding-psi-far-above", n=_OVER_PSI)
    return None


def _headspace(process: Process, batch: BatchDone) -> Finding:
    published = process.headspace_in
    kind = kind_of(published, batch.headspace_in)
    if batch.headspace_in is not None and abs(batch.headspace_in - published) <= _RULER_IN:
        kind = "as published"  # within what a ruler shows
    texts = [sentence("finding-headspace", x=inches(published))]
    if batch.headspace_in is None:
        texts.append(sentence("finding-headspace-ask"))
    else:
        texts.append(sentence("finding-done", done=inches(batch.headspace_in)))
        if kind == "short of it":
            texts.append(sentence("finding-headspace-short"))
        elif process.schedule.id in _BY_SIZE and batch.headspace_in < _SMALL:
            kind = "to check yourself"
            texts.append(sentence("finding-small-beans", x=inches(_SMALL)))
        elif kind == "beyond it":
            texts.append(sentence("finding-headspace-over"))
            if batch.headspace_in - published > _OVER_IN + _RULER_IN:
                kind = "to check yourself"
                texts.append(sentence("finding-is-figure-right"))
    text = joined(" ", texts)
    return Finding("headspace", plain(published), plain(batch.headspace_in), kind, text)


def _acid(process: Process, batch: BatchDone, jar: str) -> Finding:
    published = acid_text(process.schedule) or ""
    intro = sentence("finding-acid-each-jar", acids=published)
    acids = [*(batch.acid or ()), *_among_used(batch)]
    if not acids:
        if batch.acid is None:
            text = joined(" ", (intro, sentence("finding-acid-ask")))
            return Finding("acid", published, None, "not recorded", text)
        text = joined(" ", (intro, sentence("finding-acid-none")))
        return Finding("acid", published, fixed("none"), "short of it", text)
    done = listed([acid_done(one) for one in acids])
    kinds = [_acid_kind(process, one, batch, jar) for one in acids]
    order = ("as published", "beyond it", "to check yourself", "not recorded")
    kind = next((k for k in order if k in kinds), "short of it")
    texts = [intro, sentence("finding-done", done=done)]
    if kind == "short of it":
        texts.append(sentence("finding-acid-short"))
    elif kind == "not recorded":
        texts.append(sentence("finding-acid-in-spoons"))
    elif kind == "to check yourself":
        texts.append(sentence("finding-acid-bottled-ask"))
    return Finding("acid", published, done, kind, joined(" ", texts))


def acid_done(one: AcidDone) -> str:
    """Return acid as added: ``1 tbsp lemon juice per jar``."""
    kind = _FIELD_ACIDS.get(one.acid)
    acid = one.acid if kind is None else sentence("published-acid-name", acid=Choice(kind))
    per = Choice(one.per)
    return sentence("finding-acid-done", amount=measured(one.amount), acid=acid, per=per)


def _among_used(batch: BatchDone) -> list[AcidDone]:
    """Return acid that was written down among what was used: it went into the whole batch."""
    return [
        AcidDone(part.text, part.used.amount, "batch")
        for part in parts_of(batch.used)
        if part.role in ("lemon", "citric", "vinegar") and not part.strained
    ]


_FIELD_ACIDS = {"lemon juice": "lemon", "citric acid": "citric", "vinegar 5%": "vinegar"}
"""Acids that a form offers by name, and how a message chooses their words."""


def _acid_named(text: str) -> tuple[str | None, bool]:
    """Return which printed acid a name is, and whether it is certain: bottled, of 5 %."""
    if text in _FIELD_ACIDS:
        return text, True
    role = parts_of([Used(text, "")])[0].role
    if role == "vinegar":
        return "vinegar 5%", strength_of(text).kind == "as published"
    if role == "lemon":
        return "lemon juice", bool(is_bottled(text))
    return ("citric acid", True) if role == "citric" else (None, False)


def _acid_kind(process: Process, one: AcidDone, batch: BatchDone, jar: str) -> str:
    name, sure = _acid_named(one.acid)
    printed = next((row for row in process.schedule.acids if row[0] == name), None)
    volume = _volume(one.amount)
    if name == "vinegar 5%" and strength_of(one.acid).kind == "short of it":
        return "short of it"
    if printed is None:
        return "short of it" if name else "not recorded"
    if volume is None:
        return "not recorded"
    own = Fraction(jar_ul(jar) or 0)
    if one.per == "batch":
        whole = sum((Fraction(jar_ul(j.jar) or 0) * j.jars for j in batch.jars), Fraction(0))
        if not whole or not own:
            return "not recorded"
        volume = volume * own / whole
    wanted = _volume(f"{number(printed[1])} {printed[2]}")
    assert wanted is not None
    volume = wanted if abs(volume - wanted) < _DROP * wanted else volume
    kind = kind_of(wanted, volume)
    table = Fraction(jar_ul(process.schedule.jar) or 0)
    if kind == "short of it" and own and own < table and volume >= wanted * own / table:
        return "to check yourself"  # by volume it is enough; the table prints no such jar
    return kind if sure or kind == "short of it" else "to check yourself"


_DROP = Fraction(1, 100)
"""A hundredth: what dividing a batch's spoons by its jars may round off."""


def _volume(text: str) -> Fraction | None:
    try:
        amount = parse_amount(text)
    except LedgerError:
        return None
    return amount.exact if amount.measure == "volume" else None
