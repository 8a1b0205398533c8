"""An empty page: one icon, one sentence, one button."""

from __future__ import annotations

import pytest
from page_tools import Drawn, text_of, walk

from dashboard.data import Data
from dashboard.drawing import ask_of

PATHS = ("/shelf", "/know-how", "/as-published", "/season", "/labels", "/history", "/worth-it")


@pytest.mark.parametrize("path", PATHS)
def test_an_empty_page_has_its_icon(book, fixed_day, path):
    drawn = Drawn(ask_of(Data(book), path, ""))
    (empty,) = [one for one in walk(drawn.parts) if getattr(one, "className", "") == "empty"]
    sign, sentence, button = empty.children[:3]
    assert sign._type == "I"
    assert sign.className.startswith("ic ic-")
    assert text_of(sentence)
    assert button.className == "button"
