enough-what-next-season-plan-would = What next season's plan would likely bring as picked, before it is put up: a middling season, not a promise.
enough-where-food-figure-not-known = Where a food's figure is not known it counts nothing: the supply is at least this much.
enough-enriched-count-not-enriched-counts = Is it enriched? { LIST($names, type: "commas") } count as not enriched. `croftbook setting flour_enriched yes` counts folate and iron added.
enough-salt-iodised-iodine-not-reckoned = Is the salt iodised? Iodine is not reckoned here; `croftbook setting salt_iodised yes` keeps the answer.
enough-needs-recommended-allowances-else-adequate = Needs are the recommended allowances, else adequate intakes (Dietary Reference Intakes); nutrients are those of USDA SR28. It says what the food holds, never how anybody is.
enough-sodium-set-against-level-above = Sodium is set against the level above which risk rises (2019, from memory); salt in the box is left out.
enough-food-counts-kept-cooking-takes = Food counts as it is kept. Cooking takes from it: boiled greens keep 55 to 70 per cent of their vitamin C; what was put up carries what went in, vegetables less what cooking takes.
enough-no-weight-known-counts-nothing = No weight of { LIST($names, type: "commas") } is known, so it counts nothing: `croftbook item` takes what one weighs.
enough-energy-days = Energy: { $n ->
        [one] 1 day
       *[other] { $n } days
    }.
enough-days-asked = days asked for
enough-need-these-days = need of these days
enough-gap = gap
enough-ground = ground of { $bed }
enough-level-household = level of the household
enough-days-energy-lasts = days that the energy lasts
enough-weight-all = weight of all
enough-part-known = part known
enough-days = days of { $nutrient }
enough-part-need = part of the need of { $nutrient }
enough-part-grown-here = part grown here
enough-grown-here = grown here
enough-what-food-holds = what the food holds
enough-weight-known = weight known
enough-nothing = No food to reckon with: { $of ->
    [pantry] nothing is in the house that may be counted
    [eaten] no meals are written down in those days
   *[next-season] nothing is planned for next season
}.
enough-not-known-what-is-in = Nothing is known of what is in { LIST($names) }: `croftbook item NAME --food ID` links a row of the food table.
enough-short-first = Short first: { $nutrient }, { $n ->
        [one] 1 day
       *[other] { $n } days
    } { $of ->
    [pantry] by what is in the house
   *[next-season] by what next season's plan would bring
}.
enough-from-shop = { $amount } of { $name } for { $price }
enough-from-bed = { $ground } of { $crop }
enough-to-close = To have { $n ->
        [one] 1 day
       *[other] { $n } days
    } of { $nutrient }: { LIST($ways, type: "or") }.
enough-eaten-no-need = From { DAY($day, style: "iso") } to { DAY($day2, style: "iso") } no need can be set beside what was eaten.
enough-eaten-least = From { DAY($day, style: "iso") } to { DAY($day2, style: "iso") } what was eaten had least of { $nutrient }: { $n }% of the need{ $energy ->
    [none] .
   *[other] ; energy { $energy }%.
}
enough-half-unknown = Of { $n }% of this food by weight nothing is known but its energy: there is no headline. What is not known is named below.
enough-not-counted = Not counted, as it { $why ->
    [marked] bears a mark
   *[past-its-date] is past its date
}: { LIST($names, type: "commas") }.
enough-why-shop = from the shop
enough-why-one-whole = in one whole unit of { $name } (food table)
enough-why-so-much = so much { $name }
enough-why-price-of-one = price of one whole unit of { $name }
enough-why-name-from-shop = { $name } from the shop
enough-why-bed = from a bed
enough-why-yields = { $name } by published yields ({ $note })
enough-why-one-gram = in one gram of { $name } (food table)
enough-why-square-metre = on a square metre
enough-why-level = { $name } (level, { $by })
enough-part-from = { $name } { $n }%
enough-eaten = eaten
enough-likely-picked = likely picked
enough-too-little-known = too little is known of it
enough-no-days = not reckoned for it
enough-no-gap = no gap
