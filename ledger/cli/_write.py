"""The writing commands, made from the descriptions of the kinds."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Callable
from typing import Any

import click

from ledger.cli import _common
from ledger.cli._asking import Doubts, ask_missing, in_words
from ledger.cli._help import Argument, Command, Option
from ledger.cli._options import click_options
from ledger.cli._speech import for_book
from ledger.cli._written import report
from ledger.door import Entry
from ledger.door.filling import fill, fill_sort
from ledger.door.lots import OPENING
from ledger.door.texts import PARTS, Texts
from ledger.door.when import day_of
from ledger.errors import InputError, NeedsAnswer
from ledger.events import KINDS, Kind
from ledger.events.describing import Field, fields_of
from ledger.messages import Code, Message, Typed

__all__ = ["make_command"]

POSITIONAL = {
    "item": ("item", 1),
    "plant": ("crop", 1),
    "harvest": ("lines", -1),
    "buy": ("lines", -1),
    "receive": ("lines", -1),
    "recipe": ("recipe", 1),
    "putup": ("makes", 1),
    "meal": ("ate", -1),
    "give": ("lines", -1),
    "discard": ("lines", -1),
    "count": ("lines", -1),
    "gauge": ("gauge", 1),
    "settle": ("batch", 1),
    "price": ("line", 2),
    "practise": ("skill", 1),
    "target": ("line", 1),
    "person": ("person", 1),
    "seed": ("crop", 1),
    "frost": ("frost", 1),
    "flock": ("hens", 1),
    "meter": ("meter", 1),
    "setting": ("pair", 2),
    "strike": ("id", 1),
}
"""What stands without an option's name, by command."""

EXAMPLES = {
    "item": ['item garlic --sort food --g-per "clove 5"', 'item "quart jar" --sort jar --years 10', 'item "plum butter" --sort food --keeps "shelf 12 months" --shop-equivalent "store plum spread"'],
    "plant": ['plant tomato --variety "Brenna Red" --bed "south bed" --plants 24 --how "set out" --work "Ada 90"'],
    "harvest": ['harvest "31 lb 8 oz plum" --bed orchard --on 2026-09-02', 'harvest "6 lb tomato" "2 lb pepper" --on yesterday --work "Ada 40"'],
    "buy": ['buy "18 oz store plum spread" --paid 3.40 --shop "corner shop"', 'buy "10 lb sugar" "24 lids" --paid 7.90 --paid 6.00', 'buy "20 lb compost" --paid 8 --for-crop tomato'],
    "receive": ['receive "2 lb honey" --how gift --from "the neighbours" --value 14'],
    "recipe": ['recipe "plum butter" --makes "plum butter" --uses "16 lb plum" --uses "3 lb sugar" --yields "11 half-pint jars" --method "boiling water"'],
    "putup": ['putup "plum butter" --used "16 lb plum" --used "3 lb sugar" --made "11 half-pint jars" --made "1 cup fridge" --method "boiling water" --minutes 10', 'putup "plum butter" --times 1.5      (from the recipe of that name)'],
    "meal": ['meal --ate "1 half-pint plum butter" --ate "2 lb bread" --people 6', 'meal --ate "2 qt stew" --people 6 --left "1 pt stew fridge 0.25"'],
    "give": ['give "2 half-pint jars plum butter" --how gift --to "the neighbours"', 'give "3 dozen egg" --how sold --got 12'],
    "discard": ['discard "1 half-pint jar plum butter" --why "seal failed"'],
    "count": ['count "4 lb sugar" "9 pint jars stock" --when end'],
    "gauge": ['gauge dial --reads "+2 psi" --by "extension office"', 'gauge "pressure canner" --reads 0 --on 2026-06-01'],
    "settle": ['settle 5f0c0a0e --publication "state bulletin 270, page 12" --says "raw pack, quarts, 25 minutes at 12 psi"'],
    "price": ['price "18 oz store plum spread" 3.40 --shop "corner shop"'],
    "practise": ['practise grafting --person Ada --minutes 45 --went 4'],
    "target": ['target "24 half-pint jars plum butter" --per year', "target --skill grafting --times 3 --per year", 'target "20 lb plum" --by "1 Nov" --person Ada'],
    "person": ['person Ada --sex female --age 39 --activity moderate', 'person Ben --sex male --born 1984-04-12 --weight "80 kg" --height "1.80 m"'],
    "seed": ['seed carrot --year 2025 --sown 20 --sprouted 13', 'seed tomato --variety "Brenna Red" --seeds 60 --days 75'],
    "frost": ['frost "last of spring" --seen 2026-05-10', 'frost "first of fall" --seen 2026-10-01'],
    "flock": ['flock 6 --hatched 2025-04-10'],
    "meter": ['meter freezer --reads "412.6 kWh"', 'meter water --reads "1203 L" --before "1184 L" --batch 5f0c0a0e'],
    "setting": ['setting altitude "2600 ft"', 'setting price_of_electricity "0.17 per kWh"'],
    "strike": ['strike 5f0c0a0e --why "written twice"'],
}  # fmt: skip


