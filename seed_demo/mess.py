"""The mess of real life: slips and their corrections, strikes, gifts, counts, spoilage.

Draws that were never bought are made here on purpose, and nowhere else.
"""

from __future__ import annotations

import datetime as dt
from typing import Any

from seed_demo.home import Home
from seed_demo.household import CHILDREN, NEIGHBOURS, NOTES, PRACTISED, TARGETS
from seed_demo.items import place_of
from seed_demo.pantry import CUP, PINT, jars_of, say

__all__ = ["Mess"]

Body = dict[str, Any]
LB = 16
_KEEP_DAYS = {
    "tomato": 14, "cucumber": 12, "green bean": 12, "strawberry": 6, "plum": 16, "summer squash": 12, "chard": 8,
    "pepper": 20, "bread": 12, "milk": 14, "egg": 40, "tomato puree": 5, "winter soup": 90, "cold roast chicken": 5,
    "bean stew": 5, "sauced pasta": 5, "sourdough starter": 60, "cabbage": 110, "apple": 130, "carrot": 130,
    "potato": 190, "onion": 200, "mushroom": 7, "blackberry": 5, "garlic": 260, "chicken stock": 6, "sauerkraut": 200,
}  # fmt: skip
_PASSERS = (
    ("plum", 3 * LB),
    ("apple", 5 * LB),
    ("summer squash", 2 * LB),
    ("cucumber", 2 * LB),
    ("potato", 5 * LB),
)


