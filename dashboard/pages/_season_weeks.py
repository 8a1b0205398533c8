"""The season week by week: the calendar of all crops, one crop as on its packet, and what is counted."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from typing import Any

from dashboard.ask import Ask
from dashboard.drawings.crops_by_week import Crop, crops_by_week
from dashboard.drawings.lines import Line, lines
from dashboard.drawings.one_crop import one_crop
from dashboard.elements import dcc, html
from dashboard.parts import answer_table, figure, section
from dashboard.parts.drawings import drawing
from dashboard.parts.keeping import named, spoken
from ledger.projections import Answer

__all__ = ["draw", "heavy_first", "last_of", "scaled"]

_WEEKS = 12
"""Weeks that the calendar spans at least: of one week alone its bars would be as wide as the page."""
_CROPS = 24
"""Crops in one drawing: those that weighed most."""
_GRAMS = {"kg": 1000.0, "lb": 453.59237}
_TALL = {"phone": 26.0, "desk": 30.0}
_HEAD, _FOOT = 18.0, 4.0
_MORE, _LESS = 1.05, 0.95

Row = Mapping[str, Any]


def scaled(ask: Ask, grams: Any) -> tuple[float, str]:
    """Return a weight in the unit of the household's drawings, and that unit."""
    unit = "kg" if ask.words.measures == "metric" else "lb"
    return float(grams) / _GRAMS[unit], unit


def last_of(row: Row) -> float:
    """Return what a crop gave last season by the same day, g; 0 where nothing is known."""
    return float(row["last_season_to_date_g"] or 0.0)


def heavy_first(by_crop: Answer) -> list[str]:
    """Return the crops of a season, what weighed most first."""
    frame = by_crop.frame
    weight = frame["picked_g"].astype(float).fillna(0.0)
    return [str(crop) for crop in frame["crop"][weight.sort_values(ascending=False).index]]


def draw(ask: Ask, season: str, by_crop: Answer, answer: Answer) -> tuple[Any, Any, Any]:
    """Return the calendar, the packet of one crop, and the weeks of what is counted."""
    by_week = ask.show("season", season=season, weeks=True)
    if by_week.is_empty:
        return None, None, None
    rows = by_week.records()
    counted = [crop for crop, _, _ in answer.totals["counted"]]
    there = {row["crop"] for row in rows}
    crops = [crop for crop in heavy_first(by_crop) if crop in there]
    crops += sorted(there - set(crops))
    weighed = [crop for crop in crops if crop not in counted]
    chosen = ask.query.get("crop", "")
    chosen = chosen if chosen in crops else (weighed or crops)[0]
    table = answer_table(
        ask, by_week, options={"season": season, "weeks": True},
        columns=("crop", "week_on", "in_words.picked", "in_words.last_season"),
        caption=ask.words("season.overview"),
    )  # fmt: skip
    records = {row["crop"]: row for row in by_crop.records()}
    calendar = _calendar(ask, season, rows, weighed, records, table) if weighed else None
    packet = _packet(ask, season, [r for r in rows if r["crop"] == chosen], records[chosen], answer)
    pieces = [_pieces(ask, season, [r for r in rows if r["crop"] == c]) for c in counted[:2]]
    return calendar, packet, html.Div(pieces) if pieces else None


# -- every crop ----------------------------------------------------------------------------


def _calendar(
    ask: Ask, season: str, rows: list[Row], weighed: list[str], records: Mapping[str, Row], table: Any
) -> Any:  # fmt: skip
    words, several = ask.words, [r for r in rows if r["crop"] in set(weighed[:_CROPS])]
    first, many = _span(several)
    begins = _first_weeks(several)
    order = sorted(set(weighed[:_CROPS]), key=lambda crop: (begins.get(crop, 99), crop))
    crops = [
        _crop(ask, records[c], [r for r in several if r["crop"] == c], first, many) for c in order
    ]
    heads = (season, str(int(season) - 1))
    said = words("season.overview_says", now=heads[0], last=heads[1])
    months = _months(ask, several[0], first, many)

    def make(width: float) -> str:
        tall = _TALL["phone" if width < 400 else "desk"]
        return crops_by_week(crops, months, heads, said, width=width, scheme=ask.scheme, tall=tall)

    under = said
    if len(weighed) > _CROPS:
        under += " " + words("season.heaviest", n=_CROPS, all=len(weighed))
    drawn = drawing(ask, "season-weeks", make, said, table, under=under)
    links = [_links(ask, order, crops, size) for size in _TALL]
    drawn.children = [
        html.Div([*drawn.children[:2], *links], className="over"),
        *drawn.children[2:],
    ]
    return section(
        words("season.overview"), drawn,
        note=words("season.kilograms" if words.measures == "metric" else "season.pounds"),
    )  # fmt: skip


