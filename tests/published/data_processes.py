"""Printed process tables, typed by hand in the layout of their documents.

Nothing here is read from the packaged tables. Each block names the document it was typed from;
``(from memory)`` marks a block that was typed from memory of the printed table and not from an
open document.

Boiling water: pack, jar, minutes at 0-1,000, 1,001-3,000, 3,001-6,000 and above 6,000 ft; three
numbers stand for tables that print 0-1,000, 1,001-6,000 and above 6,000 ft.
Dial gauge: pack, jar, minutes, psi at 0-2,000, 2,001-4,000, 4,001-6,000 and 6,001-8,000 ft.
Weighted gauge: pack, jar, minutes, psi at 0-1,000 and above 1,000 ft; ``NR`` is not recommended.
Pack ``both`` is "hot and raw", jar ``P/Q`` is "pints or quarts".
"""

MSU = "Michigan State University Extension, Preserving Food Safely, "
AIB94 = "USDA Agriculture Information Bulletin 539 (rev. 1994), "
NCHFP = "National Center for Home Food Preservation, "

BOILING = {
    (AIB94 + "selecting the correct processing time, table 1", "peaches"): """
        hot P 20 25 30 35
        hot Q 25 30 35 40
        raw P 25 30 35 40
        raw Q 30 35 40 45""",
    (
        NCHFP + "water-packed tomatoes, table 1 (reviewed February 2018)",
        "tomatoes_whole_in_water",
    ): """
        both P 40 45 50 55
        both Q 45 50 55 60""",
    (MSU + "01600828", "tomatoes_whole_in_juice"): """
        both P/Q 85 90 95 100""",
    ("University of Florida FCS8186, table 1", "tomato_sauce"): """
        hot P 35 40 45 50
        hot Q 40 45 50 55""",
    ("University of Nebraska-Lincoln, Grapes and grape juice, table 1", "grapes_whole"): """
        hot P/Q 10 15 15 20
        raw P 15 20 20 25
        raw Q 20 25 30 35""",
    (MSU + "01600323", "grape_juice"): """
        hot P 5 10 15
        hot Q 5 10 15
        hot half-gallon 10 15 20""",
    (MSU + "01600362", "apple_butter"): """
        hot half-pint 5 10 15
        hot P 5 10 15
        hot Q 10 15 20""",
    (MSU + "01600865, guide 6 p 20", "pickles_dill_quick"): """
        raw P 10 15 20
        raw Q 15 20 25""",
    (MSU + "01600131, guide 6 p 19", "pickles_bread_and_butter"): """
        hot P/Q 10 15 20""",
    ("Seasonal and Simple (University of Missouri), apples sliced", "apples_sliced"): """
        hot P/Q 20 25 30 35""",
    (AIB94 + "guide 2, applesauce (from memory)", "applesauce"): """
        hot P 15 20 20 25
        hot Q 20 25 30 35""",
    (AIB94 + "guide 2, pears halved (from memory)", "pears"): """
        hot P 20 25 30 35
        hot Q 25 30 35 40""",
    (AIB94 + "guide 2, plums (from memory)", "plums"): """
        both P 20 25 30 35
        both Q 25 30 35 40""",
    (AIB94 + "guide 2, berries whole (from memory)", "berries_whole"): """
        hot P/Q 15 20 20 25
        raw P 15 20 20 25
        raw Q 20 25 30 35""",
    (AIB94 + "guide 2, cherries whole (from memory)", "cherries_whole"): """
        hot P 15 20 20 25
        hot Q 20 25 30 35
        raw P/Q 25 30 35 40""",
    (AIB94 + "guide 3, tomatoes without added liquid (from memory)", "tomatoes_raw_no_liquid"): """
        raw P/Q 85 90 95 100""",
    (AIB94 + "guide 3, crushed tomatoes (from memory)", "tomatoes_crushed"): """
        hot P 35 40 45 50
        hot Q 45 50 55 60""",
    (
        "Cooperative Extension county offices, Canning tomatoes, table 1; above 3,000 ft from memory",
        "tomato_juice",
    ): """
        hot P 35 40 45 50
        hot Q 40 45 50 55""",
    (
        AIB94 + "guide 3, tomato and vegetable juice blend (from memory)",
        "tomato_vegetable_juice",
    ): """
        hot P 35 40 45 50
        hot Q 40 45 50 55""",
    (AIB94 + "guide 3, tomato ketchup (from memory)", "tomato_ketchup"): """
        hot P 15 20 25""",
    (NCHFP + "choice salsa (from memory)", "salsa_choice"): """
        hot half-pint 15 20 25
        hot P 15 20 25""",
    ("So Easy to Preserve, 6th edition, jams and jellies", "jam_strawberry_powdered_pectin"): """
        hot half-pint 5 10 15
        hot P 5 10 15""",
    (AIB94 + "guide 7, jelly without added pectin (from memory)", "jelly_no_added_pectin"): """
        hot half-pint 5 10 15
        hot P 5 10 15""",
    (AIB94 + "guide 6, dill pickles, fermented (from memory)", "pickles_dill_fermented"): """
        raw P 10 15 20
        raw Q 15 20 25""",
    (AIB94 + "guide 6, pickled beets (from memory)", "pickled_beets"): """
        hot P/Q 30 35 40 45""",
    (
        "A home canning handbook's sauerkraut at 0-1,000 ft; higher bands from memory",
        "sauerkraut",
    ): """
        hot P 10 15 15 20
        hot Q 15 20 20 25
        raw P 20 25 30 35
        raw Q 25 30 35 40""",
}

