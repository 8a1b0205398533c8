"""When 42 vegetables are sown and set out, how warm the soil must be, and how long seed lives.

From extension tables, weak copies of them where nothing better was read, and single cells from
memory, which each row names. Blank is not known.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from ledger.items import item_key
from ledger.reference.winter import decimal, table

__all__ = ["Crop", "check", "crop", "crops"]

_HARDINESS = {
    "hardy": (-4.0, -2.0), "semi-hardy": (-2.0, 0.0), "tender": (0.0, 0.0),
    "very tender": (2.0, None),
}  # fmt: skip


@dataclass(frozen=True)
class Crop:
    """One crop's row.

    Attributes
    ----------
    name : str
    hardiness : str
        ``hardy``, ``semi-hardy``, ``tender``, ``very tender`` or ''.
    days : (float, float) or None
        To maturity, counted from `counted_from` (``sowing`` or ``set out``).
    weeks_to_set_out, indoors_weeks, outdoors_weeks : (float, float) or None
        From seed to setting out; before the last frost; from the last frost (below 0: before it).
    soil_min_f, soil_best_f : float or None
        Degrees Fahrenheit.
    emerge_days : dict of int to float
        Days to come up, by soil temperature.
    again_days, last_sowing_days, fall_days, tender_days : float or None
        Sow again every; printed days before the first frost; the fall factor; for frost-tender crops.
    seed_years : (float, float) or None
    min_germination : float or None
        Per cent, the Federal Seed Act's standard.
    spacing : str
    sources, memory, note : str
        Sources by group of cells; which cells are from memory.
    """

    name: str
    hardiness: str
    days: tuple[float, float] | None
    counted_from: str
    weeks_to_set_out: tuple[float, float] | None
    indoors_weeks: tuple[float, float] | None
    outdoors_weeks: tuple[float, float] | None
    by_hardiness: tuple[float, float | None] | None
    soil_min_f: float | None
    soil_best_f: float | None
    emerge_days: dict[int, float]
    again_days: float | None
    last_sowing_days: float | None
    fall_days: float
    tender_days: float
    seed_years: tuple[float, float] | None
    min_germination: float | None
    spacing: str
    sources: str
    memory: str
    note: str


def _pair(row: dict[str, str], name: str) -> tuple[float, float] | None:
    low = decimal(row, f"{name}_low", "sowing")
    high = decimal(row, f"{name}_high", "sowing")
    if low is None:
        return None
    return low, low if high is None else high


@cache
def crops() -> dict[str, Crop]:
    """Return every crop by its name in the table."""
    out = {}
    for row in table("sowing"):
        checked = row["checked"]
        if not checked.startswith("read"):
            msg = f"winter table sowing, {row['crop']}: checked is {checked!r}"
            raise ValueError(msg)
        hardiness = row["hardiness"]
        if hardiness and hardiness not in _HARDINESS:
            msg = f"winter table sowing, {row['crop']}: hardiness is {hardiness!r}"
            raise ValueError(msg)
        emerge = {
            degrees: days
            for degrees in (41, 50, 59, 68, 77, 86)
            if (days := decimal(row, f"emerge_days_{degrees}f", "sowing")) is not None
        }
        out[row["crop"]] = Crop(
            row["crop"], hardiness, _pair(row, "days_to_maturity"), row["counted_from"],
            _pair(row, "weeks_seed_to_set_out"),
            _pair(row, "start_indoors_weeks_before_last_frost"),
            _pair(row, "outdoors_weeks_from_last_frost"), _HARDINESS.get(hardiness),
            decimal(row, "soil_min_f", "sowing"), decimal(row, "soil_best_f", "sowing"), emerge,
            decimal(row, "sow_again_every_days", "sowing"),
            decimal(row, "last_sowing_days_before_first_fall_frost", "sowing"),
            decimal(row, "fall_factor_days", "sowing") or 0.0,
            decimal(row, "frost_tender_days", "sowing") or 0.0,
            _pair(row, "seed_life_years"), decimal(row, "min_germination_pct", "sowing"),
            row["spacing_in"], row["sources"],
            checked.removeprefix("read").removeprefix(" except memory: "), row["note"],
        )  # fmt: skip
    return out


_ALSO = {
    "green bean": "bean snap", "snap bean": "bean snap", "bush bean": "bean snap",
    "pole bean": "bean pole", "runner bean": "bean pole", "lima bean": "bean lima",
    "dry bean": "bean dry", "drying bean": "bean dry", "sweet corn": "corn sweet",
    "corn": "corn sweet", "lettuce": "lettuce leaf", "leaf lettuce": "lettuce leaf",
    "head lettuce": "lettuce head", "summer squash": "squash summer", "zucchini": "squash summer",
    "courgette": "squash summer", "winter squash": "squash winter", "squash": "squash winter",
    "melon": "muskmelon", "swiss chard": "chard", "sweet pepper": "pepper", "aubergine": "eggplant",
    "beetroot": "beet", "green pea": "pea", "shelling pea": "pea", "swede": "rutabaga",
}  # fmt: skip


@cache
def crop(name: str) -> Crop | None:
    """Return the row of a crop by a household's name for it; None where none fits.

    A kind before the name (``roma tomato``) does not matter; ``dry bean`` is no snap bean.
    """
    known = {item_key(one): one for one in crops()}
    words = item_key(name).split()
    for begin in range(len(words)):
        key = " ".join(words[begin:])
        found = _ALSO.get(key) or known.get(key)
        if found:
            return crops()[found]
    return None


def check() -> None:
    """Read every row; a row that does not parse raises ValueError."""
    crops()