def _span(rows: list[Row]) -> tuple[int, int]:
    """Return the first week that is drawn, and how many there are: those picked in, amid `_WEEKS` at least."""
    first, last = min(row["week"] for row in rows), max(row["week"] for row in rows)
    many = max(last - first + 1, _WEEKS)
    return first - (many - (last - first + 1)) // 2, many


def _first_weeks(rows: list[Row]) -> dict[str, int]:
    out: dict[str, int] = {}
    for row in rows:
        if row["picked_g"]:
            out.setdefault(row["crop"], row["week"])
    return out


def _crop(ask: Ask, record: Row, rows: list[Row], first: int, many: int) -> Crop:
    """Return a crop's weeks from the first that any crop has."""
    now: list[float | None] = [None] * many
    last: list[float | None] = [None] * many
    for row in rows:
        now[row["week"] - first], last[row["week"] - first] = row["picked_g"], row["last_season_g"]
    picked, before = record["picked_g"] or 0.0, last_of(record)
    change = None
    if before and picked:
        change = 1 if picked > _MORE * before else -1 if picked < _LESS * before else 0
    name = spoken(str(record["crop"]))
    return Crop(
        name[:1].upper() + name[1:], now, last, _number(ask, picked), _number(ask, before) if before else "–", change
    )  # fmt: skip


def _number(ask: Ask, grams: float) -> str:
    value, _ = scaled(ask, grams)
    return str(ask.words.number(value, 2) if value < 10 else ask.words.whole(value))


def _months(ask: Ask, row: Row, first: int, many: int) -> list[tuple[int, tuple[str, str]]]:
    """Return the weeks in which the months begin that the drawing spans, with their names.

    A record says on which day its week begins.
    """
    begin = dt.date.fromisoformat(row["week_on"]) - dt.timedelta(weeks=row["week"] - first)
    out, before = [], None
    for week in range(many):
        month = (begin + dt.timedelta(weeks=week)).month
        if month != before:
            name = ask.words.month(month)
            out.append((week, (name, name[:1])))
        before = month
    return out


def _links(ask: Ask, order: list[str], crops: list[Crop], size: str) -> Any:
    """Return the crops as links over the drawing: a tap shows one as on its packet."""
    high = _HEAD + len(crops) * _TALL[size] + _FOOT
    items = []
    for n, (crop, drawn) in enumerate(zip(order, crops, strict=True)):
        place = {
            "top": f"{100 * (_HEAD + n * _TALL[size]) / high:.2f}%",
            "height": f"{100 * _TALL[size] / high:.2f}%",
        }
        said = ask.words("season.row_says", crop=drawn.name, now=drawn.picked, last=drawn.before)
        link = dcc.Link(html.Span(said, className="heard"), href=f"{ask.link(crop=crop)}#packet")
        items.append(html.Li(link, style=place))
    return html.Ul(items, className=f"{size} taps", role="list")


# -- one crop --------------------------------------------------------------------------------


def _packet(ask: Ask, season: str, rows: list[Row], record: Row, answer: Answer) -> Any:
    words, crop = ask.words, str(record["crop"])
    name = named(spoken(crop))
    options = {"season": season, "crop": crop, "weeks": True}
    weekly = answer_table(
        ask, ask.show("season", **options), options=options, caption=words("season.by_week"),
        columns=(
            "week_on", "in_words.picked", "in_words.last_season", "in_words.so_far",
            "in_words.last_season_so_far",
        ),
    )  # fmt: skip
    known = [row for row in rows if row["picked_g"]]
    said = words("season.none_yet", crop=name)
    if known:
        best = max(known, key=lambda row: row["picked_g"])
        said = words(
            "season.packet_says", crop=name, picked=words.said(record["in_words"]["picked"]),
            best=words.said(best["in_words"]["picked"]), day=words.day(best["week_on"]),
        )  # fmt: skip
        most = words.said(best["in_words"]["picked"])
    now, last = ([row[column] for row in rows] for column in ("picked_g", "last_season_g"))
    ends = (words.day(rows[0]["week_on"], short=True), words.day(rows[-1]["week_on"], short=True))
    if len(rows) == 1:
        ends = ("", words("season.week_of", day=ends[0]))

    def make(width: float) -> str:
        return one_crop(
            now, last, said, ends=ends, most=most if known else "", width=width, scheme=ask.scheme
        )

    body = drawing(ask, "season-week", make, said, weekly, phone=318, desk=318)
    head = [html.H2(name), html.P(_planted(ask, answer, crop), className="quiet")]
    return html.Section(
        [html.Div(head, className="pk"), body, _three(ask, record)], className="packet", id="packet",
        **{"aria-label": name},
    )  # fmt: skip


