"""An English text that knows its message: what is written once in the sources, and said in any language.

Answers keep their English texts where they stand, in memory and in ``--json``. A `Sentence` is such a
text, a plain ``str`` to whoever reads it, that carries the message it says; page and command say that
message in their own language. Nothing reads English back.

Texts that are put together from others go through `joined` or `opening`, or are parameters of a
message: an f-string around a `Sentence` is English for good.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import lru_cache
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from ledger.messages.message import Parameter

__all__ = [
    "SaidLater",
    "Sentence",
    "fixed",
    "joined",
    "measured",
    "opening",
    "priced",
    "says",
    "sentence",
    "worded",
]


class Sentence(str):
    """An English text and what it says.

    Parameters
    ----------
    text : str
        The text in English.
    says : Message or another parameter of one
        What is said anew in another language.
    """

    __slots__ = ("says",)

    says: Parameter

    def __new__(cls, text: str, says: Parameter) -> Sentence:
        """Return the text with its message beside it."""
        made = super().__new__(cls, text)
        made.says = says
        return made

    def __str__(self) -> str:
        """Return it whole: what turns values to text for a page keeps what they say."""
        return self

    def __getnewargs__(self) -> tuple[Any, ...]:
        """Return what a copy is made of."""
        return (self[:], self.says)


class SaidLater(Sentence):
    """An English text whose message is made when it is said in another language.

    For what is written for every event of a book and seldom shown.

    Parameters
    ----------
    text : str
    of : callable
        ``of()`` gives what the text says.
    """

    __slots__ = ("_of",)

    _of: Callable[[], Parameter]

    def __new__(cls, text: str, of: Callable[[], Parameter]) -> SaidLater:
        """Return the text with the way to its message beside it."""
        made: SaidLater = str.__new__(cls, text)
        made._of = of
        return made

    def __reduce__(self) -> tuple[Any, ...]:
        """Return what a copy is made of."""
        return (SaidLater, (self[:], self._of))

    @property
    def says(self) -> Parameter:  # type: ignore[override]
        """What is said anew in another language."""
        return self._of()


def sentence(id_: str, /, **parameters: Parameter) -> Sentence:
    """Return a message's English text, with the message beside it.

    Parameters
    ----------
    id_ : str
        A literal id of the catalogues: ``finding-minutes-short``.
    **parameters
        As `Message.of` takes them; a `Sentence` stands for what it says.

    Raises
    ------
    TypeError
        As `Message.of`.
    """
    given = tuple((name, _plain(one)) for name, one in parameters.items())
    try:
        return _kept_sentence(id_, given)
    except TypeError:  # a message within cannot be looked up by
        return _sentence(id_, given)


def _sentence(id_: str, given: tuple[tuple[str, Any], ...]) -> Sentence:
    from ledger.messages.catalogue import speaker
    from ledger.messages.message import Message

    message = Message.of(id_, **dict(given))
    return Sentence(speaker("en").text(message), message)


_kept_sentence = lru_cache(8192)(_sentence)
"""Of the rows of a long table many say the same."""


def measured(text: str) -> Sentence:
    """Return an amount as the household's measures write it, ``7 lb 3 oz``: its digits are the language's."""
    from ledger.messages.message import Measured

    return Sentence(text, Measured(text))


@lru_cache(4096)
def fixed(word: str, of: str = "") -> str:
    """Return a fixed word of the answers, ``vitamin C``, that can be said in any language; a name as it is.

    Parameters
    ----------
    word : str
    of : str
        The column or field: a word may have a sense of its own there.
    """
    from ledger.messages.catalogue import speaker
    from ledger.messages.message import Message
    from ledger.messages.words import ids_of

    spoken = speaker("en")
    plain = Sentence(word, word) if word.endswith(" jar") else word  # a jar is said by its size
    return next(
        (Sentence(word, Message(id_)) for id_ in ids_of(word, of) if spoken.own(id_)), plain
    )


def joined(between: str, texts: Iterable[str]) -> str:
    """Return texts in a row, as ``between.join`` does, that can be said in another language still.

    Parameters
    ----------
    between : str
        Marks and spaces alone: what stands between is alike in every language.
    """
    several = list(texts)
    text = between.join(several)
    if not any(isinstance(one, Sentence) for one in several):
        return text
    from ledger.messages.message import Row

    return Sentence(text, Row(tuple(_plain(one) for one in several), between))


def opening(text: str) -> str:
    """Return a text with a capital first, as a sentence opens."""
    begun = text[:1].upper() + text[1:]
    if not isinstance(text, Sentence):
        return begun
    from ledger.messages.message import Row

    return Sentence(begun, Row((_plain(text),), "", opens=True))


def priced(text: str, money: Callable[[str], str]) -> str:
    """Return a text with the prices in it as `money` writes them: with the household's currency.

    Parameters
    ----------
    money : callable
        ``money("7.90")`` gives ``"$7.90"``.
    """
    if not isinstance(text, Sentence):
        return text
    from ledger.messages.catalogue import speaker

    said = _priced(text.says, money)
    return text if said == text.says else Sentence(speaker("en").value(said), said)


def _priced(said: Any, money: Callable[[str], str]) -> Any:
    from ledger.messages.message import Code, Message, Price, Row

    if isinstance(said, Price):
        return Code(money(said.text))
    if isinstance(said, Row):
        return Row(tuple(_priced(one, money) for one in said.items), said.between, said.opens)
    if isinstance(said, Message):
        return Message(said.id, {k: _priced(v, money) for k, v in said.parameters.items()})
    return said


def says(text: str, id_: str) -> bool:
    """Return whether a text is the message of that id."""
    return getattr(getattr(text, "says", None), "id", None) == id_


def worded(text: str, language: str) -> str:
    """Return a text in a language: what it says, where it is a `Sentence`; as it is where it is a name."""
    if not isinstance(text, Sentence) or language == "en":
        return text
    from ledger.messages.catalogue import speaker

    return speaker(language).value(text.says)


def _plain(one: Any) -> Any:
    """Return what a parameter says, also where it stands within another."""
    if isinstance(one, Sentence):
        return one.says
    from ledger.messages.message import Names

    if isinstance(one, Names) and any(isinstance(item, Sentence) for item in one.items):
        return Names(tuple(_plain(item) for item in one.items), one.most)
    return one
