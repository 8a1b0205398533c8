"""The loader of the process tables refuses what a process table cannot say."""

from __future__ import annotations

import pytest

from ledger.reference._read import rows
from ledger.reference.schedules import check_schedules, load_schedules, products
from ledger.reference.schedules_sources import sources

#: Low in acid by the bulletin's guides 3 to 5: pressure only. Typed here, not read from the table.
LOW_ACID = {
    "spaghetti_sauce_without_meat", "spaghetti_sauce_with_meat", "snap_beans", "carrots", "beets", "corn_whole_kernel",
    "peas_green", "potatoes_white", "pumpkin_winter_squash_cubed", "peppers", "asparagus", "greens_spinach",
    "mixed_vegetables", "dry_beans_or_peas", "soup_vegetable_or_meat", "soup_with_seafood", "meat_stock",
    "chicken_or_rabbit_boneless", "chicken_or_rabbit_bone_in", "meat_ground_or_chopped", "meat_strips_cubes_chunks",
}  # fmt: skip

LATER = {
    "lima_beans_shelled", "okra", "sweet_potatoes_pieces_or_whole", "mushrooms_whole_or_sliced", "corn_cream_style",
    "succotash", "tomatoes_with_okra_or_zucchini", "beans_dry_with_sauce", "beans_baked", "mexican_tomato_sauce",
    "chile_con_carne", "fish_fatty_not_tuna", "clams", "crab_king_or_dungeness", "oysters", "tuna", "fish_smoked",
}  # fmt: skip


def test_every_row_is_there_with_its_source():
    lines = load_schedules()
    assert len(lines) == 319 + 196  # the table, and the one that came after it
    assert all(line.source.title and line.source.publisher for line in lines)
    assert {line.product for line in lines} == set(products())


def test_low_acid_products_have_no_boiling_water_row():
    low_acid = {p.key for p in products().values() if p.low_acid}
    assert low_acid == LOW_ACID | LATER
    assert not {s.product for s in load_schedules() if s.method == "boiling water"} & low_acid


@pytest.mark.parametrize(
    ("where", "change", "said"),
    [
        ("snap_beans-hot-pint-dial-1", {"source_id": ""}, "no source"),
        ("snap_beans-hot-pint-dial-1", {"checked": ""}, "whether it was read"),
        ("snap_beans-hot-pint-dial-1", {"dial_psi_6001_8000ft": "10"}, "pressure falls"),
        ("snap_beans-hot-pint-dial-1", {"dial_psi_6001_8000ft": ""}, "a printed band is empty"),
        ("snap_beans-hot-pint-dial-1", {"headspace_in": ""}, "no headspace"),
        ("peaches-hot-pint-bw-1", {"bw_minutes_above_6000ft": "20"}, "minutes falls"),
        ("peaches-hot-pint-bw-1", {"product": "snap_beans"}, "low-acid"),
        (
            "tomato_sauce-hot-pint-bw-1",
            dict.fromkeys(
                (
                    "lemon_juice_tbsp_per_jar",
                    "citric_acid_tsp_per_jar",
                    "vinegar_5pct_tbsp_per_jar",
                ),
                "",
            ),
            "not how much",
        ),
        ("tomato_sauce-hot-pint-bw-1", {"pack_style": "loose"}, "unknown style of pack"),
    ],
)
def test_broken_row_is_named(where, change, said):
    table = [row | change if row["schedule_id"] == where else row for row in rows("schedules")]
    problems = check_schedules(table)
    assert any(where in one and said in one for one in problems)


def test_same_row_twice_is_named():
    table = rows("schedules")
    assert check_schedules([*table, table[0]]) == [f"{table[0]['schedule_id']}: there twice"]


def test_recalled_rows_are_marked():
    recalled = [line for line in load_schedules() if not line.confirmed]
    assert {line.product for line in recalled} >= {"sauerkraut", "salsa_choice", "tomato_juice"}
    assert len(recalled) == sum(row["checked"] == "memory" for row in rows("schedules"))
    assert len(sources()) > 100
