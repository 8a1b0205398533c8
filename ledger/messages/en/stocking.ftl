# Below the stocking-up plan: trips, risks, what it rests on and what is missing.
stocking-likely-use = Use a week is what the shelf says, too: likely over the coming { $n } weeks, by the household's own weeks with some; it is taken to go on evenly.
stocking-target-weeks = Where no target is set, { $n } weeks are wanted in the house: `--weeks` or `croftbook target` says otherwise.
stocking-keeps = Nobody says how long what follows keeps: { LIST($names, type: "commas") }; it counts as keeping long enough.
stocking-few-weeks = Fewer than four weeks of { LIST($names, type: "commas") } are known, so its use is not: it shows once they are written down.
stocking-no-use = No use of { LIST($names, type: "commas") } is written down, so its weeks are not known: write meals and batches down, or count it with `--missing eaten`.
stocking-no-price = No price of { LIST($names, type: "commas") } was ever seen: `croftbook price` writes one down.
stocking-people-unknown = How many people eat is not set, so the target of { LIST($names, type: "commas") } is not known: `croftbook setting people 6` says so.
stocking-no-staples = No staples yet: an item that was bought twice and used, or bought and given a target.
stocking-nothing-extra = No trip buys anything extra.
stocking-in-all = In all: { $n }.
stocking-extra = Extra packs, besides what the weeks between the trips take:
stocking-trip = Trip { $n }: { LIST($packs, type: "commas") }: { $cost }
stocking-still-wanted = Still wanted after { $n ->
        [one] 1 trip
       *[other] { $n } trips
    }: { LIST($packs, type: "commas") }.
stocking-to-the-target = To the target in all: { $cost }. `--budget 20` spreads it over trips.
stocking-kept-out = Not bought, as it would pass its date: { LIST($packs, type: "commas") }.
stocking-price-rise = A price rise of { $n } per cent would cost { $cost } over { $weeks } weeks.
stocking-with-plan = With the plan in the house: { $cost }.
stocking-uncovered = Not covered through { $n } weeks without a shop: { LIST($names, type: "commas") }.
stocking-uncovered-with-plan = Not covered through { $n } weeks without a shop with the plan in the house: { LIST($names, type: "commas") }.
stocking-nothing-bare = nothing
