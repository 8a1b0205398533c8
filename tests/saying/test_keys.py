"""Keys for twenty happenings of a year: said in one breath, against field by field.

Both are typed by hand and give the same kind and the same items; docs/keeping.md shows the table.
"""

from __future__ import annotations

import json
import shlex
from pathlib import Path

from click.testing import CliRunner
from saying.kitchen_said import filled

from ledger import Book
from ledger.cli._root import root

DOCS = Path(__file__).parents[2] / "docs" / "keeping.md"

# what happened: as it is said; field by field
HAPPENINGS = [
    ("a harvest", "picked 31 lb plums", 'harvest "31 lb plum"'),
    ("two crops and a bed", "picked 3 lb tomatoes and 2 lb peppers from the south bed", 'harvest "3 lb tomato" "2 lb pepper" --bed "south bed"'),
    ("eggs", "18 eggs collected", 'harvest "18 egg"'),
    ("a purchase", "bought 10 lb sugar 7.90 at the mill", 'buy "10 lb sugar" --paid 7.90 --shop "the mill"'),
    ("two things bought", "bought 10 lb sugar 7.90 and 5 lb rice 6", 'buy "10 lb sugar" "5 lb rice" --paid 7.90 --paid 6'),
    ("a meal", "ate a jar of tomato sauce and 1 lb pasta, 4 people", 'meal --ate "1 quart jar tomato sauce" --ate "1 lb pasta" --people 4'),
    ("a breakfast", "ate 6 eggs", 'meal --ate "6 egg"'),
    ("a jar opened", "opened R5", 'meal --ate "1 quart jar tomato sauce from jar R5"'),
    ("a batch in jars", "put up 7 quarts of tomato sauce by pressure, 20 minutes, from 35 lb tomatoes", 'putup "tomato sauce" --used "35 lb tomato" --made "7 quart jars" --method pressure --minutes 20'),
    ("something frozen", "froze 3 lb carrots", 'putup carrot --used "3 lb carrot" --made "3 lb freezer" --method freeze'),
    ("a count", "there are 9 pints of green beans left", 'count "9 pint jars green bean"'),
    ("two counted", "counted 4 lb sugar and 20 lb rice", 'count "4 lb sugar" "20 lb rice"'),
    ("none left", "no honey left", 'count "0 lb honey"'),
    ("a gift given", "gave Ida 2 jars of tomato sauce", 'give "2 quart jars tomato sauce" --how gift --to Ida'),
    ("a sale", "sold 36 eggs for 12", 'give "36 egg" --how sold --got 12'),
    ("a gift received", "got a peck of pears from Ida", 'receive "1 peck pear" --how gift --from Ida'),
    ("thrown out", "threw out 2 heads of lettuce, slimy", 'discard "2 head lettuce" --why spoiled --note slimy'),
    ("fed to the hens", "fed the hens 3 lb apples", 'discard "3 lb apple" --why "fed to animals"'),
    ("a sowing", "sowed a 25 ft row of carrots", 'plant carrot --row "25 ft" --how sown'),
    ("a price", "rice is 0.90 a pound at the mill", 'price "1 lb rice" 0.90 --shop "the mill"'),
]  # fmt: skip


def keys(said: str) -> int:
    """Return the keys of a command line: each character, and Enter."""
    return len(said) + 1


def lines() -> list[str]:
    """Return the rows of the table in docs/keeping.md."""
    out = []
    for name, said, command in HAPPENINGS:
        one, other = keys(f"croftbook say {said}"), keys(f"croftbook {command}")
        out.append(f"| {name} | `{said}` | {keys(said)} | {one} | {other} |")
    total = [
        sum(keys(one) for _, one, _ in HAPPENINGS),
        sum(keys(f"croftbook say {one}") for _, one, _ in HAPPENINGS),
        sum(keys(f"croftbook {one}") for _, _, one in HAPPENINGS),
    ]
    return [*out, f"| together | | {total[0]} | {total[1]} | {total[2]} |"]


def told(place) -> list[tuple[str, set[str]]]:
    """Return what was written: the kind and the items of each event, described items left out."""
    out = []
    with Book.open(place) as book:
        name = book.catalogue().name
        for row in (row for chunk in book.log.read() for row in chunk):
            if row[2] == "item_described":
                continue
            body = json.loads(row[10])
            parts = [*(body.get("lines") or ()), *(body.get("ate") or ()), body]
            words = [one.get("item") or one.get("makes") or one.get("crop") for one in parts]
            out.append((row[2], {name(one) for one in words if one}))
    return out


def test_what_is_said_is_what_the_fields_say(tmp_path, fixed_day):
    written = {}
    for way in (1, 2):
        place = tmp_path / f"book{way}.sqlite"
        filled(place).close()
        begun = len(told(place))
        for happening in HAPPENINGS:
            words = ["say", happening[1]] if way == 1 else shlex.split(happening[2])
            done = CliRunner().invoke(root, [*words, "--yes", "--book", str(place)])
            assert done.exit_code == 0, (happening, done.output, done.exception)
        written[way] = told(place)[begun:]
    assert written[1] == written[2]


def test_the_table_shows_the_keys():
    text = DOCS.read_text("utf-8")
    missing = [line for line in lines() if line not in text]
    assert missing == []


def test_said_at_the_prompt_it_takes_fewer_keys_every_time():
    """The aim is half; 0.6 is what the twenty come to, as the commands have become shorter, too."""
    pairs = [(keys(said), keys(f"croftbook {command}")) for _, said, command in HAPPENINGS]
    assert all(one < other for one, other in pairs)
    assert sum(one for one, _ in pairs) <= 0.6 * sum(other for _, other in pairs)
