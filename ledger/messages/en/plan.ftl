# The plan of the next season: rows, sums, what it rests on and what is missing.
plan-season = For the season of { SAY($n, style: "plain") }.
plan-ground = { $beds ->
        [one] For the season of { SAY($n, style: "plain") }: { $wanted } wanted, { $there } in bed.
       *[other] For the season of { SAY($n, style: "plain") }: { $wanted } wanted, { $there } in { $beds } beds.
    }
plan-even-chance = Plants give an even chance of enough; 9 in 10: enough in nine years of ten.
plan-leave-out = More ground is wanted than there is: leave out { LIST($names, type: "commas") }.
plan-grow-less = More ground is wanted than there is: grow less { LIST($list, type: "commas") }.
plan-leave-out-and-grow-less = More ground is wanted than there is: leave out { LIST($names, type: "commas") }; grow less { LIST($list, type: "commas") }.
plan-some-of = { $crop } ({ $many } of { $many2 })
plan-fails = { $name }: it fails outright about one season in { $n } here. No number of plants helps against that: put up two seasons' worth in a good one, or sow twice.
plan-where = { $crop }: { LIST($where, type: "commas") }.
plan-where-short = { $crop }: { LIST($where, type: "commas") }; { $amount } short.
plan-no-room = no room
plan-in-bed = { $many } in { $bed }
plan-not-sufficient = { $aim ->
        [value] The beds do not suffice; this brings most by value (--for { LIST($others, type: "commas") } weighs otherwise).
        [energy] The beds do not suffice; this brings most by energy (--for { LIST($others, type: "commas") } weighs otherwise).
       *[targets] The beds do not suffice; this brings most by targets (--for { LIST($others, type: "commas") } weighs otherwise).
    }
plan-stands-short = { $crop }: what stands brings { $amount }, { $amount2 } short.
plan-season-short = { $crop }: a middling season brings { $amount }, { $amount2 } short.
plan-kept-out = Kept out of { LIST($names, type: "commas") }, where their family stood: { LIST($names2, type: "commas") }.
plan-for = for { $list }
plan-of-item = { $amount } of { $item } ({ $how })
plan-last-year = last year
plan-last-year-more = last year with { $n } % added: liked { $n2 } of 5
plan-last-year-less = last year with { $n } % taken off: liked { $n2 } of 5
plan-asked = asked
plan-target = target
plan-as-asked = { $amount } (asked)
plan-as-targeted = { $amount } (target)
plan-none-asked = none (asked)
plan-more = { $n } more
plan-fresh = { $amount } fresh
plan-fresh-more = { $amount } fresh ({ $n } % added: liked { $n2 } of 5)
plan-fresh-less = { $amount } fresh ({ $n } % taken off: liked { $n2 } of 5)
plan-of-it-in-all = { $amount } of it in all
plan-nobody-ate = nobody ate any, and there is no target
plan-yield-unknown = yield not known
plan-published = published: { $span } a { $unit } ({ $note })
plan-own-seasons = { $n ->
        [one] 1 season of your own: { $span } a { $unit }
       *[other] { $n } seasons of your own: { $span } a { $unit }
    }
plan-span = { $low } to { $high }
plan-unit = { $unit ->
        [row] metre of row
        [area] square metre
        [season] season
       *[plant] plant
    }
plan-standing-since = standing since { DAY($day, style: "iso") }, so no new place is looked for
plan-beds-take = the beds take { $many } of { $many2 }, { $amount } short
plan-short = { $amount } short
plan-earlier-yields = { $n } of { $n2 } earlier yields were at least what nine seasons of ten should bring.
plan-held = { $n } of { $n2 }
plan-nothing-grows = Nothing that grows here is wanted yet: `croftbook harvest` and `croftbook plant` say what grows, `croftbook meal` and `croftbook target` what is wanted.
plan-no-beds = No bed's ground is known: `croftbook plant tomato --bed 'south bed' --area '40 sq ft'` says it, or --beds 'south bed=40 sq ft' here.
plan-ground-unknown = The ground of { LIST($names, type: "commas") } is not known, so nothing was put there: give --area when planting.
plan-not-proven = The time ran out before a better plan could be ruled out.
plan-few-days = { $n ->
        [one] Only 1 day of use is written down, and stands for the whole year: a target says better.
       *[other] Only { $n } days of use are written down, and stand for the whole year: a target says better.
    }
