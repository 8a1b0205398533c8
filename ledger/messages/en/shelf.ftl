# How long things on the shelf last: what it rests on and what is missing.
shelf-own-weeks = Use a week and run-out come from the household's own weeks: they tell how even the use is, and how sure the usual amount. The ranges leave out the earliest and the latest tenth. Use a week is over the coming { $n } weeks; what is eaten, used, sown or given away counts, what spoils comes on top.
shelf-own-seasons = Where the weeks show that use comes back at the same time of the year, that is followed.
shelf-none-there = Days on which there was none count neither as use of nothing nor as any other use.
shelf-even-pauses = What is opened at even pauses is reckoned by its pauses.
shelf-people-changed = Food used before the number of people changed counts by it.
shelf-few-weeks = Few weeks (under { $n }): a wide range.
shelf-season-unknown = Less than a year: a season is not known yet.
shelf-sure-few-weeks = few weeks: a wide range
shelf-sure-season-unknown = less than a year: a season is not known yet
shelf-earlier-ranges = Earlier ranges count those of the last eight moments whose twelve weeks are over, as they stood before any widening: `croftbook show came-true` grades all that the book said.
shelf-widened = The ranges are widened, as too few of the last ones held in this household.
shelf-next-by-season = The next supply is expected as in earlier years; the chance counts earlier and later days, too.
shelf-next-by-rhythm = The next supply is expected after the usual pause; the chance counts shorter and longer ones, too.
shelf-best-as-published = Where the household does not say how long it keeps, best quality ends with the early end of the published period. That is quality, and no promise of safety.
shelf-fresh-unknown = No keeping time is known of { LIST($names, type: "commas") }: fresh food goes before the rest, by the day on which it came. How long it keeps is written down with `croftbook item NAME --keeps "fridge 4 days"`.
shelf-fresh-published = Where the household does not say how long fresh food keeps, it stands where the early end of the published storage life puts it, at its best temperature and humidity; kept otherwise it wants eating sooner: { LIST($names, type: "commas") } (USDA Agriculture Handbook 66).
shelf-target-until-supply = Of a target for a year, as much should be there as lies before the next supply.
shelf-beyond-five-years = What lasts longer than about five years has no day.
shelf-ahead-own-weeks = What lies ahead comes from the household's own weeks of use, when nothing more comes in; the range leaves out the lowest and the highest tenth.
shelf-goes-on = How { $item } goes on shows once four weeks of its use are written down.
shelf-no-use = No use of { $item } is written down.
shelf-use-unknown = Too little is known of the use of { LIST($names, type: "commas") }: how long it lasts shows once four weeks of it are written down.
shelf-supply-unknown = When more comes is not known of { LIST($names, type: "commas") }: a third time of buying, or a harvest or batch of another year, tells.
shelf-target-per-person = The target of { LIST($names, type: "commas") } is for each person: `croftbook setting people 4` says how many there are.
shelf-gone-before = More likely than not gone before more comes: { LIST($names, type: "commas") }.
shelf-short = Short of the target: { LIST($names, type: "commas") }.
shelf-nothing-left = Nothing left, and used within { $n ->
        [one] 1 week
       *[other] { $n } weeks
    }: { LIST($names, type: "commas") }.
shelf-held = { $n } of { $n2 }
shelf-none-in-weeks = { $n ->
        [one] none in { $n } week
       *[other] none in { $n } weeks
    }
shelf-up-to = up to { $amount }
shelf-to-years = { $weeks } to years
shelf-chance-under = under 1 %
shelf-chance-over = over 99 %
