# What worth-it rests on, and what is missing for it.
worth-counts-once = Each thing counts once: what went into jars or dishes counts there, and what was sold, given away, lost or kept too long is taken off in its own line. `croftbook show season` counts all that was picked.
worth-unpriced = No shop price of { $name } is known, so what there was of it counts 0 in worth.
worth-no-value = { $name } was received without a value; it counts at the shop's price of its day.
worth-kept-too-long = What was picked and is still in the book when its keeping is over is taken as never eaten: the later of the household's word and the published storage life of it (USDA Handbook 66, storage charts), from the last count that found some.
worth-fed-for-feed = What was fed to animals counts as the feed that it spared: its energy, at what a unit of energy in feed cost until then ({ $n } kcal a kilogram of feed where the household says none).
worth-nothing = Nothing was written down in season { SAY($n, style: "plain") } that counts here.
worth-no-hours = No hours are written down, so there is no net an hour: give `--work` when you pick, plant or put up.
worth-nothing-made = Nothing was picked or put up.
worth-nothing-made-in = Nothing was picked or put up in season { SAY($n, style: "plain") }.
worth-no-shop-price = No shop price of { LIST($names, type: "commas") }: write one down with `croftbook price`, or name what it stands for with `croftbook item NAME --shop-equivalent`.
worth-no-durables = No jars, equipment or garden inputs with `--years` were bought.
worth-shared-by-wear = What batches and harvests gained is shared over what lasts and served them, by wear; own time is not taken off.
worth-no-interest = No rate of interest is set, so what lasts costs a year its price by its life: `croftbook setting interest_rate 4` sets one.
worth-interest = What lasts costs a year its price and { $n } per cent interest, spread evenly over its life, nothing being left at its end.
worth-served-equipment = Nobody wrote down what { $item } served: name it with `--equipment` when you put up ({ $typed }).
worth-served-jar = Nobody wrote down what { $item } served: put up in it.
worth-served-crop = Nobody wrote down what { $item } served: its crop has not been picked yet.
worth-paid-off = paid off
worth-life-assumed = Nobody said how long { $name } lasts; it counts as { $n ->
        [one] 1 year
       *[other] { $n } years
    }.
worth-first-year = What was bought less than a year ago counts as earning in a year what it earned so far.
worth-span = { $state ->
        [running] { DAY($day, style: "iso") } to { DAY($day2, style: "iso") }, still running
       *[over] { DAY($day, style: "iso") } to { DAY($day2, style: "iso") }
    }