class Mess:
    """What is not planned."""

    def __init__(self, home: Home) -> None:
        self.home = home
        self._duplicates = 0
        self._counts = 0
        self._is_spiced = False
        self._frozen = 0

    def today(self) -> None:
        """Do what chance brings today."""
        home, rng = self.home, self.home.rng
        if home.day.weekday() == 0:
            self._clear_out()
        if home.day.weekday() == 6:
            self._practise()
        if rng.random() < 0.035:
            self._give()
        if rng.random() < 0.022:
            self._receive()
        if home.day.weekday() == 5 and home.pantry.has("egg") >= 40 and rng.random() < 0.8:
            dozens = rng.choice((1, 1, 2, 2))
            eggs = home.line("egg", 12 * dozens) | {"amount": f"{dozens} dozen"}
            body = {"how": "sold", "to": "the stand by the gate", "lines": [eggs]}
            home.write("given_away", body | {"got": f"{dozens * 4:.2f}"}, by="Juno")
        if home.day.day == 3:
            self._count()
        self._special()

    # -- corrections and strikes -------------------------------------------------------------

    def slips(self) -> None:
        """Put right, days later, what was mistyped; take back what was written twice."""
        pen, rng = self.home.pen, self.home.rng
        for event in pen.of("harvested", "eaten", "bought"):
            roll = rng.random()
            if (
                event["kind"] == "harvested"
                and roll < 0.06
                and " lb" in event["body"]["lines"][0]["amount"]
            ):
                pen.mistype(event, self._wrong_weight)
            elif event["kind"] == "bought" and roll < 0.05:
                pen.mistype(
                    event,
                    lambda body: body["lines"][0].update(
                        paid=f"{float(body['lines'][0]['paid']) * 10:.2f}"
                    ),
                )
            elif event["kind"] == "eaten" and roll < 0.012 and "guests" not in event["body"]:
                pen.mistype(event, lambda body: body.update(people=body.get("people", 6) + 1))
            elif roll > 0.991:
                pen.twice(event, rng.choice(("written twice", "Ilse had it already")))

    @staticmethod
    def _wrong_weight(body: Body) -> None:
        pounds = int(body["lines"][0]["amount"].split(" lb")[0])
        body["lines"][0]["amount"] = f"{pounds + 10} lb"

    # -- what goes off, what is counted --------------------------------------------------------

    def _clear_out(self) -> None:
        home = self.home
        heap: dict[str, list[Body]] = {}
        for item, days in _KEEP_DAYS.items():
            old = home.pantry.older(item, home.day - dt.timedelta(days=days))
            if old:
                why = (
                    "spoiled"
                    if item in ("milk", "winter soup", "bean stew", "chicken stock")
                    else "composted"
                )
                why = (
                    "fed to animals"
                    if item in ("bread", "cucumber", "summer squash", "egg")
                    else why
                )
                heap.setdefault(why, []).append(home.line(item, old))
        for why, lines in heap.items():
            home.write(
                "discarded", {"lines": lines, "why": why}, by=home.someone(), late=home.late()
            )

    def _count(self) -> None:
        home, rng = self.home, self.home.rng
        self._counts += 1
        staples = [
            item
            for item in ("sugar", "flour", "rice", "oats", "potato", "dry pasta")
            if home.pantry.has(item) > 32
        ]
        items = rng.sample(staples, min(3, len(staples)))
        lines = []
        for item in sorted(items):
            there = home.pantry.has(item)
            off = rng.choice((1, 1, 2, 2, 3, 5)) + (
                5 * LB if self._counts == 8 and item == items[0] else 0
            )
            off = min(off, there - LB)
            if self._counts == 14 and item == items[0]:
                off = -3 * LB  # a bag that nobody remembers
                home.pantry.put(item, -off, home.day)
            else:
                home.pantry.take(item, off)
            home.pantry.counted(item)
            lines.append({"item": item, "amount": say(item, there - off)})
        if lines:
            missing = {"missing": "eaten"} if self._counts == 8 else {}
            home.write("counted", {"lines": lines, **missing}, by="Oda", at="21:00")

    # -- gifts, barter, the wild ------------------------------------------------------------------

    def _give(self) -> None:
        home, rng = self.home, self.home.rng
        jarred = [("plum butter", CUP, "half-pint jar"), ("strawberry jam", CUP, "half-pint jar"),
                  ("dill pickle", PINT, "pint jar"), ("apple sauce", PINT, "pint jar")]  # fmt: skip
        ready = [one for one in jarred if home.pantry.has(one[0]) >= 6 * one[1]]
        plenty = [
            (item, amount) for item, amount in _PASSERS if home.pantry.has(item) >= 3 * amount
        ]
        if ready and (not plenty or rng.random() < 0.5):
            item, size, jar = rng.choice(ready)
            count = rng.choice((1, 1, 2))
            line = home.line(item, size * count) | {"amount": jars_of(jar, count)}
        elif plenty:
            line = home.line(*rng.choice(plenty))
        else:
            return
        how, to = rng.choice(("gift", "gift", "barter")), rng.choice(NEIGHBOURS)
        home.write(
            "given_away",
            {"how": how, "to": to, "lines": [line]},
            by=home.someone(),
            late=home.late(),
        )
        if how == "barter":
            self._got(
                "barter", to, rng.choice((("honey", LB), ("ground beef", 2 * LB), ("milk", 64)))
            )

    def _receive(self) -> None:
        home, month = self.home, self.home.day.month
        if month in (7, 8):
            self._got("forage", None, ("blackberry", 3 * LB))
            if self._frozen == home.day.year:
                return  # eaten as they are
            self._frozen = home.day.year
            berries = [home.line("blackberry", 3 * LB)]
            if home.pantry.has("freezer bag") >= 3:
                berries.append(home.line("freezer bag", 3))
            made = [{"amount": "2 lb 14 oz", "kept": "freezer"}]
            home.pantry.put("frozen blackberry", 46, home.day)
            body = {
                "makes": "frozen blackberry",
                "method": "freeze",
                "used": berries,
                "made": made,
            }
            home.write("put_up", body | {"work": home.work(20, CHILDREN)}, by="Juno")
        elif month in (9, 10, 11):
            self._got("forage", None, ("mushroom", 18))
        else:
            self._got(
                "gift",
                home.rng.choice(NEIGHBOURS),
                home.rng.choice((("honey", 8), ("potato", 6 * LB))),
            )

    def _got(self, how: str, source: str | None, what: tuple[str, int]) -> None:
        home, (item, amount) = self.home, what
        home.pantry.put(item, amount, home.day)
        line = {"item": item, "amount": say(item, amount), "kept": place_of(item)}
        if how != "forage":
            line["value"] = home.paid(item, amount)
        body: Body = {"how": how, "lines": [line]} | ({"from": source} if source else {})
        home.write("received", body, by=home.someone(), at="11:00", late=home.late())

    # -- skills and targets -------------------------------------------------------------------------

    def opening(self) -> None:
        """Count what was in the house before the first day; nobody knows what it cost."""
        lines = []
        for item, amount in (("potato", 22 * LB), ("onion", 7 * LB), ("honey", 24)):
            self.home.pantry.put(item, amount, self.home.start)
            lines.append({"item": item, "amount": say(item, amount)})
        self.home.write("counted", {"lines": lines, "when": "start"}, by="Oda", at="06:30", hour=8)

    def targets(self) -> None:
        """Write down what the household aims at."""
        for body in TARGETS:
            self.home.write("target_set", body, by="Ilse")

    def _practise(self) -> None:
        home, rng = self.home, self.home.rng
        for skill, people, months, minutes, chance in PRACTISED:
            if home.day.month in months and rng.random() < chance:
                who = list(people) if rng.random() < 0.6 else [rng.choice(people)]
                spent = str(round(minutes * rng.uniform(0.6, 1.4) / 5) * 5)
                body = {
                    "skill": skill,
                    "people": who,
                    "minutes": spent,
                    "went": rng.choice((2, 3, 3, 4, 4, 5)),
                }
                if note := NOTES.get((skill, body["went"])):
                    body["note"] = note
                home.write("practised", body, by=who[0], late=home.late())

    def gauges(self) -> None:
        """Have the canner's gauge tested before each season; it reads a little low, then right."""
        for year, reads in zip(
            range(self.home.start.year, self.home.end.year + 1),
            ("0", "-0.5 psi", "0", "0"),
            strict=False,
        ):
            day = dt.date(year, 6, 1)
            if self.home.start <= day <= self.home.end:
                body = {"gauge": "pressure canner", "reads": reads, "by": "extension office"}
                self.home.pen.add("gauge_tested", day, body, by="Marek")

    def looked_up(self) -> None:
        """Look up what the tables leave open about the first pickles."""
        later = {one["replaces"] for one in self.home.pen.of("put_up") if "replaces" in one}
        taken = {one["body"]["id"] for one in self.home.pen.of("struck")}
        for batch in self.home.pen.of("put_up"):
            day = dt.date.fromisoformat(batch["on"]) + dt.timedelta(days=30)
            is_plain = batch["id"] not in later | taken and "replaces" not in batch
            if batch["body"]["makes"] == "dill pickle" and is_plain and day <= self.home.end:
                body = {
                    "batch": batch["id"],
                    "publication": "the extension's pickle bulletin, page 4",
                    "says": "vinegar of 5 percent; so says the label of the bottle we used",
                }
                self.home.pen.add("checked", day, body, by="Oda")
                return

    def _special(self) -> None:
        """Do the few things that are there to be found."""
        home, passed = self.home, (self.home.day - self.home.start).days
        if passed in (5, 12):  # the coffee in the tin, which nobody ever wrote down as bought
            line = {"item": "coffee", "amount": "10 oz"}
            body = {"ate": [line], "dish": "a week's coffee", "people": 4}
            home.write("eaten", body, by="Tam", at="08:00")
        if not self._is_spiced and passed >= 320 and home.pantry.has("apple") >= 48:
            self._is_spiced = True  # cinnamon was always just there
            ate = [home.line("apple", 48), {"item": "cinnamon", "amount": "1 oz"}]
            home.write(
                "eaten", {"ate": ate, "dish": "baked apples", "people": 6}, by="Oda", at="19:00"
            )
        if passed == 560:
            body = {
                "name": "price_of_electricity",
                "value": "0.169 per kWh",
            }  # July 2023, APU000072610
            home.write("setting_changed", body, by="Marek")
