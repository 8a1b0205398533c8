year-not-known = { $name }: not known of it: { LIST($list, type: "commas") }
year-never-picked-nobody-knows-when = { $name }: it was never picked, so nobody knows when
year-week = { $name }, week of { DAY($day, style: "iso") }
year-need-year = need of the year
year-what-plan-brings = what the plan brings
year-what-holds-plan-what-more = What holds the plan is what more of would make it better or cheaper. A need of the year is that of its 52 weeks; more than is needed in one week makes up for no other, so that a need may be brought in full over the year and yet not be met in each week.
year-part = part
year-weeks-plan = weeks of the plan
year-days-week = days of a week
year-programme = the plan of the year, its money
year-given = { $name }: { $what }
year-planted = planted
year-there = there
year-one = in one
year-there-once = there at once
year-put-up = put up
year-how-much-each-food-this = how much of each food this household eats
year-what-holds-plan-shows-each = What holds the plan: { $list }. `--limits` shows each and opens its why.
year-left-out = Left out: { $list }.
year-no-bed-has-ground-bed = No bed has ground: `croftbook plant` with --bed and --area, or `croftbook show next-season --beds "south bed=40 sq ft"`, says it.
year-kept-out-every-bed-family = Kept out of every bed, as the family stood in each last season: { LIST($names, type: "commas") }; `--same-beds` lets it stand again.
year-no-hours-known-picking-they = No hours are known of picking { LIST($names, type: "commas") }; they count none.
year-nothing-plan-who-eats-crops = Nothing to plan with: who eats, crops, recipes and prices bring it.
year-no-food-beyond-one-half = No food beyond one and a half times what a year uses of it, bought food in each week alike, of what was put up no more in a week than twice its even part, and of one crop as it is no more than 200 g a person and day: our own choice, so that a plan is one people eat.
year-only-printed-processes-planned-looked = Only printed processes are planned, looked up for today's jar, altitude and gauge; a line is a reminder and not the whole of one: read the current document and the canner's manual first (`croftbook show as-published`).
year-one-bed-alone-has-ground = One bed alone has ground: rotation within it is yours to see to.
year-hours = hours
year-part-need = part of the need
year-picked = picked
year-from-pantry = from the pantry
year-bought = bought
year-spent = spent
year-growing-picking = growing and picking { $crop }
year-energy-week = energy of the week
year-need-week = need of the week
year-kilogram-own-seasons = a kilogram, by own seasons
year-square-metre-chance-chosen = a square metre, at the chance chosen
year-all-weeks = all its weeks
year-weeks = weeks
year-one-own-batches = for one, by own batches
year-one-guess-without-source = for one, a guess without a source
year-likely-picked = likely picked
year-week-plan-choice = week of { DAY($day, style: "iso") }, the plan's choice
year-week-2 = a week
year-newest-price-kilogram = newest price, a kilogram
year-pay = to pay
year-fresh-one = fresh for one
year-fresh = fresh
year-one-labour-left-out = for one, its labour left out
year-cost = cost
year-grams-kilogram = grams in a kilogram
year-no-record-of-hours = No record of your hours for { LIST($names, type: "commas") }: from 1.0 to 2.5 person-hours a load is a guess without a source.
year-no-batch-as-published = no batch of your own stands as published
year-weight-or-hours-unknown = its weight, its hours or what is in it is not known
year-freeze-keeps = freeze, keeps { $life }
year-for-so-many = For { $n } at the table and { $hours } hours a week, with the beds' harvest at { $chance ->
    [even] an even chance
   *[likely] a chance of nine in ten
}: { $price } for the year from { DAY($day, style: "iso") }.
year-sodium-over = Sodium is { $n }% over its level; salt in the box is not in it.
year-not-met = Not met: { $n }% of the year's { $nutrient } ({ $amount } { $unit ->
    [ug] ug
    [g] g
    [kcal] kcal
   *[mg] mg
}), in { $weeks } of 52 weeks.
year-rounding = Whole jars and whole canner loads cost { $n }% of what needs and money weigh together.
year-hours-of-weeks = the hours of { $n ->
    [one] { $n } week
   *[other] { $n } weeks
}
year-begins = The year begins with the first picking, { DAY($day, style: "iso") }: what is on the shelf today is taken as eaten until then, as far as it reaches. Needs are those of each week; food is there when it is eaten: fresh as long as it keeps, put up until its time is over, the pantry up to its dates. What is sown indoors says `croftbook show when-to-sow`.
year-beds-bring = The beds bring what they bring with { $chance ->
    [even] an even chance
   *[likely] a chance of nine in ten
}, by own seasons and published yields, in the weeks of own seasons; a crop takes its ground for the season. Trees, berries and eggs come as they came in the last year.
year-rotation = A plant family is kept out of the bed it stood in the season before (common practice, no source): { $list }. `--same-beds` lets it stand there.
year-shop-prices = Shop prices are the newest known; jars that are full now count as empty by then, lids as bought; the stove is free for the canner { $n } hours a week. Seed and the jars of ways that are only printed cost nothing here.
year-ground-of = ground of { $bed }
year-stove-hours = stove hours
year-freezer-room = freezer room
year-lids = lids
year-so-much-of = { $n } { $unit ->
    [jars] jars
   *[kg] kg
} of { $name }
year-lacks = { $nutrient } { $n }%{ $by ->
    [over] { "" } over its level
   *[short] { "" }
}
year-ground-with = { $ground } of { $crop }
year-part-picked = picked in that week, of all
year-price-of-one = newest price, one whole unit
year-price-of-gram = newest price, a gram
year-in-kilogram = in a kilogram
year-one-unit = one
year-no-weeks = of no week
year-not-weighed = not weighed
year-nothing-paid = nothing is paid
year-done = { $name }, { $how }
year-used = used
year-nothing-there = there is none
year-a-load = a load
year-pounds-a-kilogram = pounds in a kilogram
year-not-frozen = not frozen
year-do-eat-fresh = fresh
year-do-eat-put-up = put up
year-do-from-the-pantry = in the pantry
year-do-buy = bought
year-much = so much
