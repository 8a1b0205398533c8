"""A garden of two seasons, and what next-season says of it."""

from __future__ import annotations


def planted(book, yes):
    """Two seasons of tomatoes and beans in two beds; puree and sauce of the second; a target."""

    def write(kind, on, **body):
        return book.write(kind, body, on=on, answers=yes)

    for year, pounds in ((2025, 40), (2026, 90)):
        south, north = ("south bed", "north bed")[:: 1 if year == 2025 else -1]
        write("planted", f"{year}-05-10", crop="tomato", plants=20, area="80 sq ft", bed=south)
        write("planted", f"{year}-05-12", crop="green bean", plants=40, area="20 sq ft", bed=north)
        write(
            "harvested",
            f"{year}-08-01",
            item="tomato",
            amount=f"{pounds} lb",
            trimmed=f"{pounds // 10} lb",
        )
        write("harvested", f"{year}-08-03", item="green bean", amount="10 lb")
    work = [{"person": "Ada", "minutes": "70"}]
    for day in ("2026-08-04", "2026-08-11"):
        write(
            "put_up",
            day,
            makes="tomato puree",
            method="cook",
            work=[{"person": "Ada", "minutes": "50"}],
            used=[{"item": "tomato", "amount": "20 lb"}],
            made=[{"amount": "8 qt"}],
        )
        write(
            "put_up",
            day,
            makes="tomato sauce",
            method="pressure",
            work=work,
            used=[{"item": "tomato puree", "amount": "8 qt"}],
            made=[{"jars": 4, "jar": "quart jar"}],
        )
    write("eaten", "2026-08-20", ate=[{"item": "tomato", "amount": "6 lb"}])
    write("given_away", "2026-08-21", how="gift", item="tomato", amount="3 lb")
    write("eaten", "2026-09-20", ate=[{"item": "green bean", "amount": "4 lb"}])
    write("target_set", "2026-01-02", item="tomato sauce", amount="14 quart jars", per="year")
    return book


def records(book, as_of="2026-12-01", **options):
    return book.show("next-season", as_of=as_of, **options).to_dict()["records"]


def one(book, crop="tomato", **options):
    (found,) = (r for r in records(book, **options) if r["crop"] == crop)
    return found


def totals(book, as_of="2026-12-01", **options):
    return book.show("next-season", as_of=as_of, **options).totals
