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