plan-never-made = Nobody wrote down how { $item } is made: `croftbook recipe` or a first batch says what it takes.
plan-nobody-ate-it = Nobody ate any { $name }, and there is no target: `croftbook target '{ $measures ->
        [metric] 25 kg
       *[other] 60 lb
    } { $name }' --per year` sets one.
plan-brings-unknown = What { $unit } of { $name } brings is not known: one finished season of plantings and pickings tells.
plan-brings-unknown-but-published = What { $unit } of { $name } brings is not known: one finished season of plantings and pickings tells, or one planting with its --row and --area, for the published yield.
plan-one = { $unit ->
        [row] one metre of row
        [area] one square metre
        [plant] one plant
       *[season] a planting
    }
plan-length-of-row = { $name }: no planting says how much was planted, so the answer is in length of row, by the published yield.
plan-not-fitted = { $name }: no planting says both its ground and how much was planted, so it was not fitted into the beds.
plan-no-price = No shop price of { $name } is known, so it counts for nothing here: `croftbook price`.
plan-no-energy = No energy of { $name } is known, so it counts for nothing here: `croftbook item`.
plan-use-as-last-year = Where no target is set, next year takes what was eaten and given away in the last { $n } days.
plan-shelf-eaten-up = What is on the shelf today is taken as eaten before the next harvest is put up.
plan-by-recipe = Never made yet, reckoned by the recipe: { LIST($names, type: "commas") }.
plan-liked-counts = Where no target is set, what was liked counts up to a fifth more and what was not up to a fifth less; what was thrown away does not count.
plan-published-yield = By published yields: { LIST($list, type: "commas") }.
plan-crop-by = { $crop } ({ $note })
plan-seasons-weighed = The household's seasons and the published yield are weighed by how far each can be trusted; with few seasons the book counts more. Nine in ten leaves out the worst tenth, failed seasons included.
plan-whole-season = A crop takes its ground for the whole season; nothing follows it there.
plan-bed-as-planted = A bed has as much ground as was most planted in it in one season.
plan-target-per-person = The target of { $name } is for each person, and nobody said how many you are: `croftbook setting people 4`; last year's use stands in.
plan-published-process = How long, how hot and how much acid is not said here: follow the published, tested process for that jar and altitude (`croftbook show as-published`).
plan-weeks-as-before = The crop comes in as in the seasons so far, moved to next season day by day.
plan-batches-as-before = Batches, jars and minutes are those of your own batches in the year up to the newest of each.
plan-full-jars-emptied = Jars that are full today count as empty by then.
plan-nothing-keeps = Nothing that keeps is wanted of what grows here: `croftbook target` or a batch (`croftbook putup`) says what is.
plan-picked-when-unknown = When { $name } is picked is not known yet: its pickings tell (`croftbook harvest`).
plan-no-hours = No hours of { LIST($names, type: "commas") } are written down: `croftbook putup --work` takes them.
plan-hours = { $n ->
        [one] 1 hour in all; most in the week of { DAY($day, style: "iso") }: { $n2 }.
       *[other] { $n } hours in all; most in the week of { DAY($day, style: "iso") }: { $n2 }.
    }
plan-stores = { $what }: { SAY($n, style: "plain") } wanted, { $have }; { $gap }.
plan-kind = { $kind ->
        [half-pint-jar] half-pint jars
        [pint-jar] pint jars
        [quart-jar] quart jars
        [half-gallon-jar] half-gallon jars
        [lid] lids
       *[other] { $name }s
    }
plan-empty-and-full = { $n } empty and { $n2 } full now
plan-in-hand = { $n } in hand
plan-enough = enough
plan-to-get = { $n } to get
plan-eaten-in-year-to = eaten and given away in the year to { DAY($day, style: "iso") }
