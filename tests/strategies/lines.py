"""Random lines: an item, an amount in whole units, and now and then the lot it came from."""

from __future__ import annotations

from strategies import catalog as c

PER = {  # canonical unit -> grams (or None) that the door knew when the line was written
    "garlic": (("clove", 5, "item"), ("head", 45, "item")),
    "tomato": (("piece", 120, "item"),),
    "sugar": (("cup", 200, "food table"),),
    "bean": (("peck", 7000, "container table"),),
}
MASS_TYPED = {"egg": ("lb", 8247), "milk": ("kg", 970_874)}
"""Items of another measure for which a mass is typed: the unit, and its whole units then."""


class Lines:
    """Chance, and the lines made by it."""

    def __init__(self, rng):
        self.rng = rng
        self.lots = []  # (lot id, item) that some event supplied, or did once
        self.labels = []  # (label, item)
        self.focus = self._focus()
        self.mixed = False
        self.as_said = False  # lines of today's version: as they were said, in any unit
        self._units = {}  # item -> the few units in which this book speaks of it

    def _focus(self):
        """Return the few items that this book is mostly about, so that they meet often."""
        if self.chance(0.5):
            made = c.PUT_UP[: self.rng.randint(2, 4)]  # the chain, two to four deep
        else:
            made = self.rng.sample(c.PUT_UP, 2)
        other = (c.RAW, c.STOCK, c.SHOP, tuple(c.JARS), c.EQUIPMENT, c.INPUTS)
        some = [item for pool in other for item in self.rng.sample(pool, (len(pool) + 1) // 2)]
        used = [item for product in made for item in c.INGREDIENTS[product]]
        return {*made, *some, *used[:6], "lid"}

    def item(self, pool):
        """Return an item of a pool: mostly one that this book is about."""
        there = {item for _, item in self.lots[-25:]}
        stocked = [item for item in pool if item in there] if self.chance(0.5) else ()
        near = stocked or [item for item in pool if item in self.focus]
        return self.pick(near if near and self.chance(0.9) else pool)

    def chance(self, p):
        return self.rng.random() < p

    def pick(self, options):
        return self.rng.choice(options)

    def money(self):
        return self.pick(("0.99", "3.40", "12", "7.125", "0.055", "24.5", "1", "0"))

    def work(self, p):
        if not self.chance(p):
            return {}
        people = ("Ada", "Bo")[: self.pick((1, 2))]
        return {"work": [{"person": w, "minutes": self.pick(("30", "45.5"))} for w in people]}

    def amount(self, item, most_times=1):
        """Return whole units: few sizes, so that lots end evenly, and odd ones between."""
        measure = c.ITEMS[item]["measure"]
        if measure == "count":
            step, most = 1000, (40 if c.ITEMS[item]["sort"] in ("jar", "lid") else 12)
        else:
            step, most = {"energy": (1_000_000, 30)}.get(measure, (250_000, 16))
        whole = step * self.rng.randint(1, most) * self.rng.randint(1, most_times)
        if measure != "count" and self.chance(0.15):
            whole += self.rng.randint(1, 999)
        return whole

    def text(self, item, whole):
        unit, each = c.TEXT_UNIT[c.ITEMS[item]["measure"]]
        return f"{whole // each}.{whole % each:03d} {unit}" if each > 1 else f"{whole} {unit}"

    def units_of(self, item):
        """Return the few units in which a book speaks of an item, so that they meet often."""
        if item not in self._units:
            own = {"mass": "g", "volume": "ml", "count": "piece", "energy": "kWh"}
            others = [unit for unit in c.SAID_UNITS if unit != "kWh"]
            some = self.rng.sample(others, self.pick((1, 2, 3)))
            own_unit = own[c.ITEMS.get(item, {}).get("measure", "mass")]
            self._units[item] = [own_unit, own_unit, *some]
        return self._units[item]

    def said(self, item, most_times=1, unit=None, times=None):
        """Return an amount of an item as today's version stores it."""
        unit = unit or self.pick(self.units_of(item))
        measure, each = c.SAID_UNITS[unit]
        if times is None:
            times = self.pick((500, 1000, 2000, 3000, 7000, 12500, 333)) * self.rng.randint(
                1, most_times
            )
            times *= {"g": 250, "ml": 250}.get(unit, 1)
            times = 1000 * (1 + times // 1000) if measure == "count" else times
        out = {"amount": f"{times / 1000:g} {unit}", "measure": measure}
        out["whole"] = round(times * each / 1000)
        if measure in ("volume", unit):
            out |= {"per": unit, "times": times}
        return out

    def line(self, item, n=None, named=True, most_times=1):
        """Return a stored line, sometimes typed in a unit of another measure."""
        line = {"item": item} if n is None else {"item": item, "n": n}
        if self.as_said:
            line |= self.said(item, most_times)
        elif c.ITEMS.get(item, {}).get("measure") == "count" and self.chance(0.15):
            times = self.rng.randint(1, 9) * 1000  # heads were pieces in the first version
            line |= {"amount": f"{times // 1000} heads", "whole": times, "basis": "exact"}
        elif item in PER and self.chance(0.45):
            unit, grams, basis = self.pick(PER[item])
            times = self.pick((500, 1000, 3000, 7000, 12500))
            line |= {"amount": f"{times / 1000:g} {unit}", "whole": times * grams}
            line |= {"basis": basis, "per": unit, "times": times}
        elif item in MASS_TYPED and self.chance(0.3):
            unit, each = MASS_TYPED[item]
            times = self.pick((1000, 2500))
            line |= {"amount": f"{times / 1000:g} {unit}", "whole": each * times // 1000}
            line |= {"basis": "item", "per": unit, "times": times}
        else:
            whole = self.amount(item, most_times)
            line |= {"amount": self.text(item, whole), "whole": whole, "basis": "exact"}
        if named and self.chance(0.22):
            line["lot"] = self.named(item)
        return line

    def lines(self, pool, named=True, most_times=1):
        """Return one to three lines, of a nickname now and then."""
        found = []
        for n in range(1, self.pick((2, 2, 3, 4))):
            item = self.item(pool)
            if item in c.NICKNAMES and self.chance(0.2):
                item = c.NICKNAMES[item]
            found.append(self.line(item, n, named, most_times))
        return found

    def named(self, item):
        """Return a lot to name: of the item mostly, else any, struck ones too, or none such."""
        own = [lot for lot, of in self.lots if of == item]
        labels = [label for label, of in self.labels if of == item]
        if labels and self.chance(0.15):
            return self.pick(labels)
        if own and self.chance(0.85):
            return self.pick(own)
        if self.lots and self.chance(0.8):
            return self.pick(self.lots)[0]
        return "no such lot:1"

    def made(self, item, n):
        """Return a made entry: so many jars of a size, some unsealed, or an amount."""
        measure = c.ITEMS[item]["measure"]
        if (measure == "volume" or (self.as_said and self.chance(0.3))) and self.chance(0.8):
            jar = self.item(tuple(c.JARS))
            jars = self.rng.randint(1, 11)
            made = {"n": n, "jar": jar, "jars": jars, "whole": jars * c.JARS[jar]}
            made |= (
                {"measure": "volume", "per": jar, "times": jars * 1000}
                if self.as_said
                else {"basis": "exact"}
            )
            made["kept"] = self.pick(("shelf", "cellar"))
            if self.chance(0.3):
                made["unsealed"] = self.rng.randint(1, jars)
            if self.chance(0.2):
                made["lids"] = self.pick(c.LIDS)
            if self.chance(0.2):
                head, first = self.label(n)
                made["labels"] = {"from": f"{head}{first}", "to": f"{head}{first + jars - 1}"}
                self.labels.append((f"{head}{first + self.rng.randrange(jars)}", item))
            return made
        if self.as_said:
            return {"n": n, **self.said(item), "kept": "fridge"}
        whole = self.amount(item)
        return {
            "n": n,
            "amount": self.text(item, whole),
            "whole": whole,
            "basis": "exact",
            "kept": "fridge",
        }

    def fuel(self, n):
        """Return fuel by the meter or from stock."""
        if self.chance(0.5):
            return {
                "n": n,
                "metered": self.pick(("electricity", "gas")),
                "amount": "2.4 kWh",
                "whole": 8_640_000,
                **({"measure": "energy"} if self.as_said else {"basis": "exact"}),
            }
        return self.line(self.pick(("propane", "firewood")), n)
