"""What is put up: batches when there is enough to fill a canner, bread and soup all year.

Pounds to jars follow the published canner loads, except the sauce: about 20 lb of unpeeled
tomatoes with a few peppers and onions cook down to eight or nine quarts (common practice, no
source). Minutes and pressures are those of the published schedules at 2,600 ft.
"""

from __future__ import annotations

from typing import Any

from seed_demo.home import Home
from seed_demo.household import PLAIN_SAUCE
from seed_demo.pantry import CUP, PINT, QUART
from seed_demo.stove import LB, Stove

__all__ = ["Kitchen"]

Body = dict[str, Any]
_FREEZER = "7 cubic feet of freezer, all in by the evening"


class Kitchen(Stove):
    """Puts up what the garden gives."""

    def __init__(self, home: Home) -> None:
        super().__init__(home)
        self._is_short = False
        self._is_warned = False

    def today(self) -> None:
        """Put up what is ripe, bake on Fridays, make soup in the cold months."""
        day, has = self.home.day, self.home.pantry.has
        if day.weekday() == 2:
            self._starter()
        if day.weekday() == 4:
            self._bread()
        if (
            day.month in (10, 11, 12, 1, 2, 3)
            and day.weekday() == 6
            and day.isocalendar().week % 3 == 1
        ):
            self._soup()
        if day.weekday() not in (1, 3, 5, 6):
            return
        for item, pounds, makes, batch in (
            ("tomato", self._tomatoes(), "tomato sauce", self._sauce),
            ("plum", 17 if day.year % 2 else 25, "plum butter", self._plum_butter),
            ("plum", 10 if self.enough("plum butter") else 1000, "canned plum", self._plums),
            ("cucumber", 9, "dill pickle", self._pickles),
            ("strawberry", 4, "strawberry jam", self._jam),
            ("green bean", 10, "canned green bean", self._beans),
        ):
            if has(item) >= pounds * LB and not self.enough(makes):
                batch()
                return
        self._autumn()

    def _tomatoes(self) -> int:
        """Return the pounds that a batch of sauce waits for, and one to eat."""
        if not self._is_read():
            return 21
        return 19 if self.home.day.year == self.home.bad_year else 36

    def _is_read(self) -> bool:
        """Return whether somebody has read the bulletin by now: after three batches of sauce."""
        return self.made.get("tomato sauce", 0) >= 3

    # -- tomatoes ---------------------------------------------------------------------------

    def _sauce(self) -> None:
        """Make the house's sauce until somebody reads the bulletin, then the bulletin's."""
        if self._is_read():
            self._plain_sauce()
        else:
            self._house_sauce()

    def _puree(self, pounds: int, made: int) -> Body:
        used = [self.home.line("tomato", pounds * LB)]
        rest = [self.rest("tomato puree", made)]
        self.put_up("tomato puree", "cook", used, rest, 10 + 2 * pounds)
        return self.home.line("tomato puree", made)

    def _house_sauce(self) -> None:
        home = self.home
        used = [self._puree(20, 9 * QUART)]
        for item, wanted in (("pepper", 40), ("onion", 32), ("salt", 2)):
            amount = min(wanted, home.pantry.has(item))
            used += [home.line(item, amount)] if amount else []
        number = self.made.get("tomato sauce", 0)
        out = home.rng.choice((8, 8, 9)) * QUART
        unsealed = {"unsealed": 1} if number == 1 else {}
        made = [
            self.jars("tomato sauce", "quart jar", 7, **unsealed),
            self.rest("tomato sauce", out - 7 * QUART),
        ]
        event = self.put_up(
            "tomato sauce", "pressure", used, made, 150, minutes="25", pack="hot", recipe="house tomato sauce",
            times="1", schedule="spaghetti_sauce_without_meat-hot-quart-dial-1",
            **self.pressure("0.35 therm"),
        )  # fmt: skip
        self.eat_soon("tomato sauce", out - 7 * QUART, event)
        if unsealed:
            home.in_days(2, lambda: self._seal_failed(event["id"]))

    def _plain_sauce(self) -> None:
        home = self.home
        if not self._is_warned:
            self._is_warned = True
            home.write("recipe_written", PLAIN_SAUCE, by="Ilse", at="09:00", hour=9)
        number = self.made.get("tomato sauce", 0)
        # a load of seven quarts; in a bad season half as much, and a pint for the fridge
        half = home.pantry.has("tomato") < 36 * LB
        jars, pounds, puree, rest = (3, 18, 336, [PINT]) if half else (7, 35, 672, [])
        used = [self._puree(pounds, puree), self.fetched("bottled lemon juice", 2 * jars)]
        made = [self.jars("tomato sauce", "quart jar", jars)]
        made += [self.rest("tomato sauce", amount) for amount in rest]
        event = self.put_up(
            "tomato sauce", "pressure", used, made, 95 if half else 160, minutes="15", pack="hot",
            recipe="plain tomato sauce", times="0.5" if half else "1", schedule="tomato_sauce-hot-quart-dial-2",
            acid=[{"acid": "lemon juice", "amount": "2 tbsp", "per": "jar"}],
            **self.pressure("0.4 therm", psi=None if number == 5 else "12", headspace="1/4 in"),
        )  # fmt: skip
        for amount in rest:
            self.eat_soon("tomato sauce", amount, event)

    def _seal_failed(self, batch: str) -> None:
        line = self.home.line("tomato sauce", QUART)
        line |= {"amount": "1 quart jar", "lot": f"{batch}:1f"}
        note = "lid lifted off by hand the next morning"
        body = {"lines": [line], "why": "seal failed", "note": note}
        self.home.write("discarded", body, by="Oda")
        self.home.jars_free["quart jar"] += 1

    # -- fruit and vegetables ---------------------------------------------------------------

    def _plum_butter(self) -> None:
        line, much = self.home.line, self.home.pantry.has("plum") >= 25 * LB
        used = [line("plum", (24 if much else 16) * LB), self.fetched("sugar", 72 if much else 48)]
        jars, rest, times = (16, 8, "1.5") if much else (11, CUP, "1")
        made = [self.jars("plum butter", "half-pint jar", jars), self.rest("plum butter", rest)]
        ring = self.bottled(45_000 if much else 30_000)  # outdoors, where the wasps are
        event = self.put_up("plum butter", "boiling water", used, made, 190, minutes="10", recipe="plum butter",
                     times=times, pack="hot", **self.kettle(ring, "1/4 in", 2 if much else 1))  # fmt: skip
        self.eat_soon("plum butter", rest, event)

    def _plums(self) -> None:
        used = [self.home.line("plum", 9 * LB), self.fetched("sugar", LB)]
        self.put_up("canned plum", "boiling water", used, [self.jars("canned plum", "pint jar", 9)], 90, minutes="25",
                     pack="hot", recipe="plums in light syrup", times="1", schedule="plums-hot-pint-bw-1",
                     **self.kettle(self.gas("0.2 therm"), "1/2 in"))  # fmt: skip

    def _pickles(self) -> None:
        line, count = self.home.line, self.home.rng.choice((7, 8, 8))
        used = [
            line("cucumber", 8 * LB),
            self.fetched("vinegar", 6 * CUP),
            self.fetched("salt", 8),
        ]
        used += [line("garlic", 2)] if self.home.pantry.has("garlic") >= 2 else []
        self.put_up("dill pickle", "boiling water", used, [self.jars("dill pickle", "pint jar", count)], 110,
                     minutes="15", pack="raw", recipe="quick dill pickles", times="1",
                     acid=[{"acid": "vinegar 5%", "amount": "6 cup", "per": "batch"}],
                     **self.kettle(self.gas("0.2 therm"), "1/2 in"))  # fmt: skip

    def _jam(self) -> None:
        line = self.home.line
        used = [line("strawberry", 32), self.fetched("sugar", 57), self.fetched("pectin", 1)]
        self.put_up("strawberry jam", "boiling water", used,
                     [self.jars("strawberry jam", "half-pint jar", 9)], 80, minutes="10", pack="hot",
                     recipe="strawberry jam", times="1", **self.kettle(self.gas("0.15 therm"), "1/4 in"))  # fmt: skip

    def _beans(self) -> None:
        line, number = self.home.line, self.made.get("canned green bean", 0)
        if number % 2 and not self.enough("frozen green bean"):
            used, made = (
                [line("green bean", 9 * LB), self.fetched("freezer bag", 9)],
                [self.rest("frozen green bean", 130, "freezer")],
            )
            note = f"blanched 3 minutes; {_FREEZER}"
            self.put_up("frozen green bean", "freeze", used, made, 80, note=note)
        elif number >= 4 and not self._is_short and self.home.pantry.has("green bean") >= 10 * LB:
            # the minutes published for the smaller jar: the demo's under-processed batch
            self._is_short = True
            used = [line("green bean", 10 * LB)]
            made = [self.jars("canned green bean", "quart jar", 5, labelled=False)]
            self.put_up("canned green bean", "pressure", used, made, 110, minutes="20", pack="raw",
                         **self.pressure("0.3 therm"))  # fmt: skip
        else:
            made = [self.jars("canned green bean", "pint jar", 9)]
            self.put_up("canned green bean", "pressure", [line("green bean", 9 * LB)], made, 105, minutes="20",
                         pack="raw", schedule="snap_beans-raw-pint-dial-1",
                         **self.pressure("0.3 therm", psi=None if number == 1 else "12"))  # fmt: skip

    def _autumn(self) -> None:
        home, has, line = self.home, self.home.pantry.has, self.home.line
        month = home.day.month
        if has("pepper") >= 7 * LB and not self.enough("frozen pepper") and self._is_read():
            used = [line("pepper", 6 * LB), self.fetched("freezer bag", 5)]
            made = [self.rest("frozen pepper", 76, "freezer")]
            note = f"in strips, raw; {_FREEZER}"
            self.put_up("frozen pepper", "freeze", used, made, 45, note=note)
            return
        if month in (9, 10) and has("cabbage") >= 40 * LB and not self.enough("sauerkraut"):
            salt = self.fetched("salt", 8) | {"amount": "12 tbsp"}  # 3/4 cup: MSU_PFS_01600078
            used = [line("cabbage", 25 * LB), salt]
            made = [self.rest("sauerkraut", 9 * QUART, "cellar")]
            self.put_up("sauerkraut", "ferment", used, made, 90, recipe="sauerkraut", times="1",
                        note="to stand three and a half weeks in the pantry, at 70 F")  # fmt: skip
        elif month in (9, 10, 11) and has("apple") >= 30 * LB and not self.enough("apple sauce"):
            made = [self.jars("apple sauce", "pint jar", 9)]
            more = self.kettle(self.gas("0.25 therm"), "1/2 in")
            self.put_up("apple sauce", "boiling water", [line("apple", 216)], made, 120, minutes="20",
                         pack="hot", recipe="apple sauce", times="1", **more)  # fmt: skip
        elif month in (9, 10, 11) and has("apple") >= 26 * LB and not self.enough("dried apple"):
            used, made = [line("apple", 16 * LB)], [self.rest("dried apple", 35, "shelf")]
            fuel = [{"metered": "electricity", "amount": "6 kWh"}]
            self.put_up("dried apple", "dry", used, made, 95, fuel=fuel, equipment=["drier"],
                        note="at 135 F overnight, then a week in the big jar, shaken daily")  # fmt: skip

    def _starter(self) -> None:
        """Build the starter up where it will not do for another Friday."""
        old = self.home.pantry.has("sourdough starter")
        if old >= 13:
            return
        used = [self.fetched("flour", 34)]
        used += [self.home.line("sourdough starter", old)] if old else []
        made = [self.rest("sourdough starter", 36 + old // 2)]
        self.put_up("sourdough starter", "ferment", used, made, 10)

    def _bread(self) -> None:
        home = self.home
        if home.pantry.has("sourdough starter") < 13 or home.pantry.has("flour") < 100:
            return
        if home.pantry.has("milk") < QUART:
            return
        used = [home.line("flour", 96), home.line("milk", QUART)]
        used += [home.line("sourdough starter", 9), self.fetched("salt", 2)]
        fuel = [{"metered": "electricity", "amount": "3.4 kWh"}]
        made = [self.rest("bread", 144, "shelf")]
        self.put_up("bread", "cook", used, made, 55, fuel=fuel, recipe="lane bread", times="1")

    def _soup(self) -> None:
        has, line = self.home.pantry.has, self.home.line
        wanted = {"chicken": 56, "onion": 24, "carrot": 40, "potato": 32, "cabbage": 48}
        if any(has(item) < amount for item, amount in wanted.items()):
            return
        used = [line("chicken", 56), line("onion", 8), line("carrot", 8)]
        self.put_up("chicken stock", "cook", used, [self.rest("chicken stock", 2 * QUART)], 25)
        used = [
            line("chicken stock", 2 * QUART),
            line("potato", 32),
            line("carrot", 32),
            line("onion", 16),
        ]
        used.append(line("cabbage", 48))
        made = [
            self.rest("winter soup", 3 * QUART, "freezer"),
            self.rest("winter soup", 3 * QUART),
        ]
        event = self.put_up("winter soup", "cook", used, made, 60, recipe="winter soup", times="1")
        self.eat_soon("winter soup", 3 * QUART, event)

    # -- what goes wrong later --------------------------------------------------------------

    def broken(self) -> None:
        """Drop a pint of beans on the cellar steps, as soon as there are any."""
        if self.home.pantry.has("canned green bean") < PINT:
            self.home.in_days(30, self.broken)
            return
        line = self.home.line("canned green bean", PINT) | {"amount": "1 pint jar"}
        self.home.write(
            "discarded", {"lines": [line], "why": "broken", "note": "the cellar steps"}, by="Pip"
        )
