"""What it was done with: a canner, or something that confirms nothing."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ledger.published.batch import BatchDone, Finding
from ledger.published.reading import fold
from ledger.published.words import cite
from ledger.reference.schedules_sources import source

__all__ = ["cold_heat", "equipment_finding", "is_steam", "low_heat_finding"]

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
_LOW_HEAT_FOR = frozenset({"pickles_dill_quick", "pickles_sweet_quick"})
_STEAM = re.compile(r"steam|dampfgarer|dampfeinkoch|dampf(?!koch|druck)", re.IGNORECASE)
_UNTESTED = tuple(
    (re.compile(pattern, re.IGNORECASE), name)
    for pattern, name in (
        (r"\boven|backofen|backrohr|\brohr\b", "an oven"),
        (r"microwave|mikrowelle", "a microwave oven"),
        (r"dish ?washer|spülmaschine|geschirrspüler", "a dishwasher"),
        (r"slow cooker|schongarer", "a slow cooker"),
        (
            r"open[ -]kettle|heiß (ein|ab)gefüllt|no processing|not processed|hot fill|just sealed|"
            r"sealed (by|on) (their|its|cooling)",
            "an open kettle",
        ),
        (
            r"invert|inversion|upside[ -]down|turned over|umgedreht|auf den kopf|gestürzt",
            "turning jars over",
        ),
        (r"\bsun\b|solar|in der sonne", "the sun"),
        (r"dry canning|dry[ -]canned|trocken eingeweckt", "dry canning"),
        (r"vacuum|vakuum", "vacuum sealing"),
        (r"paraffin|wax seal|wachs", "wax"),
    )
)
"""Ways of heating or closing a jar for which nothing is published (UIUC_UNSAFE, KSU_OPENKETTLE)."""

_WARMED = re.compile(
    r"(warm|heat|steril|pre-?heat|dried|dry)\w*\b[^.;]{0,25}\boven|oven[^.;]{0,15}(warm|steril)",
    re.IGNORECASE,
)
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


def cold_heat(batch: BatchDone) -> str | None:
    """Return what heats a closed jar less than any tested canner, if one was named: an oven, ..."""
    said = _said(batch)
    for pattern, name in _UNTESTED:
        if not pattern.search(said):
            continue
        if name == "an oven" and (_WARMED.search(said) or _ROASTED.search(said)):
            continue
        return name
    return None


def equipment_finding(batch: BatchDone, *, low_acid: bool) -> Finding | None:
    """Return what the equipment says; None where nothing is named beside ordinary canners.

    Parameters
    ----------
    batch : BatchDone
    low_acid : bool
        Whether food of little acid is in it.
    """
    named = _said(batch).strip(" ;") or None
    if (untested := cold_heat(batch)) is not None:
        text = f"{untested}: no process is published for it with any food ({cite(source('UIUC_UNSAFE'))})."
        return Finding("equipment", None, named, _NONE, text)
    tools = " ; ".join(batch.equipment)
    both = _said(batch)
    if _MULTI.search(both):
        where = cite(source("UW_MULTICOOKER"))
        text = (
            "No process is published for an electric multi-cooker, or for a pressure pot that holds "
            f"fewer than four quart jars ({where})."
        )
        if batch.method == "pressure":
            return Finding("equipment", "pressure canner", named, _NONE, text)
        return Finding("equipment", "boiling-water canner", named, _YOURSELF, text)
    if (
        batch.method == "pressure"
        and _PRESSURE_POT.search(tools)
        and not re.search("canner", tools, re.IGNORECASE)
    ):
        where = cite(source("UW_MULTICOOKER"))
        text = f"A pressure canner holds four quart jars at least ({where}). How many does this one hold?"
        return Finding("equipment", "pressure canner", named, _YOURSELF, text)
    if batch.method == "pressure" and _STEAM.search(tools) and "press" not in tools.casefold():
        text = f"A steam canner holds no pressure ({cite(source('NCHFP_STEAM'))})."
        return Finding("equipment", "pressure canner", named, _NONE, text)
    if _ELECTRIC.search(tools):
        text = "Electric canner: look up in its manual which published processes it was tested for."
        return Finding("equipment", "canner", named, _YOURSELF, text)
    if is_steam(batch):
        return _steam(batch, named, low_acid=low_acid)
    strange = [one for one in batch.equipment if not _is_known(one)]
    if strange:
        text = f"{', '.join(strange)}: not known here. Was the jar heated in it?"
        return Finding("equipment", "canner", named, _YOURSELF, text)
    return None


def _is_known(tool: str) -> bool:
    return any(_KNOWN.fullmatch(word) for word in fold(tool)) or fold(tool) == ()


def low_heat_finding(batch: BatchDone, fit: Sequence[str]) -> Finding | None:
    """Return what is said of water kept below the boil: only two recipes print it."""
    if not _LOW_HEAT.search(batch.note) or batch.method != "boiling water":
        return None
    if set(fit) & _LOW_HEAT_FOR:
        text = "Low-temperature pasteurization: 30 minutes at 180 to 185 degrees F, measured the whole time. Was it?"
        return Finding("method", "180 to 185 F", batch.note, _YOURSELF, text)
    text = "Low-temperature pasteurization is printed for quick dill and quick sweet pickles only."
    return Finding("method", None, batch.note, _NONE, text)


def _steam(batch: BatchDone, named: str | None, *, low_acid: bool) -> Finding | None:
    where = cite(source("NCHFP_STEAM"))
    if low_acid:
        text = f"A steam canner is published for acid food only ({where})."
        return Finding("equipment", None, named, _NONE, text)
    if batch.minutes is not None and batch.minutes > _STEAM_MOST:
        text = (
            f"A steam canner is published for processes of at most {_STEAM_MOST} minutes ({where}). "
            f"Done: {float(batch.minutes):g}."
        )
        return Finding("equipment", f"at most {_STEAM_MOST} minutes", named, _NONE, text)
    text = f"Published for acid food at its boiling-water time, at most {_STEAM_MOST} minutes ({where})."
    return Finding("equipment", "steam canner", named, "as published", text)
