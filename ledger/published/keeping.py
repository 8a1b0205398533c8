"""How long something keeps by the published charts, and why; periods of quality, never a promise."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from ledger.items import item_key
from ledger.published.finding import find
from ledger.published.words import cite, number
from ledger.reference.schedules import products
from ledger.reference.storage import Figure, figures, power_cut

__all__ = ["Keeping", "keeps_for"]

_DAYS = {"day": 1.0, "week": 7.0, "month": 365.25 / 12}
_CANNING = ("boiling water", "pressure")

#: Words of an item to rows of the freezer chart, the more particular first.
_FREEZER = (
    ("bacon", "bacon"), ("sausage hot dog ham", "ham_hotdogs_lunchmeat"), ("giblet", "poultry_giblets_raw"),
    ("stock broth gravy", "gravy_and_meat_broth"), ("soup stew chili", "soups_and_stews"),
    ("casserole lasagna lasagne", "casseroles"), ("steak", "steaks"), ("chop", "chops"), ("roast", "roasts"),
    ("ground mince", "ground_or_stew_meat_raw"), ("breast leg thigh wing", "chicken_or_turkey_parts"),
    ("chicken turkey", "chicken_or_turkey_whole"), ("venison elk moose game", "wild_game_raw"),
    ("shrimp crab clam shellfish", "shellfish_raw"), ("trout cod bass perch fish", "lean_fish"),
    ("egg white", "egg_whites"), ("beef pork lamb veal meat", "ground_or_stew_meat_raw"),
)  # fmt: skip
_FRESH = (
    ("berry strawberry raspberry blackberry blueberry", "fresh_berries"),
    ("apricot", "fresh_apricots"),
)


@dataclass(frozen=True)
class Keeping:
    """A published period.

    Attributes
    ----------
    low_days, high_days : float
        Days; a month is a twelfth of 365.25 days.
    span : str
        As printed: ``8 to 12 months``.
    low, high : str
        The ends by themselves, ``8 months`` and ``12 months``, to count by the calendar.
    text : str
        What the period is of, and how to store it.
    source : str
    """

    low_days: float
    high_days: float
    span: str
    low: str
    high: str
    text: str
    source: str


@lru_cache(4096)
def keeps_for(
    sort: str | None = None,
    method: str | None = None,
    item: str | None = None,
    kept: str | None = None,
    *,
    opened: bool = False,
) -> Keeping | None:
    """Return the published period for something kept somewhere; None where none is published.

    Parameters
    ----------
    sort : str, optional
        ``food`` or nothing; for other sorts nothing is published.
    method : str, optional
        How it was put up; None: as it came.
    item : str, optional
        The household's name for it.
    kept : {'shelf', 'fridge', 'freezer', 'cellar'}, optional
    opened : bool
        Whether the jar has been opened.
    """
    if sort not in (None, "food"):
        return None
    key = item_key(item or "")
    if opened or kept == "fridge":
        return _fridge(method, key, item or "", opened=opened)
    if kept == "freezer" or method == "freeze":
        return _freezer(key, item or "")
    if kept == "cellar":
        return None
    if method in _CANNING:
        figure = figures("shelf_life", "home_canned_food", "best_quality_period")[0]
        low, high = (
            figures("shelf_life", "home_canned_food", f"store_temperature_{n}")[0]
            for n in ("best", "max")
        )
        text = (
            f"Best quality of home-canned food, kept cool, dark and dry at {number(low.low)} to "
            f"{number(low.high)} degrees F, never above {number(high.high)}; a limit of quality, and no "
            "word on a jar that was not processed as published"
        )
        return _keeping(figure, text)
    if method == "dry" or key.startswith(("dried ", "dry ")):
        return _dried(key)
    if key.split()[-1:] in (["rice"], ["pasta"]):
        return _keeping(figures("shelf_life", "rice_and_dried_pasta", "pantry_period")[0], "Dry")
    return None


def _has(words: str, key: str) -> bool:
    return bool(set(words.split()) & set(key.split()))


def _fridge(method: str | None, key: str, item: str, *, opened: bool) -> Keeping | None:
    if method in _CANNING:
        if opened and _has("jam jelly marmalade", key):
            figure = figures("shelf_life", "jam_jelly_full_sugar")[0]
            return _keeping(
                figure, "Opened jam or jelly of full sugar, refrigerated at 40 degrees F or lower"
            )
        if opened:
            figure = figures("shelf_life", "home_canned_food", "fridge_after_opening")[0]
            return _keeping(figure, "Home-canned food after opening, refrigerated")
        figure = figures("failed_seal", "any_jar", "fridge_period")[0]
        return _keeping(
            figure, "A jar that did not seal, refrigerated at once (two sources: a few days)"
        )
    if method == "jam uncooked":
        return _keeping(
            figures("shelf_life", "jam_uncooked_freezer")[0], "Uncooked jam, refrigerated"
        )
    if method == "ferment" and "pickles_dill_fermented" in find(item).candidates:
        figure = figures("ferment", "pickles_dill_fermented", "fridge_period")[0]
        return _keeping(figure, "Fully fermented dill pickles in their own container, refrigerated")
    if method is None and not opened:
        for words, food in _FRESH:
            if _has(words, key) and len(key.split()) == 1:
                figure = figures("shelf_life_by_temperature", food)[0]
                return _keeping(
                    figure, f"Fresh, refrigerated{', unwashed' if 'berr' in food else ''}"
                )
    return None


def _freezer(key: str, item: str) -> Keeping | None:
    for words, food in _FREEZER:
        if _has(words, key):
            return _keeping(
                figures("freezer", food)[0], "Frozen at a steady 0 degrees F; a period of quality"
            )
    for kind in power_cut():
        if kind.kind.startswith(("fruit", "vegetables")) and _has(" ".join(kind.names), key):
            name = "fruits" if kind.kind.startswith("fruit") else "vegetables"
            figure = figures("freezer", name)[0]
            text = "Frozen at 0 degrees F or below; another source prints 8 to 12 months for both"
            return _keeping(figure, text)
    return _product_freezer(item)


def _product_freezer(item: str) -> Keeping | None:
    fit = find(item).candidates
    groups = {products()[p].group for p in fit}
    if groups and groups <= {"fruit", "vegetable", "tomato"}:
        return _keeping(
            figures("freezer", "fruits_and_vegetables")[0], "Frozen at 0 degrees F or below"
        )
    return None


def _dried(key: str) -> Keeping:
    if _has("jerky", key):
        return _keeping(figures("dried", "jerky_home_dried")[0], "Home-dried jerky")
    fruit = next(kind for kind in power_cut() if kind.kind.startswith("fruit,"))
    if _has(" ".join(fruit.names), key):
        cool, warm = (
            next(
                f
                for f in figures("dried", "dried_fruit", "recommended_storage")
                if t in f.condition
            )
            for t in ("60", "80")
        )
        text = "Dried fruit, dark and dry: 12 months at 60 degrees F, 6 at 80"
        return _span(warm, cool, text)
    figure = figures("dried", "dried_foods", "recommended_storage")[0]
    return _keeping(
        figure, "Dried food, cool, dry and dark; dried vegetables about half as long as fruit"
    )


def _keeping(figure: Figure, text: str) -> Keeping:
    return _span(figure, figure, text)


def _span(low: Figure, high: Figure, text: str) -> Keeping:
    def words(value: Figure, end: str) -> str:
        count = getattr(value, end)
        return f"{number(count)} {value.unit}{'' if count == 1 else 's'}"

    first, last = words(low, "low"), words(high, "high")
    span = last if first == last else f"{first.split()[0]} to {last}"
    return Keeping(
        float(low.low) * _DAYS[low.unit],
        float(high.high) * _DAYS[high.unit],
        span,
        first,
        last,
        text,
        cite(high.source),
    )
