"""The usual cautions of home canning, short and whole, in our own words."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

__all__ = ["CAUTIONS", "FIRST", "SHORT", "jar_gone_bad"]

SHORT = (
    "This compares figures with published tables and vouches for no food. Never taste what may have "
    "spoiled. Follow the current bulletin and your canner's manual; ask an extension adviser."
)
"""One line, for every answer."""

FIRST = (
    "Home canning can cause botulism, burns and broken glass. Croftbook tests nothing: it only compares figures with "
    "published tables. Follow the current bulletin and your canner's manual, have dial gauges tested every year, and "
    "never taste what may have spoiled. Whole: docs/cautions.md."
)
"""Shown once, on the first use of a canning command."""

CAUTIONS: tuple[tuple[str, str], ...] = (
    (
        "Botulism",
        "Bacteria that live in soil make a deadly poison in moist food of little acid, without air, between 40 and "
        "120 degrees F. It needs three or four days. It may have no smell, no taste and no look. Boiling water does "
        "not kill their spores: vegetables, meat, fish, stock, soup and mixtures of them are published for pressure "
        "only. Double sight, drooping eyelids, slurred speech or weakness after eating: call emergency services and "
        "say what was eaten.",
    ),
    (
        "Never taste",
        "Do not taste food to find out about it. A jar that leaks, bulges, spurts, smells wrong, is cloudy or mouldy, "
        "or was not processed as published: discard it where no person or animal can reach it, and clean what it "
        "touched as the bulletin says.",
    ),
    (
        "A tested process, whole",
        "Use a published process for the very product, pack, jar, gauge and altitude. Do not mix two options, do not "
        "take the time of a smaller jar, do not shorten, do not make up for pressure with minutes. Adding oil, flour, "
        "rice, noodles, meat or vegetables of little acid makes another product, for which nothing may be published.",
    ),
    (
        "Acid",
        "Tomatoes take bottled lemon juice, citric acid or vinegar of 5% in every jar, in a pressure canner too. In "
        "pickles keep to the recipe's vinegar and its strength.",
    ),
    (
        "Altitude",
        "Water boils cooler the higher you are. Set your own altitude, from a map or the survey office, and take the "
        "band that it falls in; near a border ask.",
    ),
    (
        "Gauges",
        "Have a dial gauge tested every year before the season, and after a knock; replace one that is off. A weighted "
        "gauge cannot be read between its weights. Change gaskets as the maker says.",
    ),
    (
        "Steam and burns",
        "Vent the canner before closing it. Stay with it. Let the pressure fall to zero by itself; never force the lid "
        "or cool it with water. Lift the lid away from your face. Keep children away.",
    ),
    (
        "Glass under pressure",
        "Use jars made for canning, without nicks or cracks; hot food into hot jars; no cold draught or cold counter "
        "afterwards. Jars for freezing need room at the top and straight sides.",
    ),
    (
        "Lids",
        "New lids each time. Test each seal after 12 to 24 hours, take the rings off, and look at it again before "
        "opening.",
    ),
    (
        "Whom to ask",
        "The current bulletin (USDA Complete Guide to Home Canning), the National Center for Home Food Preservation, "
        "your extension service, your canner's manual and, for what you give away or sell, your local codes go before "
        "anything shown here.",
    ),
)
"""Heading and text, whole, as in docs/cautions.md."""


def jar_gone_bad(kind: str, body: Mapping[str, Any]) -> list[str]:
    """Return the cautions on a jar that was thrown out as spoiled; none for anything else."""
    if kind != "discarded" or body.get("why") not in ("spoiled", "seal failed"):
        return []
    if not any(str(line.get("amount", "")).rstrip("s").endswith("jar") for line in body["lines"]):
        return []
    said = dict(CAUTIONS)
    return [said["Never taste"], said["Botulism"]]
