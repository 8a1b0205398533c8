"""What it was done with: a canner, or something that confirms nothing."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ledger.messages import Names, Sentence, Typed, joined, sentence
from ledger.published.batch import BatchDone, Finding
from ledger.published.names import fold
from ledger.published.words import cite, cited, figure, says
from ledger.reference.schedules_sources import source

__all__ = [
    "closes_jars",
    "cold_heat",
    "equipment_finding",
    "is_steam",
    "low_heat_finding",
    "multi_cooker_named",
    "note_finding",
    "tool_named",
    "untested",
]

_NONE = "no published process"
_YOURSELF = "to check yourself"

_MULTI = re.compile(
    r"multi-?\s?cooker|multi-?kocher|electric pressure|pressure saucepan|saucepan|smart cooker|electric cooker|"
    r"elektrisch\w* (schnellkoch|dampf|druck)|schnellkochtopf|dampfkochtopf|dampfdrucktopf|pressure fryer|"
    r"rice cooker|reiskocher|air ?fryer",
    re.IGNORECASE,
)
_ELECTRIC = re.compile(r"electric|elektr|einkochautomat|digital", re.IGNORECASE)
_PRESSURE_POT = re.compile(r"cooker", re.IGNORECASE)
_LOW_HEAT = re.compile(
    r"pasteuri[sz]|low[- ]temp|pasteurisier|18[0-5]\s*(degrees|°|to|f\b)", re.IGNORECASE
)
_NO_PRESSURE = re.compile(
    r"steam|dampf|bath|stock ?pot|kettle|\bpot\b|topf|kessel|juicer|entsafter", re.IGNORECASE
)
_SPEAKS_AGAINST = re.compile(
    r"instead|dropped|\bfell\b|\blost\b|power (cut|out|fail)|stromausfall|\bhigh\b|forgot|vergessen|again|"
    r"re-?heated|noch ?mal|stopped|leak|undicht|too (short|low|cool|early)|zu (kurz|niedrig|kalt|früh)|broke|"
    r"kaputt|statt|abgefallen|gefallen|unterbrochen|interrupt|did not|didn't|nicht ",
    re.IGNORECASE,
)
_LOW_HEAT_FOR = frozenset({"pickles_dill_quick", "pickles_sweet_quick"})
_STEAM = re.compile(r"steam|dampfgarer|dampfeinkoch|dampf(?!koch|druck)", re.IGNORECASE)
_UNTESTED = tuple(
    (re.compile(pattern, re.IGNORECASE), id_)
    for pattern, id_ in (
        (r"\boven|backofen|\bofen\b|backrohr|\brohr\b", "finding-oven"),
        (r"microwave|mikrowelle", "finding-microwave"),
        (r"dish ?washer|spülmaschine|geschirrspüler", "finding-dishwasher"),
        (r"slow cooker|schongarer", "finding-slow-cooker"),
        (
            r"open[ -]kettle|heiß (ein|ab)gefüllt|(no|without|not|n't|forgot to) process|unprocessed|"
            r"hot[ -]fill|(filled|ladled) hot|(just|let) (them )?seal|self[ -]seal|"
            r"sealed (by|on) (their|its|cooling|themselves)",
            "finding-open-kettle",
        ),
        (
            r"invert|inversion|upside[ -]down|turned over|flipped|umgedreht|auf den kopf|gestürzt",
            "finding-turned-over",
        ),
        (r"\bsun\b|solar|in der sonne", "finding-sun"),
        (r"dry[ -]cann(ing|ed)|trocken eingeweckt", "finding-dry-canning"),
        (r"vacuum|vakuum", "finding-vacuum"),
        (
            r"paraffin|wax(ed)? ?(seal|on top)|waxed|(with|in|under) (\w+ )?(bees)?wax|wachs",
            "finding-wax",
        ),
    )
)
"""Ways of heating or closing a jar for which nothing is published (UIUC_UNSAFE, KSU_OPENKETTLE)."""

_WARMED = re.compile(
    r"(warm|heat|steril|pre-?heat|dried|dry)\w*\b[^.;]{0,25}\boven|oven[^.;]{0,15}(warm|steril)",
    re.IGNORECASE,
)
_SUN_DRIED = re.compile(r"(dried|dry)\w*\b[^.;]{0,25}\bsun|sun[ -]dried", re.IGNORECASE)
_COOKS = ("finding-oven", "finding-microwave", "finding-slow-cooker")
"""What heats a dish as well as a jar: words of it alone do not say that jars were closed."""
_ROASTED = re.compile(r"oven[ -](roast|dried|baked)|roast\w*\b[^.;]{0,20}\boven", re.IGNORECASE)
_KNOWN = re.compile(
    r"(pressure)?(canner|canning|pot|kettle|rack|lifter|funnel|mill|strainer|scale|thermometer|stove|burner|cooktop|"
    r"hob|knife|peeler|lid|bowl|press|juicer|blender|mandoline|timer|weight|crock|sieve|colander|ladle|spoon|board|"
    r"grinder|dehydrator|drier|dryer|freezer|smoker|gauge|jar|pan|shredder|slaw|masher|corer|pitter|towel|bath|"
    r"steamer|steam|cooker|stockpot|saucepot|tub|bucket)s?|(einkoch|koch)?(topf|toepfe|kessel)|herd|waage|sieb|"
    r"trichter|messer|muehle|glaeser|glas|schuessel|einkocher|einweckgeraet|gaertopf|steintopf|dampfgarer|loeffel",
)
_STEAM_MOST = 45


def _said(batch: BatchDone) -> str:
    return " ; ".join((*batch.equipment, batch.note))


def is_steam(batch: BatchDone) -> bool:
    """Return whether a boiling-water batch was done in a steam canner."""
    return batch.method == "boiling water" and bool(_STEAM.search(_said(batch)))


def cold_heat(batch: BatchDone) -> Sentence | None:
    """Return what heats a closed jar less than any tested canner, if one was named: an oven, ..."""
    return tool_named(_said(batch))


def tool_named(said: str) -> Sentence | None:
    """Return the same of words: what closes no jar by any published process."""
    for pattern, id_ in _UNTESTED:
        if not pattern.search(said):
            continue
        if id_ == "finding-oven" and (_WARMED.search(said) or _ROASTED.search(said)):
            continue
        if id_ == "finding-sun" and _SUN_DRIED.search(said):
            continue
        return sentence(id_)
    return None


def multi_cooker_named(said: str) -> bool:
    """Return whether words name an appliance that no published pressure process is for."""
    return bool(_MULTI.search(said))


def closes_jars(said: str) -> bool:
    """Return whether words name what is done to jars alone: an open kettle, wax, turning them over."""
    tool = tool_named(said)
    return tool is not None and not any(says(tool, one) for one in _COOKS)


def untested(batch: BatchDone) -> Sentence | None:
    """Return that no process is published for what closed the jars, with any food; None where nothing is so."""
    tool = cold_heat(batch)
    if tool is None:
        return None
    return sentence("finding-untested-tool", tool=tool, source=cited(cite(source("UIUC_UNSAFE"))))


def equipment_finding(  # noqa: PLR0911 -- one return an appliance
    batch: BatchDone, *, low_acid: bool
) -> Finding | None:
    """Return what the equipment says; None where nothing is named beside ordinary canners.

    Parameters
    ----------
    batch : BatchDone
    low_acid : bool
        Whether food of little acid is in it.
    """
    named = _said(batch).strip(" ;") or None
    if (said := untested(batch)) is not None:
        return Finding("equipment", None, named, _NONE, said)
    tools = " ; ".join(batch.equipment)
    both = _said(batch)
    if _MULTI.search(both):
        text: str = sentence("finding-multi-cooker", source=_four_quarts())
        if batch.method == "pressure":
            return Finding("equipment", _pressure_canner(), named, _NONE, text)
        return Finding(
            "equipment", sentence("finding-boiling-water-canner"), named, _YOURSELF, text
        )
    if (
        batch.method == "pressure"
        and _PRESSURE_POT.search(both)
        and not re.search("canner", both, re.IGNORECASE)
    ):
        holds = sentence("finding-pressure-canner-holds", source=_four_quarts())
        text = joined(" ", (holds, sentence("finding-pressure-canner-ask")))
        return Finding("equipment", _pressure_canner(), named, _YOURSELF, text)
    if (
        batch.method == "pressure"
        and _NO_PRESSURE.search(tools)
        and not re.search("press|druck", tools, re.IGNORECASE)
    ):
        text = sentence("finding-no-pressure", tool=named, source=_four_quarts())
        return Finding("equipment", _pressure_canner(), named, _NONE, text)
    if _ELECTRIC.search(tools):
        text = sentence("finding-electric-canner")
        return Finding("equipment", sentence("finding-canner"), named, _YOURSELF, text)
    if is_steam(batch):
        return _steam(batch, named, low_acid=low_acid)
    strange = [one for one in batch.equipment if not _is_known(one)]
    if strange:
        text = sentence("finding-tool-not-known", names=Names(tuple(strange)))
        return Finding("equipment", sentence("finding-canner"), named, _YOURSELF, text)
    return None


def _four_quarts() -> Sentence:
    return cited(cite(source("UW_MULTICOOKER")))


def _pressure_canner() -> Sentence:
    return sentence("finding-pressure-canner")


def _is_known(tool: str) -> bool:
    return any(_KNOWN.fullmatch(word) for word in fold(tool)) or fold(tool) == ()


def note_finding(batch: BatchDone) -> Finding | None:
    """Return the question where a note may speak against the figures beside it."""
    if not batch.note or not _SPEAKS_AGAINST.search(batch.note):
        return None
    text = sentence("finding-note", note=Typed(batch.note))
    return Finding("note", None, batch.note, _YOURSELF, text)


def low_heat_finding(batch: BatchDone, fit: Sequence[str]) -> Finding | None:
    """Return what is said of water kept below the boil: only two recipes print it."""
    if not _LOW_HEAT.search(batch.note) or batch.method != "boiling water":
        return None
    if set(fit) & _LOW_HEAT_FOR:
        text = sentence("finding-pasteurization-ask")
        printed = sentence("finding-pasteurization-heat")
        return Finding("method", printed, batch.note, _YOURSELF, text)
    text = sentence("finding-pasteurization-only")
    return Finding("method", None, batch.note, _NONE, text)


def _steam(batch: BatchDone, named: str | None, *, low_acid: bool) -> Finding | None:
    where = cited(cite(source("NCHFP_STEAM")))
    if low_acid:
        text = sentence("finding-steam-acid-only", source=where)
        return Finding("equipment", None, named, _NONE, text)
    if batch.minutes is not None and batch.minutes > _STEAM_MOST:
        done = figure(batch.minutes)
        text = sentence("finding-steam-too-long", n=_STEAM_MOST, done=done, source=where)
        most = sentence("finding-at-most-minutes", n=_STEAM_MOST)
        return Finding("equipment", most, named, _NONE, text)
    text = sentence("finding-steam", n=_STEAM_MOST, source=where)
    return Finding("equipment", sentence("finding-steam-canner"), named, "as published", text)