def make_command(command: str, kind_name: str) -> click.Command:
    """Return the command that writes a kind."""
    kind = KINDS[kind_name]
    fields = fields_of(kind)
    name, many = POSITIONAL[command]
    required = False
    params: list[click.Parameter] = [
        Argument(["words"], nargs=-1, required=required, metavar=_metavar(name, many))
    ]
    skip = (
        {name}
        if many == 1 or name == "ate"
        else {"item", "amount", "price"}
        if name == "line"
        else {"name", "value"}
        if name == "pair"
        else set()
    )
    keep = [f for f in fields if f.name not in (skip - {"ate"})]
    params += click_options(kind, keep)
    params += _envelope(kind)
    if kind.name in OPENING:
        params.append(Option(["--knowingly"], is_flag=True, help="option-knowingly"))
    if command == "putup":
        params.append(Option(["--before"], is_flag=True, help="option-putup-before"))
        params.append(
            Option(["--strained"], multiple=True, metavar="ITEM", help="option-putup-strained")
        )

    def callback(**given: Any) -> None:
        _run(command, kind, keep, given)

    return _Writing(
        command,
        params=params,
        callback=callback,
        help=f"command-{command}",
        examples=[f"croftbook {line}" for line in EXAMPLES[command]],
        no_args_is_help=not _asks(),
    )


class _Writing(Command):
    """A command whose words may begin with a minus, so that the door can say what is wrong."""

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """Read ``-3 lb plum`` as words, not as an option."""
        try:
            return super().parse_args(ctx, [*args])
        except click.NoSuchOption as error:
            below = [word for word in args if re.match(r"-[\d.½¼¾]", word)]
            if not below or not any(word.startswith(error.option_name) for word in below):
                raise
            plain = [word for word in args if word not in below]
            return super().parse_args(ctx, [*plain, "--", *below])


def _asks() -> bool:
    return _common.at_terminal()


def _metavar(name: str, many: int) -> str:
    words = {
        "lines": '"AMOUNT ITEM"...',
        "line": '"AMOUNT ITEM" [PRICE]' if many == 2 else '"AMOUNT ITEM"',
        "ate": '["AMOUNT ITEM"]...',
        "pair": "NAME VALUE",
    }
    return words.get(name, name.upper())


def _envelope(kind: Kind) -> list[click.Parameter]:
    # A body may have a `by` of its own, so whoever writes it down goes by another name.
    writer = f"--{kind.writer}"
    return [
        Option(
            ["--on"],
            metavar="DAY",
            help="option-write-on",
        ),
        Option(["--at"], metavar="HH:MM", help="option-write-at"),
        Option([writer, "by"], metavar="NAME", help="option-by"),
        Option(["--replaces"], metavar="ID", help="option-write-replaces"),
        Option(["--book"], envvar="CROFTBOOK", help="option-book"),
        Option(["--household"], default="home", help="option-household"),
        Option(["--json", "as_json"], is_flag=True, help="option-json-written"),
        Option(["--yes", "-y"], is_flag=True, help="option-yes"),
    ]


