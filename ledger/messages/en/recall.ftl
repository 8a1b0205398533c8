# What came of a lot or an entry, and what went into it.

recall-nothing-came-in = { $id } is { $kind }: nothing came in by it
    .wanted = Name what was bought, received or harvested; of a batch use --batch
recall-from-published = Take one from `croftbook show as-published`
recall-no-meal-no-gift = { $id } is { $kind }, neither a meal nor a gift
    .wanted = Take one from `croftbook history --kind meal`
recall-no-gauge = { $text } is no gauge in this book
    .wanted = Name the canner as batches do, or write dial
recall-no-schedule = there is no schedule { $text }, and no batch that names it
recall-name-one = Name one of --item, --lot, --batch, --purchase, --gauge, --schedule or --meal
recall-ids-begin = { SAY($n, style: "plain") } entries' ids begin with { $text }
recall-lots-called = { $n ->
        [none] { $text }: there is no such lot or jar label
       *[other] { $text }: { SAY($n, style: "plain") } lots are called so
    }
recall-name-lot = Name one of { LIST($names, type: "commas") }
recall-lot-from-shelf = Take a lot from `croftbook show shelf --json`
recall-may-be = It may be one of: { LIST($names, type: "commas") }
recall-schedule-from = Take one from `croftbook show as-published --json`
recall-names-nothing = names nothing to follow
recall-stands-beside = stands beside { LIST($names, type: "commas") }