def _planted(ask: Ask, answer: Answer, crop: str) -> str:
    """Return varieties, plants and beds of a crop, as far as they are written down."""
    words = ask.words
    rows = [row for row in answer.records() if row["crop"] == crop]
    out = [str(v) for v in dict.fromkeys(r["variety"] for r in rows) if v]
    out += [words("season.plants", n=words.number(r["plants"], 6)) for r in rows if r["plants"]][:1]
    out += [str(b) for b in dict.fromkeys(r["bed"] for r in rows) if b]
    return ", ".join(out[:4])


def _three(ask: Ask, row: Row) -> Any:
    """Return the three figures of a packet: of a plant, of the shop, as published; None where none is known."""
    words, said = ask.words, row["in_words"]
    each = next((n for n in ("per_plant_g", "per_row_m_g", "per_m2_g") if row[n] is not None), None)
    plant = figure(words.said(said["yield"]), row["why"], each) if each and said["yield"] else "–"
    worth = row["shop_value"]
    shop = "–" if worth is None else figure(words.round_money(worth), row["why"], "shop_value")
    published = "–"
    if said["published"]:
        published = figure(words.said(said["published"]), row["why"], "published_high_g")
    key = {"per_row_m_g": "a_row", "per_m2_g": "a_ground"}.get(each or "", "a_plant")
    terms = [
        (f"season.{key}", plant),
        ("season.shop_asks", shop),
        ("season.as_published", published),
    ]
    if all(value == "–" for _, value in terms):
        return None
    return html.Dl([html.Div([html.Dt(words(term)), html.Dd(value)]) for term, value in terms])


# -- what is counted -------------------------------------------------------------------------


def _is_over(ask: Ask, row: Row) -> bool:
    """Return whether a week is over: of a running one a part is known, which says nothing."""
    return dt.date.fromisoformat(row["week_on"]) + dt.timedelta(days=6) <= ask.day


def _pieces(ask: Ask, season: str, rows: list[Row]) -> Any:
    """Return the weeks of what is kept by the piece, against last season's."""
    words, crop = ask.words, str(rows[0]["crop"])
    name = named(spoken(crop))
    options = {"season": season, "crop": crop, "weeks": True}
    table = answer_table(
        ask, ask.show("season", **options), options=options, caption=name,
        columns=("week_on", "in_words.picked", "in_words.last_season"), newest_first=True,
    )  # fmt: skip
    now = [row["picked_g"] if _is_over(ask, row) else None for row in rows]
    known = [row for row, value in zip(rows, now, strict=True) if value]
    if not known:
        return None
    best, last = max(known, key=lambda row: row["picked_g"]), known[-1]
    said = words(
        "season.pieces_say", crop=name, best=best["in_words"]["picked"], day=words.day(best["week_on"]),
        last=last["in_words"]["picked"], last_day=words.day(last["week_on"]),
    )  # fmt: skip
    top = max(max(row["picked_g"] or 0.0, row["last_season_g"] or 0.0) for row in rows)
    made = [
        Line(str(int(season) - 1), [row["last_season_g"] for row in rows], "s-quiet thin"),
        Line(season, now, "s-leaf thick"),
    ]
    places, before = [], None
    for row in rows:
        month = dt.date.fromisoformat(row["week_on"]).month
        text = ask.words.month(month)
        places.append((text, text[:1]) if month != before else ("",))
        before = month
    note = (rows.index(best), best["picked_g"], str(words.said(best["in_words"]["picked"])))

    def make(width: float) -> str:
        return lines(
            made, places, said, ticks=[(0, ""), (top, "")], note=note, width=width, scheme=ask.scheme,
            height=100,
        )  # fmt: skip

    return section(
        name, drawing(ask, f"weeks-{crop}", make, said, table, desk=358),
        note=words("season.a_week", last=str(int(season) - 1)),
    )  # fmt: skip
