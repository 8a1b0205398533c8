"""What is said beside the things of a clause: money, days, facts, brackets, phrases, mending."""

from __future__ import annotations

from dataclasses import replace

from ledger.saying.containers import sized_jar
from ledger.saying.money import Money
from ledger.saying.numbers import figure
from ledger.saying.pieces import Piece, Scanner
from ledger.saying.quantities import Quantity
from ledger.saying.things import Phrase, Span, Thing, Things

__all__ = ["Beside", "counted"]


class Beside:
    """The half of gathering that makes no lines; `Gatherer` is the other."""

    scanner: Scanner
    kind: str | None
    out: Things
    mode: str
    pending: list[Quantity]
    apart: str
    zero: bool
    pieces: list[Piece]
    i: int

    def _next(self, k: int = 1) -> Piece | None:
        return self.pieces[self.i + k] if self.i + k < len(self.pieces) else None

    def _tag(self, k: int = 1) -> str:
        piece = self._next(k)
        return piece.tag if piece else ""

    def _flush(self) -> None:
        """Give amounts that no name follows to what was named last."""
        for one in self.pending:
            self.out.lines.append(Thing([one], None, self.mode, joined=self.apart))
        self.pending = []
        self.zero = False

    def _is_meal(self, k: int) -> bool:
        raise NotImplementedError

    def _meal(self) -> None:
        raise NotImplementedError

    # -- what is said beside -------------------------------------------------------------

    def _on_money(self, one: Piece) -> None:
        self.i += 1
        money: Money = one.value
        last = self.pending[-1] if self.pending else None
        if last is not None and last.unit is None and money.led == "for" and not money.per:
            self.pending.pop()
            money = replace(money, count=last.many)
        elif last is not None and self._tag(0) not in ("word", "name", "of"):
            self._flush()
        self.out.money.append((money, len(self.out.lines)))

    def _on_day(self, one: Piece) -> None:
        self.i += 1
        if self.pending and self._tag(0) not in ("word", "name", "of"):
            self._flush()
        k = 1 if self._tag(0) == "mark" else 0  # "Tuesday: 9 eggs"
        leads = bool(self.apart) and self._tag(k) in ("amount", "word", "name")
        self.out.days.append((one.value, len(self.out.lines)))
        if leads and self.out.lines:
            self.out.led.append(len(self.out.days) - 1)

    def _on_time(self, one: Piece) -> None:
        self.i += 1
        self.out.times.append(one.value)

    def _fact(self, one: Piece) -> None:
        self.i += 1
        if one.tag in self.out.facts and self.out.facts[one.tag] != one.value:
            self.out.left.append((one.start, one.end))
        self.out.facts[one.tag] = one.value
        self.out.spans[one.tag] = (one.start, one.end)

    _on_people = _on_guests = _on_psi = _on_headspace = _on_row = _on_area = _fact
    _on_length = _on_altitude = _on_pack = _on_unsealed = _on_labels = _fact
    _on_again = _fact

    def _on_process(self, one: Piece) -> None:
        name = "gauge" if one.value in ("dial", "weighted") else "method"
        self._fact(Piece(name, one.value, one.start, one.end))

    def _on_tool(self, one: Piece) -> None:
        """Keep what closed the jars in the note, where the door looks for it."""
        self.out.notes.append(self.scanner.said(one.start, one.end))
        self.out.is_done_with = True
        if one.value is None:
            self.i += 1
        else:
            self._on_process(one)

    def _on_note(self, one: Piece) -> None:
        self.out.notes.append(one.value)
        self.i += 1

    def _on_bracket(self, one: Piece) -> None:
        start, end = one.value
        self.i += 1
        inner = self.scanner.inside(start, end)
        content = [piece for piece in inner if piece.tag not in ("filler", "mark", "comma")]
        last = self.out.lines[-1] if self.out.lines else None
        if len(content) == 1 and content[0].tag == "amount" and last is not None and last.amounts:
            self._weighed(last, content[0].value, (start, end))
            return
        plain = (
            "day",
            "people",
            "guests",
            "money",
            "time",
            "psi",
            "headspace",
            "process",
            "label",
            "pack",
            "unsealed",
            "row",
            "area",
        )
        if content and (all(piece.tag in plain for piece in content) or content[0].tag == "prep"):
            self.pieces[self.i : self.i] = inner
            return
        self.out.notes.append(self.scanner.said(start, end).strip())

    def _weighed(self, line: Thing, said: Quantity, span: Span) -> None:
        """Take what a bucketful weighed as the amount, and the buckets as a note."""
        was = line.amounts[-1]
        jar = sized_jar(said.many, said.unit or "") if was.unit == "jar" else None
        if jar is not None:
            line.amounts[-1] = replace(was, unit=jar)
        elif (
            was.sort in ("unknown", "counted", "count")
            and said.sort == "measure"
            and len(line.amounts) == 1
        ):
            line.amounts = [said]
            line.note = was.text() if was.unit is None else counted(was)
        else:
            self.out.notes.append(self.scanner.said(*span).strip())

    # -- phrases -------------------------------------------------------------------------

    def _on_prep(self, one: Piece) -> None:
        roles: frozenset[str] = one.value
        k = self.i + 1
        while k < len(self.pieces) and self.pieces[k].tag in ("article", "filler"):
            k += 1
        follows = self.pieces[k].tag if k < len(self.pieces) else ""
        if (
            follows == "amount"
            and self.pieces[k].value.loose
            and k + 1 < len(self.pieces)
            and self.pieces[k + 1].tag in ("word", "name", "bed")
            and "from" not in roles
            and "against" not in roles
        ):
            k, follows = k + 1, self.pieces[k + 1].tag
        if self.pending and follows not in ("amount",):
            self._flush()
        if follows in (
            "process",
            "day",
            "pack",
            "time",
            "psi",
            "headspace",
            "people",
            "guests",
            "money",
            "row",
            "area",
        ):
            self.i = k
            return
        if follows in ("amount",) and "at" in roles and (self._is_each(k) or self._is_gauge(k)):
            return
        if follows in ("amount",):
            self._side(roles, one, k)
            return
        if follows in ("word", "name") and self._is_made_of(roles, k):
            self._side(roles, one, k)
            return
        if follows in ("word", "name", "bed", "label"):
            self._phrase(roles, one, k)
            return
        if follows == "verb" or not follows:
            self.out.left.append((one.start, one.end))
        self.i += 1

    def _is_each(self, k: int) -> bool:
        """Read ``2 crates of apples at 20 lb each``: the size of the container said before."""
        size, last = self.pieces[k], self.out.lines[-1] if self.out.lines else None
        each = self.scanner.words.find("small.each", self.scanner.tokens, size.end)
        was = last.amounts[-1] if last is not None and last.amounts else None
        if (
            each is None
            or last is None
            or was is None
            or was.sort not in ("unknown", "counted", "count")
        ):
            return False
        last.amounts[-1] = replace(size.value, many=size.value.many * was.many, packs=was.many)
        self.i = k + 1
        end = size.end + each[1]
        while self.i < len(self.pieces) and self.pieces[self.i].start < end:
            if self.pieces[self.i].end > end:
                self.out.left.append((end, self.pieces[self.i].end))
            self.i += 1
        return True

    def _is_gauge(self, k: int) -> bool:
        """Read ``90 min at 10 lb`` beside a canner as the pressure."""
        said: Quantity = self.pieces[k].value
        behind = self.pieces[k + 1].tag if k + 1 < len(self.pieces) else ""
        is_canned = self.kind == "put_up" or self.out.is_done_with
        if not is_canned or said.unit != "lb" or behind in ("word", "name", "of"):
            return False
        self.i = k
        self._fact(Piece("psi", figure(said.many), self.pieces[k].start, self.pieces[k].end))
        return True

    def _side(self, roles: frozenset[str], one: Piece, k: int) -> None:
        """Switch to what went in (``from 16 lb plums``), or to the other side of a swap."""
        self._flush()
        if self._is_into(roles, k):
            self.apart, self.i = "comma", k
            return
        if self.kind == "put_up" and "made" in roles and self.out.lines:
            for line in self.out.lines:
                line.mode = "used"
            self.mode = "made"
        elif self.kind == "put_up" and roles & {"from", "with"}:
            self.mode = "used"
        elif "against" in roles and self.kind in ("given_away", "got", "received"):
            self.mode = "other"
        elif not self._goes_without_saying(roles) and roles & {"from", "with", "to", "in"}:
            self.out.left.append((one.start, one.end))
        self.apart = "and"  # what follows is a thing of its own, not more of the one before
        self.i = k

    def _is_made_of(self, roles: frozenset[str], k: int) -> bool:
        """Return whether ``3 kg Äpfel zu Apfelmus`` names what was made of what was said before."""
        weighed = any(one.words is not None and one.amounts for one in self.out.lines)
        place = self.scanner.words.find("places", self.scanner.tokens, self.pieces[k].start)
        return self.kind == "put_up" and "made" in roles and weighed and place is None

    def _is_into(self, roles: frozenset[str], k: int) -> bool:
        """Return whether jars or bags of the same follow: ``in 5 freezer bags``, ``into 9 quarts``."""
        follows = self.pieces[k + 1].tag if k + 1 < len(self.pieces) else ""
        is_put_up = self.kind == "put_up" and self.mode == "main" and bool(self.out.lines)
        is_many = self.pieces[k].tag == "amount" and follows not in ("word", "name", "of")
        return is_put_up and bool(roles & {"in", "made"}) and is_many

    def _goes_without_saying(self, roles: frozenset[str]) -> bool:
        """Return whether the small word tells nothing more: eaten with, fed with, 5 for 2.50."""
        if self.kind in ("bought", "price_seen"):
            return "against" in roles and bool(self.out.money)
        return self.kind == "eaten" or (self.kind == "discarded" and "with" in roles)

    def _phrase(self, roles: frozenset[str], one: Piece, k: int) -> None:
        start = self.pieces[k].start
        end = self.pieces[k].end
        if self._is_meal(k):
            self.i = k
            self._meal()
            return
        tokens = self.scanner.tokens
        if self.scanner.words.is_("process.label", tokens[start].text) and k + 1 < len(self.pieces):
            number = self.pieces[k + 1]
            if number.tag in ("amount", "label") and number.end - number.start == 1:
                self.i = k + 2
                self._lot(tokens[number.start].text)
                return
        k += 1
        while k < len(self.pieces):
            tag = self.pieces[k].tag
            follows = self.pieces[k + 1].tag if k + 1 < len(self.pieces) else ""
            if tag in ("word", "name", "bed") and not self._is_meal(k):
                if tag != "bed" and self._is_whole(start, end, k):
                    break
                end = self.pieces[k].end
            elif (tag in ("of", "article") and follows in ("word", "name", "bed")) or (
                tag == "and" and follows in ("word", "name") and self._goes_on(k + 1)
            ):
                pass
            else:
                break
            k += 1
        self.i = k
        if tokens[start].sort == "code" and start + 1 == end:
            self._lot(tokens[start].text)
            return
        lead = self.scanner.said(one.start, one.end).lower()
        self.out.phrases.append(Phrase(roles, (start, end), len(self.out.lines), lead, one.start))

    def _is_whole(self, start: int, end: int, k: int) -> bool:
        """Return whether a place is named in full, so that a small word behind is none of it."""
        tokens, words = self.scanner.tokens, self.scanner.words
        if tokens[self.pieces[k].start].text[:1].isupper() or words.code == "de":
            return False
        longer = words.find("shops", tokens, start)
        if longer is not None and start + longer[1] > end:
            return False
        if self.pieces[k - 1].tag == "bed":
            return True
        return any(
            found is not None and at + found[1] == end
            for at in range(start, end)
            if (found := words.find("shops", tokens, at))
        ) and not self._goes_into_name(start, end)

    def _goes_into_name(self, start: int, end: int) -> bool:
        """Return whether a longer phrase of the same sort goes on: ``farm stand``."""
        tokens, words = self.scanner.tokens, self.scanner.words
        found = words.find("shops", tokens, end - 1) or words.find("shops", tokens, end)
        return found is not None and found[1] > 1

    def _goes_on(self, k: int) -> bool:
        """Return whether what follows an `and` in a phrase is one more of the same (``Ann and Tom``)."""
        while k < len(self.pieces) and self.pieces[k].tag in ("word", "name"):
            k += 1
        return k >= len(self.pieces) or self.pieces[k].tag not in ("amount", "money", "verb", "of")

    def _lot(self, label: str) -> None:
        last = self.out.lines[-1] if self.out.lines else None
        if last is not None and last.lot is None:
            last.lot = label
        else:
            self.out.lines.append(Thing([*self.pending], None, self.mode, lot=label))
            self.pending = []

    # -- mending -------------------------------------------------------------------------

    def _on_mend(self, one: Piece) -> None:
        """Take ``9 lb, no, 8 lb`` as 8 lb: what stands behind takes the place of the last."""
        self._flush()
        k = self.i + 1
        while k < len(self.pieces) and self.pieces[k].tag in (
            "comma",
            "mark",
            "filler",
            "mend",
            "none",
        ):
            k += 1
        self.i = k
        new = self.pieces[k] if k < len(self.pieces) else None
        last = self.out.lines[-1] if self.out.lines else None
        if (
            new is None
            or new.tag not in ("amount", "day", "money")
            or (last is None and new.tag != "day")
        ):
            self.out.lost_mend = (one.start, self.pieces[-1].end)
            self.i = len(self.pieces)
            return
        if new.tag == "day":
            self.out.days = self.out.days[:-1]
        elif new.tag == "money":
            self.out.money = self.out.money[:-1]
        elif last is not None:
            self._replace(last, new.value, k)
        self.out.mended = True
        self.apart = ""

    def _replace(self, last: Thing, said: Quantity, k: int) -> None:
        named = k + 1 < len(self.pieces) and self.pieces[k + 1].tag in ("word", "name", "of")
        if named:
            self.out.lines.pop()
            return
        if said.unit is None and last.amounts:
            said = replace(last.amounts[-1], many=said.many)
        for one in last.amounts[:-1]:
            self.out.notes.append(one.text())
        last.amounts = [said]
        last.extra = []
        self.i = k + 1


def counted(said: Quantity) -> str:
    """Return ``3 buckets`` as a note."""
    many = "s" if said.many != 1 and said.unit not in (None, "box", "bunch") else ""
    many = "es" if said.many != 1 and said.unit in ("box", "bunch") else many
    return said.text() + many
