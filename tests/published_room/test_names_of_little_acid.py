"""Every name of a food of little acid is known in boiling water, as printed and with one slip."""

from __future__ import annotations

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from rapidfuzz.distance import OSA

from ledger.published import batch_of, verdict_of
from ledger.published import near as near_names
from ledger.published.reading import read
from ledger.reference.kinds import foods

#: names that say too little by themselves: any sauce; a pepper that is also a dried spice
SAYS_TOO_LITTLE = {"Sauce", "cayenne pepper"}
NAMES = sorted(
    name
    for food in foods().values()
    if food.acidity in ("low_acid", "borderline")
    for name in food.names
    if name not in SAYS_TOO_LITTLE
)
#: a slip is asked to be seen in words of six letters or more, the first letter being right
LONG = [name for name in NAMES if max(map(len, name.split())) >= 6 and name.isascii()]


def judged(item):
    body = {
        "makes": "winter jar",
        "method": "boiling water",
        "used": [{"item": item, "amount": "6 lb"}],
        "made": [{"jars": 7, "jar": "pint jar", "kept": "shelf"}],
        "minutes": "60",
    }
    return verdict_of(batch_of(body, altitude="500 ft"))


def test_there_are_many_names():
    assert len(NAMES) > 1000


@pytest.mark.parametrize("name", NAMES)
def test_every_name_is_known(name):
    found = judged(name)
    assert found.standing == "against every published process"
    assert found.danger is not None
    assert name in found.danger.names


@st.composite
def slips(draw):
    """A name with one letter of its longest word lost, doubled, changed, or swapped with the next."""
    name = draw(st.sampled_from(LONG))
    word = max(name.split(), key=len)
    at = draw(st.integers(1, len(word) - 2))
    other = draw(st.sampled_from("aeilnorst"))
    kind = draw(st.sampled_from(["lost", "doubled", "changed", "swapped"]))
    slipped = {
        "lost": word[:at] + word[at + 1 :],
        "doubled": word[:at] + word[at] + word[at:],
        "changed": word[:at] + other + word[at + 1 :],
        "swapped": word[:at] + word[at + 1] + word[at] + word[at + 2 :],
    }[kind]
    said = name.replace(word, slipped)
    # a slip that is another word ("Grapen" of Graupen, "frisch" of Frosch) cannot be told from it
    found = read(said)
    assume(found.unknown or not all(food.exact for food in found.foods))
    return name, said


@settings(max_examples=400)
@given(slips())
def test_one_slip_is_seen_through(pair):
    name, slipped = pair
    found = judged(slipped)
    assert found.standing == "against every published process", (name, slipped, found.standing)


@pytest.mark.parametrize(
    "fruit",
    [name for food in foods().values() if food.acidity == "acid" and food.group == "fruit" for name in food.names],
)  # fmt: skip
def test_acid_fruit_is_no_danger(fruit):
    assert judged(fruit).danger is None


@given(st.sampled_from(sorted(near_names._words())), st.data())
def test_no_slip_is_lost_among_letters(name, data):
    """What the letters leave out of a comparison is too far away in any case."""
    word = list(name)
    for _ in range(data.draw(st.integers(0, 2))):
        at = data.draw(st.integers(0, len(word)))
        what = data.draw(st.sampled_from(["add", "drop", "swap", "other"]))
        letter = data.draw(st.sampled_from("aeknrstzäß"))
        if what == "add":
            word.insert(at, letter)
        elif what == "drop" and at < len(word):
            del word[at]
        elif what == "swap" and at + 1 < len(word):
            word[at], word[at + 1] = word[at + 1], word[at]
        elif at < len(word):
            word[at] = letter
    said = "".join(word)
    for allowed in (1, 2):
        names, _ = near_names._of_size(len(said), allowed)
        near = {one for one in names if OSA.distance(one, said, score_cutoff=allowed) <= allowed}
        assert near <= set(near_names._like(said, allowed))
