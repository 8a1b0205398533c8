"""More printed process tables, each opened and typed by hand in the layout of its document.

Nothing here is read from the packaged tables. Layout as in `data_processes`: boiling water as pack,
jar, minutes at 0-1,000, 1,001-3,000, 3,001-6,000 and above 6,000 ft (three numbers: 0-1,000,
1,001-6,000, above 6,000); dial gauge as pack, jar, minutes, psi at 0-2,000, 2,001-4,000,
4,001-6,000 and 6,001-8,000 ft; weighted gauge as pack, jar, minutes, psi at 0-1,000 and above 1,000.
Every page named was read for this file; "rev. 1994" is a re-typed copy of the bulletin.
"""

MSU = "Michigan State University Extension, Preserving Food Safely, "
AIB94 = "USDA Agriculture Information Bulletin 539 (rev. 1994), "
NCHFP = "National Center for Home Food Preservation, "

BOILING = {
    (AIB94 + "nectarines, halved or sliced, table 1", "nectarines"): """
        hot P 20 25 30 35
        hot Q 25 30 35 40
        raw P 25 30 35 40
        raw Q 30 35 40 45""",
    (NCHFP + "Pears, Asian, halved or sliced, table 1", "pears_asian"): """
        hot P 20 25 30 35
        hot Q 25 30 35 40""",
    (MSU + "01600838, figs", "figs"): """
        hot P 45 50 55 60
        hot Q 50 55 60 65""",
    (MSU + "01600253, rhubarb, stewed", "rhubarb_stewed"): """
        hot P 15 20 25
        hot Q 15 20 25""",
    (MSU + "01600862, marinated whole mushrooms", "marinated_mushrooms"): """
        hot H 20 25 30 35""",
    (MSU + "01600882, chile salsa", "salsa_chile"): """
        hot P 15 20 25""",
    (AIB94 + "pickled corn relish, table 1", "relish_corn"): """
        hot H/P 15 20 25""",
    (AIB94 + "pickled mixed vegetables, table 1", "pickled_mixed_vegetables"): """
        hot P 5 10 15
        hot Q 10 15 20""",
    (MSU + "01600209, piccalilli", "relish_piccalilli"): """
        hot P 5 10 15""",
    (
        MSU + "01600072, pickled cauliflower or Brussels sprouts",
        "pickled_cauliflower_or_brussels_sprouts",
    ): """
        hot H 10 15 20
        hot P 10 15 20""",
}

DIAL = {
    (MSU + "01600712, lima beans", "lima_beans_shelled"): """
        both P 40 11 12 13 14
        both Q 50 11 12 13 14""",
    (AIB94 + "okra, table 1", "okra"): """
        hot P 25 11 12 13 14
        hot Q 40 11 12 13 14""",
    (MSU + "01600190, sweet potatoes, pieces or whole", "sweet_potatoes_pieces_or_whole"): """
        hot P 65 11 12 13 14
        hot Q 90 11 12 13 14""",
    (MSU + "01600225, succotash", "succotash"): """
        both P 60 11 12 13 14
        both Q 85 11 12 13 14""",
    (MSU + "01600876, tomatoes with okra or zucchini", "tomatoes_with_okra_or_zucchini"): """
        hot P 30 11 12 13 14
        hot Q 35 11 12 13 14""",
    (MSU + "01600879, Mexican tomato sauce", "mexican_tomato_sauce"): """
        hot P 20 11 12 13 14
        hot Q 25 11 12 13 14""",
    (MSU + "01600237, baked beans, with molasses sauce", "beans_baked"): """
        hot P 65 11 12 13 14
        hot Q 75 11 12 13 14""",
    (MSU + "01600236, beans, dry, with tomato or molasses sauce", "beans_dry_with_sauce"): """
        hot P 65 11 12 13 14
        hot Q 75 11 12 13 14""",
    (MSU + "01600850, chile con carne", "chile_con_carne"): """
        hot P 75 11 12 13 14""",
    (MSU + "01600574, fatty fish except tuna", "fish_fatty_not_tuna"): """
        raw P 100 11 12 13 14""",
    (MSU + "01600852, king and Dungeness crab meat", "crab_king_or_dungeness"): """
        any H 70 11 12 13 14
        any P 80 11 12 13 14""",
    (MSU + "01600253, rhubarb, stewed", "rhubarb_stewed"): """
        hot P 8 6 7 8 9
        hot Q 8 6 7 8 9""",
    (AIB94 + "nectarines, halved or sliced, table 2", "nectarines"): """
        both P/Q 10 6 7 8 9""",
}

