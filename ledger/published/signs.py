"""Signs that what stands in a jar may have spoiled, as people tell of them, and what is published of such a jar.

Which signs, and how such a jar is thrown out: University of Missouri Extension, "I have found that some of my
home-canned food is spoiled", 2009, http://missourifamilies.org/quick/foodsafetyqa/qafs157.htm; Clemson Extension,
"Discarding Spoiled Canned Foods Safely", https://blogs.clemson.edu/savannahvalley/discarding-spoiled-canned-foods-safely/;
both after the USDA Complete Guide to Home Canning. Whom to ask who has eaten: common practice, no source.
A jar without any sign is not vouched for.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from typing import Any

from ledger.errors import DANGER, NeedsAnswer
from ledger.kinds import IN_HOUSE
from ledger.messages import Names, joined, sentence

__all__ = ["IN_JAR", "SEAL_SIGN", "SIGN", "cautions_on_signs", "doubt_of", "signs_in"]

SEAL_SIGN = (
    r"broken seals?|seals?(?: \w+)? (?:broken|broke|gone|failed|loose)|lost (?:its|their|the) seals?|"
    r"lids? (?:\w+ )?(?:popped|loose)|loose lids?|popped lids?|"
    r"(?:deckel|verschluss|vakuum)(?: \w+)? (?:lose|locker|offen|undicht|weg|gebrochen|aufgesprungen)|"
    r"loser? deckel|kein vakuum|ohne vakuum"
)
"""That a jar has lost its seal; not that it never took one, which has a published way of its own."""

_SMELL = r"off|funny|bad|foul|weird|strange|odd|wrong|rotten|sour|rancid|awful|yeasty|musty"
_RIECHT = r"komisch\w*|schlecht\w*|übel|faul\w*|seltsam\w*|merkwürdig\w*|säuerlich|sauer|muffig\w*"
SIGN = re.compile(
    rf"\b(?:{SEAL_SIGN}|"
    r"(?:scraped|cut|skimmed|spooned) (?:off )?(?:the |some )?(?:mou?ld|foam)(?: off| out)?(?: of| from)?|"
    r"bulg(?:ed|es|ing|y)|swollen|swelled|hiss(?:ed|es|ing)|spurt(?:ed|s|ing)?|squirted|leak(?:ed|s|ing|y)|"
    r"oozed|oozing|foam(?:ed|ing|y|s)?|fizz(?:ed|es|ing|y)|bubbl(?:ing|ed|y)|gassy|mou?ld(?:y|ed)?|slimy|"
    r"cloudy(?! (?:day|weather|morning|afternoon|evening|sky|skies))|murky|smelly|stank|stinks|stinking|"
    rf"smell(?:s|ed|ing)?(?: \w+)? (?:{_SMELL})|smelt (?:{_SMELL})|(?:{_SMELL})[ -]smell(?:ing)?|"
    r"gewölbt\w*|wölbte? sich|bombiert\w*|aufgebläht\w*|gebläht\w*|zischt\w*|gezischt|spritzte?|"
    r"(?:heraus)?gespritzt|undicht\w*|ausgelaufen\w*|leckte?|schäumte?|geschäumt|schaumig\w*|trüb\w*|"
    r"schimm(?:el|elt|elte|lig\w*)|(?:ver|an)schimmelt\w*|schleimig\w*|stinkt|gärt|gegoren|vergoren\w*|"
    rf"(?:riecht|roch)(?:en)?(?: \w+)? (?:{_RIECHT})|(?:{_RIECHT}) (?:gerochen|riechend\w*))\b",
    re.IGNORECASE,
)
IN_JAR = re.compile(
    r"\b(?:jars?|lids?|seals?|cans?|tins?|bottles?|pints?|quarts?|qts?|pts?|canned|half-pints?|"
    r"gläser\w*|\w*glas|deckel|dosen?|flaschen?|eingekocht\w*|eingemacht\w*|eingeweckt\w*)\b",
    re.IGNORECASE,
)
"""That a jar, a can or a bottle is told of."""
_NOT = re.compile(
    r"\b(?:no|not|never|without|nor|neither|isn'?t|wasn'?t|aren'?t|weren'?t|didn'?t|doesn'?t|kein\w*|nicht|ohne|weder)"
    r"(?: \w+){0,2} $",
    re.IGNORECASE,
)
_REACHED = frozenset({"fed to animals", "composted"})
"""Ways of throwing out by which a person or an animal reaches it."""


def signs_in(text: str) -> list[re.Match[str]]:
    """Return where a text tells of such a sign; that there was none is no sign."""
    return [one for one in SIGN.finditer(text) if not _NOT.search(text[: one.start()])]


def cautions_on_signs(words: Sequence[str]) -> tuple[str, ...]:
    """Return what is said of signs, as they were told: the caution, what to do, and what to watch for."""
    told = Names(tuple(dict.fromkeys(words)))
    return (
        sentence("published-signs", words=told),
        sentence("published-never-taste-whole"),
        sentence("standing-signs"),
    )


def doubt_of(
    kind: str,
    body: Mapping[str, Any],
    is_item: Callable[[str], bool],
    is_in_jars: Callable[[str], bool],
) -> NeedsAnswer | None:
    """Return what is asked before a jar that shows a sign is eaten, given, cooked with, fed or kept.

    Parameters
    ----------
    is_item : callable
        Whether the book has an item of that name: such a name is no sign (``cloudy cider``).
    is_in_jars : callable
        Whether the household ever put that item up in jars.
    """
    is_gone = kind == "discarded" and body.get("why") not in _REACHED
    field = None if is_gone else IN_HOUSE.get(kind)
    lines = [one for one in body.get(field or "") or () if isinstance(one, dict)]
    names = [str(one.get("item", "")) for one in lines]
    said = [str(body.get(name) or "") for name in ("dish", "note")] + [
        name for name in names if not is_item(name)
    ]
    words = [one[0] for text in said for one in signs_in(text)]
    amounts = " ".join(
        f"{one.get('amount', '')} {'jar' if one.get('jars') or one.get('lot') else ''}"
        for one in lines
    )
    in_jar = IN_JAR.search(" ".join([amounts, *said])) or any(map(is_in_jars, names))
    if not (words and lines and in_jar):
        return None
    question = joined(" ", [*cautions_on_signs(words), sentence("standing-taken-ask")])
    return NeedsAnswer(DANGER, field or "lines", question, sentence("standing-taken"))
