"""Random stored bodies, one method a kind."""

from __future__ import annotations

import copy
import string

from strategies import catalog as c
from strategies.lines import Lines

_SAID = ("amount", "whole", "measure", "per", "times")


class Bodies(Lines):
    """Bodies that a household might have written, lines and named lots included."""

    def planted(self):
        body = {"crop": self.item(c.GROWN), "how": self.pick(("sown", "set out"))}
        if self.chance(0.8):
            item = self.pick(("tomato seed", "tomato seed", "bean", "garlic", "bean soup"))
            body["seed"] = self.line(item, n=1)
        return body

    def harvested(self):
        lines = self.lines(c.GROWN, named=False, most_times=4)
        for line in lines:
            if self.as_said and self.chance(0.3):
                self._trim(line)
            elif line.get("basis") == "exact" and self.chance(0.3):
                trimmed = self.pick((line["whole"] // 4, line["whole"] // 3, line["whole"]))
                line |= {"trimmed": self.text(line["item"], trimmed), "trimmed_whole": trimmed}
        return {"lines": lines, **self.work(0.5)}

    def _trim(self, line):
        """Trim part of a line, said in its own unit, or a little in another."""
        unit = line["amount"].split()[1]
        if self.chance(0.6):
            times = int(float(line["amount"].split()[0]) * 1000)
            off = self.said(line["item"], unit=unit, times=self.pick((times // 4, times)) or times)
        else:
            off = self.said(line["item"], unit=self.pick(("g", "ml")), times=1000)
        line["trimmed"] = off.pop("amount")
        line |= {f"trimmed_{name}": value for name, value in off.items()}

    def bought(self):
        lines = self.lines(c.BOUGHT, named=False, most_times=4)
        for line in lines:
            line["paid"] = self.money()
            if line["item"] in c.INPUTS and self.chance(0.5):
                line["for_crop"] = self.item(c.GROWN)
            if line["item"] in (*c.JARS, *c.EQUIPMENT, *c.INPUTS):
                if self.chance(0.25):
                    line["uses"] = self.pick(("5", "10", "40"))
                if self.chance(0.35):
                    line["years"] = self.pick(("2", "2.5", "4", "10", "0.5"))
        return {"lines": lines, "shop": "corner shop"}

    def stocking_up(self):
        """Return one large purchase of much that this book will need."""
        wanted = [item for item in c.BOUGHT if item in self.focus and self.chance(0.8)]
        lines = [
            {**self.line(item, n, named=False, most_times=12), "paid": self.money()}
            for n, item in enumerate(wanted or ["lid"], 1)
        ]
        return {"lines": lines, "shop": "corner shop"}

    def received(self):
        pool = (*c.RAW, "stew", "lid", "tomato seed", "pint jar", "prune", "firewood")
        lines = self.lines(pool, named=False)
        for line in lines:
            if self.chance(0.5):
                line["value"] = self.money()
        return {"how": self.pick(("gift", "barter", "forage")), "lines": lines}

    def recipe_written(self):
        makes = self.item(c.PUT_UP)
        return {
            "recipe": makes,
            "makes": makes,
            "uses": self.lines(c.INGREDIENTS[makes], named=False),
            "yields": {"mass": "1 kg", "volume": "1 l"}.get(c.ITEMS[makes]["measure"], "5"),
        }

    def put_up(self):
        there = {item for _, item in self.lots[-40:]}
        deeper = [m for m in c.PUT_UP if c.INGREDIENTS[m][0] in there and m in self.focus]
        makes = deeper[-1] if deeper and self.chance(0.4) else self.item(c.PUT_UP)
        pool = c.INGREDIENTS[makes] if self.chance(0.85) else c.EATEN
        used = self.lines(pool)
        if self.chance(0.5):
            used[0] = self.line(c.INGREDIENTS[makes][0], n=1)
        count = self.pick((1, 1, 2))
        body = {
            "makes": makes,
            "method": self.pick(c.METHODS[:2] if self.chance(0.6) else c.METHODS),
            "used": used,
            "made": [self.made(makes, n) for n in range(1, count + 1)],
            "lids": self.item(c.LIDS),
            **self.work(0.7),
        }
        if self.chance(0.5):
            body["fuel"] = [self.fuel(n) for n in range(1, self.pick((2, 3)))]
        if self.chance(0.5):
            body["equipment"] = self.pick(([self.item(c.EQUIPMENT)], ["canner", "dryer"]))
        if self.chance(0.4):
            body["loads"] = self.rng.randint(1, 3)
        return body

    def eaten(self):
        body = {"ate": self.lines(c.EATEN)}
        if self.chance(0.6):
            body["people"] = self.rng.randint(1, 6)
            if self.chance(0.4):
                body["guests"] = self.rng.randint(0, body["people"])
        if self.chance(0.4):
            body["left"] = [
                {
                    **self.line("stew", n=n, named=False),
                    "kept": self.pick(("fridge", "freezer")),
                    "share": self.pick(("0.25", "0.5", "0.1", "0")),
                }
                for n in range(1, self.pick((2, 3)))
            ]
        return body

    def given_away(self):
        pool = (*c.EATEN, "pint jar", "tomato seed")
        return {"how": self.pick(("gift", "barter", "sold")), "lines": self.lines(pool)}

    def discarded(self):
        why = self.pick(c.WHY[:3] if self.chance(0.6) else c.WHY)
        pool = c.PUT_UP if self.chance(0.6) else (*c.EATEN, "quart jar", "lid")
        return {"lines": self.lines(pool), "why": why}

    def counted(self):
        lines = self.lines((*c.EATEN, *c.STOCK, *c.JARS), named=False)
        for line in lines:
            if self.as_said and self.chance(0.3):
                unit = line["amount"].split()[1]
                line |= self.said(line["item"], unit=unit, times=0)
            elif line.get("basis") == "exact" and "head" not in line["amount"] and self.chance(0.3):
                line |= {"whole": 0, "amount": self.text(line["item"], 0)}
        body = {"lines": lines}
        if self.chance(0.5):
            body["when"] = self.pick(("start", "end"))
        if self.chance(0.5):
            body["missing"] = self.pick(("eaten", "lost"))
        return body

    def price_seen(self):
        line = self.line(self.item(c.PRICED), named=False)
        return {**line, "price": self.money()}

    def item_described(self):
        """Say something new of an item; what it is kept in and its sort stay."""
        item = self.item(tuple(c.ITEMS))
        body = {"item": item, "sort": c.ITEMS[item]["sort"]}
        if item in ("garlic", "egg", "tomato", "sugar"):
            unit = self.pick(("clove", "head", "piece", "cup"))
            body["g_per"] = {unit: self.pick(("4.5", "6", "61.3", "200"))}
        if item in (*c.PUT_UP, "milk", "vinegar") and self.chance(0.5):
            body["g_per_ml"] = self.pick(("1.1", "0.95"))
        if item in c.EATEN and self.chance(0.5):
            body["kcal_per_100g"] = self.pick(("50", "120.5"))
        if item in c.PUT_UP and self.chance(0.4):
            body["shop_equivalent"] = self.pick(c.SHOP)
        if item in c.NICKNAMES and self.chance(0.6):
            body["also"] = [c.NICKNAMES[item]]
        if item in (*c.JARS, *c.EQUIPMENT, *c.INPUTS) and self.chance(0.6):
            body[self.pick(("uses", "years"))] = self.pick(("4", "15"))
        if self.mixed:
            self._weigh(body)
        return body

    def _weigh(self, body):
        """Say what one of a unit weighs or how many pieces it is, or another measure."""
        units = [unit for unit in self.units_of(body["item"]) if unit not in ("g", "lb", "kWh")]
        if units and self.chance(0.7):
            weight = self.pick(("4.5", "61.3", "200", "2800", "0.7"))
            body["g_per"] = {**body.get("g_per", {}), self.pick((*units, "piece")): weight}
        if self.chance(0.3):
            body["g_per_ml"] = self.pick(("1.1", "0.95"))
        if self.chance(0.35):
            body["pieces_per"] = {self.pick(("head", "bucket")): self.pick(("1", "12", "2.5"))}
        if self.chance(0.3):
            body["measure"] = self.pick(("mass", "volume", "count"))

    def setting_changed(self):
        name = self.pick(tuple(c.SETTINGS))
        return {"name": name, "value": self.pick(c.SETTINGS[name])}

    def gauge_tested(self):
        reads = self.pick(("0 psi", "+1 psi", "+3 psi", "-2 psi", "+1.5 psi"))
        return {"gauge": "dial", "reads": reads}  # any other has to be in the book

    def person_described(self):
        body = {"person": self.pick(("Ada", "Ben", "Cy")), "sex": self.pick(("female", "male"))}
        body |= self.pick(
            ({"age": 0}, {"age": 9}, {"age": 39}, {"born": "2023-09-01"}, {"born": "1950-02-28"})
        )
        if body["sex"] == "female" and body.get("age") == 39 and self.chance(0.5):
            body |= {"state": self.pick(("pregnant", "nursing"))}
        if self.chance(0.3):
            body |= {
                "weight": "62 kg",
                "height": "1.65 m",
                "activity": self.pick(("light", "hard")),
            }
        return body | ({"table": self.pick(("here", "away"))} if self.chance(0.2) else {})

    def seed_checked(self):
        body = {"crop": self.item(c.GROWN)}
        if self.chance(0.5):
            body |= {"sown": 20, "sprouted": self.pick((0, 13, 20))}
        return body | self.pick(
            ({"year": 2021}, {"seeds": 40}, {"days": 60}, {"year": 2023, "seeds": 0})
        )

    def frost_seen(self):
        year = self.pick(("2021", "2022", "2023"))
        spring = {"frost": "last of spring", "seen": f"{year}-05-{self.pick(('02', '17'))}"}
        return self.pick(
            (spring, {"frost": "first of fall", "seen": f"{year}-10-{self.pick(('01', '20'))}"})
        )

    def flock_counted(self):
        return {"hens": self.pick((0, 5, 6)), **({"flock": "brown"} if self.chance(0.3) else {})}

    def meter_read(self):
        reads = self.pick(("12 kWh", "60.5 kWh", "3 L", "0 kWh"))
        return {"meter": self.pick(("freezer", "water")), "reads": reads}

    def practised(self):
        return {"skill": "grafting", "people": ["Ada"], "minutes": "45"}

    def target_set(self):
        if self.as_said:
            said = self.said("sauce", unit=self.pick(("g", "ml", "piece", "bucket")))
            return {"item": "sauce", **{k: said[k] for k in ("amount", "whole", "measure")}}
        return {"item": "sauce", "amount": "20 l", "whole": 20_000_000, "basis": "exact"}

    def corrected(self, kind, old):
        """Return another body for an entry: new amounts, a line gone or added, or all anew."""
        body = copy.deepcopy(old)
        key = next((k for k in ("lines", "used", "ate") if k in body), None)
        if kind in ("item_described", "setting_changed") or key is None or self.chance(0.3):
            if kind == "item_described":
                return {**body, **({"kcal_per_100g": "77"} if self.chance(0.5) else {})}
            return getattr(self, kind)()
        for line in body[key]:
            if "measure" in line and self.chance(0.5):
                for name in [n for n in line if n in _SAID or n.startswith("trimmed")]:
                    del line[name]
                line |= self.said(line["item"])
            elif line.get("basis") == "exact" and self.chance(0.5):
                whole = self.amount(line["item"])
                line |= {"whole": whole, "amount": self.text(line["item"], whole)}
                line.pop("trimmed", None), line.pop("trimmed_whole", None)
        if len(body[key]) > 1 and self.chance(0.4):
            del body[key][0]  # the others keep their numbers
        return body

    def note(self, kind, entry, body):
        """Remember the lots that an event may supply, to be named by later lines."""
        marks = {"eaten": "left", "put_up": "made"}
        if kind in ("harvested", "bought", "received", "eaten", "put_up"):
            for line in body.get(marks.get(kind, "lines"), ()):
                item = line.get("item", body.get("makes"))
                self.lots.append((f"{entry}:{line['n']}", item))
                if line.get("unsealed"):
                    self.lots.append((f"{entry}:{line['n']}f", item))
        elif kind in ("counted", "discarded") and self.chance(0.3):
            mark = "c" if kind == "counted" else "u"
            self.lots.append((f"{entry}:1{mark}", body["lines"][0]["item"]))

    def label(self, n):
        """Return the first and last label of a made entry, by number or with a letter before."""
        first = self.rng.randint(1, 90)
        head = self.pick(("", string.ascii_uppercase[n] + "-"))
        return head, first