DIAL = {
    (AIB94 + "selecting the correct processing time, table 2", "peaches"): """
        both P/Q 10 6 7 8 9""",
    (AIB94 + "snap and Italian beans, table 1", "snap_beans"): """
        both P 20 11 12 13 14
        both Q 25 11 12 13 14""",
    (AIB94 + "guide 3, tomatoes in water: getcanning.com", "tomatoes_whole_in_water"): """
        both P/Q 15 6 7 8 9
        both P/Q 10 11 12 13 14""",
    (MSU + "01600828", "tomatoes_whole_in_juice"): """
        both P/Q 40 6 7 8 9
        both P/Q 25 11 12 13 14""",
    (AIB94 + "guide 3, tomatoes without added liquid (from memory)", "tomatoes_raw_no_liquid"): """
        raw P/Q 40 6 7 8 9
        raw P/Q 25 11 12 13 14""",
    ("University of Florida FCS8186, table 2", "tomato_sauce"): """
        hot P/Q 20 6 7 8 9
        hot P/Q 15 11 12 13 14""",
    (AIB94 + "guide 3, tomato and vegetable juice blend (from memory)", "tomato_vegetable_juice"): """
        hot P/Q 20 6 7 8 9
        hot P/Q 15 11 12 13 14""",
    (AIB94 + "guide 3, crushed tomatoes (first line read, second from memory)", "tomatoes_crushed"): """
        hot P/Q 20 6 7 8 9
        hot P/Q 15 11 12 13 14""",
    ("Cooperative Extension county offices, Canning tomatoes, table 2; above 4,000 ft from memory", "tomato_juice"): """
        hot P/Q 20 6 7 8 9
        hot P/Q 15 11 12 13 14""",
    (NCHFP + "spaghetti sauce without meat, table 1", "spaghetti_sauce_without_meat"): """
        hot P 20 11 12 13 14
        hot Q 25 11 12 13 14""",
    (MSU + "01600878", "spaghetti_sauce_with_meat"): """
        hot P 60 11 12 13 14
        hot Q 70 11 12 13 14""",
    ("Beets, dial gauge: seasonalandsimple.info", "beets"): """
        hot P 30 11 12 13 14
        hot Q 35 11 12 13 14""",
    (MSU + "01600280, guide 4 p 12", "corn_whole_kernel"): """
        both P 55 11 12 13 14
        both Q 85 11 12 13 14""",
    (MSU + "01600053", "greens_spinach"): """
        hot P 70 11 12 13 14
        hot Q 90 11 12 13 14""",
    (MSU + "01600235", "dry_beans_or_peas"): """
        hot P 75 11 12 13 14
        hot Q 90 11 12 13 14""",
    (MSU + "01600886", "soup_vegetable_or_meat"): """
        hot P 60 11 12 13 14
        hot Q 75 11 12 13 14""",
    (MSU + "01600886: 100 minutes with seafood", "soup_with_seafood"): """
        hot P/Q 100 11 12 13 14""",
    (MSU + "01600482, without bones", "chicken_or_rabbit_boneless"): """
        both P 75 11 12 13 14
        both Q 90 11 12 13 14""",
    (MSU + "01600482, with bones", "chicken_or_rabbit_bone_in"): """
        both P 65 11 12 13 14
        both Q 75 11 12 13 14""",
    ("Table of meats to 6,000 ft (a homesteading page of 2008); last band from memory", "meat_ground_or_chopped"): """
        hot P 75 11 12 13 14
        hot Q 90 11 12 13 14""",
    ("The same table of meats", "meat_strips_cubes_chunks"): """
        both P 75 11 12 13 14
        both Q 90 11 12 13 14""",
    ("The same table of meats", "meat_stock"): """
        hot P 20 11 12 13 14
        hot Q 25 11 12 13 14""",
    ("Pressure canning vegetables (scribd 18675448); first band: a page of 2011", "asparagus"): """
        both P 30 11 12 13 14
        both Q 40 11 12 13 14""",
    ("Pressure canning vegetables (scribd 18675448); first band: a page of 2011", "carrots"): """
        both P 25 11 12 13 14
        both Q 30 11 12 13 14""",
    ("Processing times for pressure canning (a page of 2011); above 2,000 ft from memory", "peas_green"): """
        both P/Q 40 11 12 13 14""",
    ("The same times for pressure canning", "peppers"): """
        hot half-pint 35 11 12 13 14
        hot P 35 11 12 13 14""",
    ("The same times for pressure canning", "potatoes_white"): """
        hot P 35 11 12 13 14
        hot Q 40 11 12 13 14""",
    ("The same times for pressure canning", "pumpkin_winter_squash_cubed"): """
        hot P 55 11 12 13 14
        hot Q 90 11 12 13 14""",
    (AIB94 + "guide 4, mixed vegetables (from memory)", "mixed_vegetables"): """
        hot P 75 11 12 13 14
        hot Q 90 11 12 13 14""",
    (AIB94 + "guide 2, acid foods, table 1: culinarycafe.com", "applesauce"): """
        hot P 8 6 7 8 9
        hot Q 10 6 7 8 9""",
    (AIB94 + "guide 2, acid foods, table 1", "apples_sliced"): """
        hot P/Q 8 6 7 8 9""",
    (AIB94 + "guide 2, acid foods, table 1", "berries_whole"): """
        hot P/Q 8 6 7 8 9
        raw P 8 6 7 8 9
        raw Q 10 6 7 8 9""",
    (AIB94 + "guide 2, acid foods, table 1", "cherries_whole"): """
        hot P 8 6 7 8 9
        hot Q 10 6 7 8 9
        raw P/Q 10 6 7 8 9""",
    (AIB94 + "guide 2, acid foods, table 1", "pears"): """
        hot P/Q 10 6 7 8 9""",
    (AIB94 + "guide 2, acid foods, table 1", "plums"): """
        both P/Q 10 6 7 8 9""",
}  # fmt: skip