def _run(command: str, kind: Kind, fields: list[Field], given: dict[str, Any]) -> None:
    before = given.get("before", False)
    where = given["book"], given["household"]
    with _common.read_book(*where, blank=True) if before else _common.open_book(*where) as book:
        doubts = Doubts(yes=given["yes"], knowingly=given.get("knowingly", False))

        def read(make: Callable[[Texts], Any]) -> Any:
            return doubts.settle(lambda: make(Texts(book.catalogue(), doubts.answers)))

        warned = kind.name == "put_up" and _warned(given)
        body = read(lambda texts: _body(command, kind, fields, given, texts))
        _days(body, fields, book.today())
        if kind.name == "item_described":
            fill_sort(body, book.catalogue(), needed=not _common.at_terminal())
        on = day_of(given["on"], book.today())
        if kind.name == "put_up":
            from ledger.cli import _putup

            if before:
                _putup.show_before(book, body, on, as_json=given["as_json"])
                return
            body = _putup.batch_from_recipe(book, body, given, warned=warned)
        try:
            body = ask_missing(
                kind, body, fields, lambda name, text: read(lambda t: PARTS[name](t, text, name))
            )
            entry = Entry(
                kind.name, body, on=on, at=given["at"], by=given["by"], replaces=given["replaces"]
            )
            doubts.settle(lambda: book.ask(entry, doubts.answers))
            caution = _putup.caution_of(book, body) if kind.name == "put_up" else None
            written = doubts.settle(lambda: book.enter(entry, doubts.answers))
        except (InputError, NeedsAnswer) as error:
            raise in_words(error, body) from None
        written.notes = list(doubts.answers.notes)  # what was taken while words were read, too
        if kind.name == "setting_changed":
            for_book(book, *where)
        report(book, written, as_json=given["as_json"], caution=caution)


def _warned(given: dict[str, Any]) -> bool:
    """Look at a batch's words as they were typed: a caution goes before any question on amounts."""
    from ledger.cli import _putup

    names = ("method", "used", "schedule", "acid", "note", "equipment", "made")
    said = {name: given[f"f_{name}"] for name in names}
    said["makes"] = given["words"][0] if given["words"] else None
    return _putup.warn_low_acid(said, given)


def _body(
    command: str, kind: Kind, fields: list[Field], given: dict[str, Any], texts: Texts
) -> dict[str, Any]:
    body: dict[str, Any] = {}
    _words(command, list(given["words"]), body, texts)
    fill(body, fields, {field.name: given[f"f_{field.name}"] for field in fields}, texts)
    if given.get("strained"):
        from ledger.cli import _putup

        _putup.mark_strained(body, given["strained"], texts)
    return body


def _days(body: dict[str, Any], fields: list[Field], today: dt.date) -> None:
    """Read the days of a body, which are still to come, from words."""
    for field in fields:
        if field.kind == "day" and isinstance(body.get(field.name), str):
            body[field.name] = day_of(body[field.name], today, field.name, ahead=True)


def _line(command: str, word: str, texts: Texts) -> dict[str, Any]:
    """Return one word as a line; a purchase may say its price behind it: ``10 lb sugar 7.90``."""
    if command != "buy":
        return texts.line(word, "amount")
    from ledger.saying.phrase import split_price

    said, paid = split_price(word)
    line = texts.line(said, "amount") if paid else texts.line(word, "amount")
    if paid and texts.catalogue.is_item(word.partition(" ")[2]):
        return texts.line(word, "amount")  # a name that ends in a number
    return {**line, "paid": paid} if paid else line


def _words(command: str, words: list[str], body: dict[str, Any], texts: Texts) -> None:
    """Put what stands without an option's name where it belongs."""
    name, many = POSITIONAL[command]
    if not words:
        return
    if many > 0 and len(words) > many:
        raise InputError(
            "words",
            Message.of(
                "refusal-more-words", words=Typed(" ".join(words[many:])), command=Code(command)
            ),
        )
    if many == -1:
        body[name] = [_line(command, word, texts) for word in words]
    elif name == "line":
        body.update(texts.line(words[0], "amount"))
        if len(words) > 1:
            body["price"] = texts.number(words[1], "money")
    elif name == "pair":
        body.update(zip(("name", "value"), words, strict=False))
    elif name == "hens" and words[0].isdecimal():
        body[name] = int(words[0])
    else:
        body[name] = words[0]
