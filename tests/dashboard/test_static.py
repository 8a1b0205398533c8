"""Scripts and styles: compressed once and kept, under addresses that change with what they give."""

from __future__ import annotations

import re

import brotli
import pytest

from dashboard import static
from dashboard.app import make_app
from dashboard.pages import PAGES

YEAR = "public, max-age=31536000, immutable"
BR = {"Accept-Encoding": "gzip, deflate, br"}


@pytest.fixture
def cache(tmp_path, monkeypatch):
    """The folder in which compressed copies are kept, of this test alone."""
    monkeypatch.setattr(static, "user_cache_path", lambda *_, **__: tmp_path / "cache")
    return tmp_path / "cache" / "scripts"


@pytest.fixture
def packed(monkeypatch):
    """The list of what was compressed."""
    seen, compress = [], brotli.compress

    def counted(raw, **options):
        seen.append(len(raw))
        return compress(raw, **options)

    monkeypatch.setattr(static.brotli, "compress", counted)
    return seen


@pytest.fixture
def client(book, cache):
    return make_app(book).server.test_client()


def scripts(client, path="/shelf"):
    text = client.get(path).text
    found = re.findall(r'(?:src|href)="(/(?:_dash-component-suites|assets)/[^"]+)"', text)
    return list(dict.fromkeys(found))


def test_every_script_of_a_page_is_compressed_and_kept_for_a_year(client):
    asked = scripts(client)
    assert len(asked) == 3  # one script, one sheet, the serif
    for address in asked:
        answer = client.get(address, headers=BR, buffered=True)
        assert answer.status_code == 200, address
        assert answer.headers["Cache-Control"] == YEAR, address
        if ".woff2" in address:  # which is compressed in itself
            assert answer.data[:4] == b"wOF2"
            assert "Content-Encoding" not in answer.headers
            continue
        assert answer.headers["Content-Encoding"] == "br"
        assert answer.headers["Vary"] == "Accept-Encoding"
        plain = client.get(address, buffered=True)
        assert "Content-Encoding" not in plain.headers
        assert plain.headers["Cache-Control"] == YEAR
        assert brotli.decompress(answer.data) == plain.data
        assert int(answer.headers["Content-Length"]) == len(answer.data) < len(plain.data)


def test_second_visit_asks_for_the_same_addresses_which_are_kept(client, book):
    """Kept for a year under a version, a script is not even asked for again: no ETag is needed."""
    assert scripts(client) == scripts(client) == scripts(make_app(book).server.test_client())
    for address in scripts(client):
        assert re.search(r"\.v\w+m\d+\.|[?&][vm]=[\d.]+", address), address


def test_address_without_a_version_is_asked_after_each_time(client):
    """After an update nobody is left with last year's script."""
    for address in ("/assets/croft.css", "/_dash-component-suites/dash/dcc/async-graph.js"):
        first = client.get(address, headers=BR, buffered=True)
        assert first.headers["Cache-Control"] == "no-cache"
        again = client.get(
            address, headers={**BR, "If-None-Match": first.headers["ETag"]}, buffered=True
        )
        assert (again.status_code, again.data) == (304, b"")


def test_nothing_is_compressed_twice(client, book, cache, packed):
    address = static.charting_script()
    assert not cache.exists()
    first = client.get(address, headers=BR, buffered=True).data
    assert len(packed) == 1
    assert client.get(address, headers=BR, buffered=True).data == first
    later = make_app(book).server.test_client()  # another start of the program
    assert later.get(address, headers=BR, buffered=True).data == first
    assert len(packed) == 1
    assert [file.read_bytes() for file in cache.glob("*.br")] == [first]
    assert list(cache.glob("tmp*")) == []


def test_other_content_has_another_copy(cache, packed):
    one, other = static._stored("one", b"a" * 5000), static._stored("other", b"b" * 5000)
    assert brotli.decompress(one) != brotli.decompress(other)
    assert len(list(cache.iterdir())) == 2


def test_copy_that_cannot_be_kept_is_sent_all_the_same(book, tmp_path, monkeypatch, packed):
    (tmp_path / "file").write_text("no folder")
    monkeypatch.setattr(static, "user_cache_path", lambda *_, **__: tmp_path / "file")
    client = make_app(book).server.test_client()
    for _ in range(2):
        answer = client.get(static.charting_script(), headers=BR, buffered=True)
        assert answer.headers["Content-Encoding"] == "br"
        assert b"Plotly" in brotli.decompress(answer.data)
    assert len(packed) == 1


def test_charting_script_is_small_enough_and_fetched_ahead_only_where_drawn(client):
    """Under 2.0 MB of script with the first chart, as compressed."""
    address = static.charting_script()
    path = next(page.path for page in PAGES if page.has_pictures)
    drawn, plain = client.get(path).text, client.get("/history").text
    assert f'<link rel="preload" as="script" href="{address}">' in drawn
    assert 'as="script"' not in plain
    assert f'<meta name="charting" content="{address}">' in plain  # whoever goes on to a picture
    before = [one for one in scripts(client, "/history") if one != address]
    sizes = [len(client.get(one, headers=BR, buffered=True).data) for one in before]
    assert sum(sizes) < 180_000
    assert sum(sizes) + len(client.get(address, headers=BR, buffered=True).data) < 2_000_000


def test_answers_are_compressed_lightly_and_never_kept(client, book):
    answer = client.get("/_dash-dependencies", headers=BR, buffered=True)
    assert answer.headers["Content-Encoding"] == "br"
    assert b"page.children" in brotli.decompress(answer.data)
    assert answer.headers["Cache-Control"] == "no-store"
    small = client.get("/position", headers=BR, buffered=True)
    assert "Content-Encoding" not in small.headers
    assert client.get("/", headers=BR, buffered=True).headers["Cache-Control"] == "no-store"
