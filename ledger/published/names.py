"""How names of food are written: folded, without endings, and the names beside the tables'."""

from __future__ import annotations

import re
import unicodedata
from functools import lru_cache

from ledger.items import item_key

__all__ = ["ALSO", "ENDINGS", "GENERIC", "STEM", "fold", "stem", "stems"]

_UMLAUTS = str.maketrans({"ä": "ae", "ö": "oe", "ü": "ue", "ß": "ss"})
ENDINGS = ("en", "er", "es", "e", "n", "s")
STEM = 4
"""Letters that a stem has at least."""

GENERIC = {
    "meat": ("pig|cow|hog|ox|Braten|Sauerbraten|Roulade|Kasseler|Eisbein|Ochsenschwanz|Spanferkel|Mettende|"
        "Cabanossi|meat|Fleisch|game meat|game|carcass|bone|Knochen|mince", "low_acid", "meat"),
    "vegetable": ("vegetable|veg|Gemüse|veggie", "low_acid", "vegetable"),
    "bean": ("bean", "low_acid", "pulse"),
    "dry bean": ("dry bean|dried bean|Trockenbohne|getrocknete Bohne|bean or pea", "low_acid", "pulse"),
    "pepper": ("pepper|chile pepper|chili pepper|pimiento pepper", "low_acid", "vegetable"),
    "seafood": ("krill|Matjes|seafood|shellfish|Meeresfrüchte|chowder fish", "low_acid", "fish"),
    "berry": ("berry|Beere|mixed berry|boysenberry", "acid", "fruit"),
    "fruit": ("fruit|Obst|Frucht", "acid", "fruit"),
    "tomato paste": ("tomato paste|tomato puree|Tomatenmark", "borderline", "fruit"),
    "tomato juice": ("tomato juice|Tomatensaft|tomato sauce|passata", "borderline", "fruit"),
    "grape juice": ("grape juice|white grape juice|Traubensaft", "acid", "fruit"),
    "succotash": ("succotash", "low_acid", "mixture"),
    "bread": ("banana bread|breadcrumb|Semmelbrösel", "low_acid", "grain"),
    "raisin": ("raisin|sultana|Rosine|dried fruit|dried apricot|dried cherry", "acid", "fruit"),
}  # fmt: skip
"""Words that stand for many foods, taken for the one of least acid: common practice, no source."""

ALSO = {
    "chicken": "Hühner|Hühnchen|Geflügel|poultry|fowl",
    "goose": "Gänse|Gänsekeule|Gänsebrust",
    "duck": "Entenbrust|Entenkeule",
    "venison": "Wildfleisch|Wildbret|Wildgulasch",
    "wild mushroom": "wild mushroom|forest mushroom",
    "potato": "Erdäpfel",
    "pasta": "Maultasche|gnocchi|pierogi|couscous|stuffing",
    "mushroom": "Schwammerl",
    "soybean": "tempeh|seitan",
    "lima bean": "adzuki|adzuki bean|lupini",
    "frozen (thawed)": "frozen|tiefgekühlt|gefroren",
    "overripe": "dead vine|killed vine|frost killed|frost damaged|frosted|rotten|diseased|mouldy|moldy",
    "puree": "butter of|mushy",
    "low-sugar": "less sugar|without sugar|no-sugar",
    "strained out": "strained out|taken out|bag taken out|removed",
    "flour": "masa|masa harina|corn flour|breadcrumb|instant starch",
    "bell pepper": "green bell pepper|red bell pepper|paprika",
    "hot pepper": "green chile|long green chile|chile|hot chile|chipotle|poblano|anaheim",
    "leftover": "cooked|roasted|fried|grilled|baked|sauteed",
}
"""More names of foods and forms: common practice, no source."""


@lru_cache(8192)
def fold(text: str) -> tuple[str, ...]:
    """Return the words of a name without case, accents and punctuation, in the singular."""
    text = unicodedata.normalize("NFKC", text).casefold().translate(_UMLAUTS)
    text = unicodedata.normalize("NFKD", text)
    text = "".join(c for c in text if not unicodedata.combining(c))
    text = re.sub(r"['’‘`]", "", text)
    return tuple(item_key(word) for word in re.findall(r"[^\W\d_]+", text))


@lru_cache(16384)
def stem(word: str) -> str:
    """Return a folded word without an ending of the plural."""
    for ending in ENDINGS:
        if word.endswith(ending) and len(word) - len(ending) >= STEM:
            return word[: -len(ending)]
    return word


@lru_cache(8192)
def stems(text: str) -> tuple[str, ...]:
    """Return the words of a name as they are compared: folded, without endings of the plural."""
    return tuple(stem(word) for word in fold(text))