WEIGHTED = {
    (AIB94 + "selecting the correct processing time, table 3", "peaches"): """
        both P/Q 10 5 10""",
    (AIB94 + "snap and Italian beans, table 2", "snap_beans"): """
        both P 20 10 15
        both Q 25 10 15""",
    (NCHFP + "water-packed tomatoes, table 3 (reviewed February 2018)", "tomatoes_whole_in_water"): """
        both P/Q 15 5 10
        both P/Q 10 10 15
        both P/Q 1 15 NR""",
    (MSU + "01600828", "tomatoes_whole_in_juice"): """
        both P/Q 40 5 10
        both P/Q 25 10 15
        both P/Q 15 15 NR""",
    ("Pressure canner instruction booklet, page 28", "tomatoes_raw_no_liquid"): """
        raw P/Q 40 5 10
        raw P/Q 25 10 15
        raw P/Q 15 15 NR""",
    ("A canner maker's page on crushed tomatoes", "tomatoes_crushed"): """
        hot P/Q 20 5 10
        hot P/Q 15 10 15
        hot P/Q 10 15 NR""",
    (NCHFP + "standard tomato sauce, table 3", "tomato_sauce"): """
        hot P/Q 20 5 10
        hot P/Q 15 10 15
        hot P/Q 10 15 NR""",
    ("Cooperative Extension county offices, Canning tomatoes, table 3; third line from memory", "tomato_juice"): """
        hot P/Q 20 5 10
        hot P/Q 15 10 15
        hot P/Q 10 15 NR""",
    (AIB94 + "guide 3, tomato and vegetable juice blend (from memory)", "tomato_vegetable_juice"): """
        hot P/Q 20 5 10
        hot P/Q 15 10 15
        hot P/Q 10 15 NR""",
    ("Spaghetti sauce without meat, table 2: meatsandsausages.com", "spaghetti_sauce_without_meat"): """
        hot P 20 10 15
        hot Q 25 10 15""",
    (MSU + "01600878", "spaghetti_sauce_with_meat"): """
        hot P 60 10 15
        hot Q 70 10 15""",
    ("Pressure canner instruction booklet, page 38", "beets"): """
        hot P 30 10 15
        hot Q 35 10 15""",
    ("Pressure canner instruction booklet, page 38", "carrots"): """
        both P 25 10 15
        both Q 30 10 15""",
    ("Pressure canner instruction booklet, page 36", "asparagus"): """
        both P 30 10 15
        both Q 40 10 15""",
    (MSU + "01600280, guide 4 p 12", "corn_whole_kernel"): """
        both P 55 10 15
        both Q 85 10 15""",
    (MSU + "01600053", "greens_spinach"): """
        hot P 70 10 15
        hot Q 90 10 15""",
    (MSU + "01600235", "dry_beans_or_peas"): """
        hot P 75 10 15
        hot Q 90 10 15""",
    (MSU + "01600886", "soup_vegetable_or_meat"): """
        hot P 60 10 15
        hot Q 75 10 15""",
    (MSU + "01600886: 100 minutes with seafood", "soup_with_seafood"): """
        hot P/Q 100 10 15""",
    (MSU + "01600482, without bones", "chicken_or_rabbit_boneless"): """
        both P 75 10 15
        both Q 90 10 15""",
    (MSU + "01600482, with bones", "chicken_or_rabbit_bone_in"): """
        both P 65 10 15
        both Q 75 10 15""",
    (AIB94 + "guide 5, ground meat (from memory)", "meat_ground_or_chopped"): """
        hot P 75 10 15
        hot Q 90 10 15""",
    (AIB94 + "guide 5, strips, cubes, chunks (from memory)", "meat_strips_cubes_chunks"): """
        both P 75 10 15
        both Q 90 10 15""",
    (AIB94 + "guide 5, stock (from memory)", "meat_stock"): """
        hot P 20 10 15
        hot Q 25 10 15""",
    ("Processing times for pressure canning (a page of 2011)", "peas_green"): """
        both P/Q 40 10 15""",
    ("The same times for pressure canning", "peppers"): """
        hot half-pint 35 10 15
        hot P 35 10 15""",
    ("The same times for pressure canning", "potatoes_white"): """
        hot P 35 10 15
        hot Q 40 10 15""",
    ("The same times for pressure canning", "pumpkin_winter_squash_cubed"): """
        hot P 55 10 15
        hot Q 90 10 15""",
    (AIB94 + "guide 4, mixed vegetables (from memory)", "mixed_vegetables"): """
        hot P 75 10 15
        hot Q 90 10 15""",
    (AIB94 + "guide 2, acid foods, table 2: culinarycafe.com", "applesauce"): """
        hot P 8 5 10
        hot Q 10 5 10""",
    (AIB94 + "guide 2, acid foods, table 2", "apples_sliced"): """
        hot P/Q 8 5 10""",
    ("Pressure canner instruction booklet, page 23", "berries_whole"): """
        hot P/Q 8 5 10
        raw P 8 5 10
        raw Q 10 5 10""",
    (AIB94 + "guide 2, acid foods, table 2", "cherries_whole"): """
        hot P 8 5 10
        hot Q 10 5 10
        raw P/Q 10 5 10""",
    (AIB94 + "guide 2, acid foods, table 2", "pears"): """
        hot P/Q 10 5 10""",
    (AIB94 + "guide 2, acid foods, table 2", "plums"): """
        both P/Q 10 5 10""",
}  # fmt: skip