WEIGHTED = {
    (MSU + "01600712, lima beans", "lima_beans_shelled"): """
        both P 40 10 15
        both Q 50 10 15""",
    (AIB94 + "okra, table 2", "okra"): """
        hot P 25 10 15
        hot Q 40 10 15""",
    (MSU + "01600190, sweet potatoes, pieces or whole", "sweet_potatoes_pieces_or_whole"): """
        hot P 65 10 15
        hot Q 90 10 15""",
    (MSU + "01600225, succotash", "succotash"): """
        both P 60 10 15
        both Q 85 10 15""",
    (MSU + "01600876, tomatoes with okra or zucchini", "tomatoes_with_okra_or_zucchini"): """
        hot P 30 10 15
        hot Q 35 10 15""",
    (MSU + "01600879, Mexican tomato sauce", "mexican_tomato_sauce"): """
        hot P 20 10 15
        hot Q 25 10 15""",
    (MSU + "01600237, baked beans, with molasses sauce", "beans_baked"): """
        hot P 65 10 15
        hot Q 75 10 15""",
    (MSU + "01600236, beans, dry, with tomato or molasses sauce", "beans_dry_with_sauce"): """
        hot P 65 10 15
        hot Q 75 10 15""",
    (MSU + "01600850, chile con carne", "chile_con_carne"): """
        hot P 75 10 15""",
    (MSU + "01600574, fatty fish except tuna", "fish_fatty_not_tuna"): """
        raw P 100 10 15""",
    (MSU + "01600852, king and Dungeness crab meat", "crab_king_or_dungeness"): """
        any H 70 10 15
        any P 80 10 15""",
    (MSU + "01600253, rhubarb, stewed", "rhubarb_stewed"): """
        hot P 8 5 10
        hot Q 8 5 10""",
    (AIB94 + "nectarines, halved or sliced, table 3", "nectarines"): """
        both P/Q 10 5 10""",
}

#: headspace in inches, as the same pages print it: product, pack, jar, inches
HEADSPACE = """
    lima_beans_shelled hot Q 1
    lima_beans_shelled raw P 1
    okra hot P 1
    sweet_potatoes_pieces_or_whole hot Q 1
    succotash raw Q 1
    tomatoes_with_okra_or_zucchini hot Q 1
    mexican_tomato_sauce hot P 1
    beans_baked hot P 1
    chile_con_carne hot P 1
    fish_fatty_not_tuna raw P 1
    crab_king_or_dungeness any H 1
    figs hot P 1/2
    pears_asian hot Q 1/2
    rhubarb_stewed hot P 1/2
    marinated_mushrooms hot H 1/2
    salsa_chile hot P 1/2
    relish_corn hot H 1/2
    pickled_mixed_vegetables hot Q 1/2
    relish_piccalilli hot P 1/2
    pickled_cauliflower_or_brussels_sprouts hot H 1/2
"""

#: acid in each jar, as the same pages print it: product, jar, acid, amount and unit
JAR_ACID = """
    figs P lemon 1 tbsp
    figs Q lemon 2 tbsp
    figs P citric 1/4 tsp
    figs Q citric 1/2 tsp
    pears_asian P lemon 1 tbsp
    pears_asian Q lemon 2 tbsp
    crab_king_or_dungeness H lemon 2 tbsp
    crab_king_or_dungeness P lemon 4 tbsp
    crab_king_or_dungeness H citric 1/2 tsp
    crab_king_or_dungeness P citric 1 tsp
"""

#: Amounts that the same pages print: product; the part that everything is measured by; then the
#: parts, ``>=`` for what must reach the figure (acid, sugar) and ``<=`` for what must not pass it.
RECIPES = {
    (AIB94 + "pickled mixed vegetables", "pickled_mixed_vegetables"): """
        4 lb cucumber; >= 5 cup vinegar; <= 2 lb onion; <= 4 cup celery; <= 2 cup carrot; <= 2 cup pepper; <= 2 cup cauliflower""",
    (MSU + "01600862, marinated whole mushrooms", "marinated_mushrooms"): """
        7 lb mushroom; >= 1/2 cup lemon juice; >= 2 1/2 cup vinegar; <= 2 cup oil; <= 1/2 cup onion; <= 2 clove garlic""",
    (MSU + "01600882, chile salsa", "salsa_chile"): """
        5 lb tomato; >= 1 cup vinegar; <= 2 lb chile; <= 1 lb onion""",
    (MSU + "01600879, Mexican tomato sauce", "mexican_tomato_sauce"): """
        18 lb tomato; >= 1/2 cup vinegar; <= 3 lb chile; <= 3 cup onion""",
    (AIB94 + "pickled corn relish", "relish_corn"): """
        10 cup corn; >= 5 cup vinegar; <= 2 1/2 cup pepper; <= 2 1/2 cup celery; <= 1 1/4 cup onion; <= 1/4 cup flour""",
    (MSU + "01600209, piccalilli", "relish_piccalilli"): """
        6 cup green tomato; >= 4 1/2 cup vinegar; <= 7 1/2 cup cabbage; <= 2 1/4 cup onion; <= 1 1/2 cup pepper""",
    (MSU + "01600072, pickled cauliflower", "pickled_cauliflower_or_brussels_sprouts"): """
        12 cup cauliflower; >= 4 cup vinegar; <= 2 cup onion; <= 1 cup pepper""",
    (AIB94 + "quick sweet pickles", "pickles_sweet_quick"): """
        8 lb cucumber; >= 3 1/2 cup vinegar; >= 4 1/2 cup sugar""",
    (MSU + "01600850, chile con carne", "chile_con_carne"): """
        3 lb ground beef; >= 8 cup tomato; <= 3 cup bean; <= 1 1/2 cup onion""",
    ("North Carolina State University, Canning catsup", "tomato_ketchup"): """
        24 lb tomato; >= 3 cup vinegar; >= 1 1/2 cup sugar; <= 3 cup onion""",
}
