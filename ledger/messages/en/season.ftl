# Below a season's table: sums, where it went, and what is missing.
season-unplanted = No planting of { $name } was written down for season { SAY($n, style: "plain") }; what was planted before is taken to stand and bear.
season-plants-of-pickings = No planting of { $name } was written down; its plants are the most that one picking names.
season-book-begins = The book begins on { DAY($day, style: "iso") }: what season { SAY($n, style: "plain") } brought before that day is not in it.
season-no-weight = No weight of { $name } is known: `croftbook item "{ $name }" --g-per "piece 120"`, with its own figure, gives one.
season-no-price = No shop price of { $name } is known: `croftbook price` or a purchase gives one.
season-planting-vague = A planting of { $name } says neither all plants nor all row or ground: yields and the published range need them.
season-no-planting = No planting of { $name } was written down: `croftbook plant` with plants, row or area gives its yield.
season-without-bed = Some { $name } was picked without its bed: `--by crop` puts the beds together.
season-target-per-person = The target for { $name } is per person: `croftbook setting people` says how many.
season-nothing = Nothing was planted or picked in season { SAY($n, style: "plain") } ({ DAY($day, style: "iso") } to { DAY($day2, style: "iso") }).
season-picked = Season { SAY($n, style: "plain") }, { DAY($day, style: "iso") } to { DAY($day2, style: "iso") }: { LIST($list, type: "commas") } picked.
season-picked-in-all = Season { SAY($n, style: "plain") }: { $amount } picked.
season-none-picked = Nothing was picked in season { SAY($n, style: "plain") }, nor in the one before.
season-worth = { $hours ->
        [one] Worth { $worth } in the shop; 1 hour written down.
       *[other] Worth { $worth } in the shop; { $hours } hours written down.
    }
season-worth-unknown = { $hours ->
        [one] No shop price is known of what was picked; 1 hour written down.
       *[other] No shop price is known of what was picked; { $hours } hours written down.
    }
season-inputs = Inputs { $n }.
season-inputs-and-net = Inputs { $n }: what was picked leaves { $n2 }.
season-inputs-and-net-some = Inputs { $n }, of which { $n3 } went to what has no shop price: the rest of what was picked leaves { $n2 }.
season-kept-too-long = Off that: { $n } of what was picked and never eaten until its keeping was over.
season-glut = Off that: { $n } of what was fed to animals or composted, beyond the feed that it spared.
season-last-so-far = Last season: what had been picked by { DAY($day, style: "iso") }.
season-where-it-went = Where it went, by weight: { LIST($list, type: "commas") }.
season-short = Short of what is wanted: { LIST($list, type: "commas") }.
season-waiting = Spent, and waiting for the next harvest: { LIST($list, type: "commas") }.
season-money-for = { $n } for { $crop }
season-in-bed = { $what } ({ $bed })