#: Inches, typed from the procedures of the same documents (guide 1 to 7 where not read).
HEADSPACE = {
    "tomatoes_whole_in_water": "1/2", "tomatoes_whole_in_juice": "1/2", "tomatoes_raw_no_liquid": "1/2",
    "tomatoes_crushed": "1/2", "tomato_juice": "1/2", "tomato_sauce": "1/4", "spaghetti_sauce_without_meat": "1",
    "spaghetti_sauce_with_meat": "1", "snap_beans": "1", "carrots": "1", "beets": "1", "corn_whole_kernel": "1",
    "greens_spinach": "1", "asparagus": "1", "dry_beans_or_peas": "1", "soup_vegetable_or_meat": "1",
    "chicken_or_rabbit_boneless": "5/4", "chicken_or_rabbit_bone_in": "5/4", "apples_sliced": "1/2",
    "berries_whole": "1/2", "grapes_whole": "1", "grape_juice": "1/4", "apple_butter": "1/4",
    "pickles_dill_quick": "1/2", "pickles_bread_and_butter": "1/2", "sauerkraut": "1/2",
    "jam_strawberry_powdered_pectin": "1/4",
}  # fmt: skip

#: Acid a jar, University of Missouri GH1456: bottled lemon juice, citric acid, vinegar of 5%.
ACID = {"quart": ("2 tbsp", "1/2 tsp", "4 tbsp"), "pint": ("1 tbsp", "1/4 tsp", "2 tbsp")}
