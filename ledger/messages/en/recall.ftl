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
recall-looked-up = { $says ->
        [none] looked up batch { $id } in { $name }
       *[other] looked up batch { $id } in { $name }: { $says }
    }
recall-lots = { $n ->
        [one] 1 lot
       *[other] { $n } lots
    }
recall-jars = { $n ->
        [one] 1 jar
       *[other] { $n } jars
    }
recall-meals = { $n ->
        [one] 1 meal
       *[other] { $n } meals
    }
recall-gifts = { $n ->
        [one] 1 gift
       *[other] { $n } gifts
    }
recall-batches = { $n ->
        [one] 1 batch
       *[other] { $n } batches
    }
recall-came-of = What came of { $what }: { $lots } there ({ $jars }), { $meals }, { $gifts }, { $batches }.
recall-went-into = What went into { $what }: { $lots } brought in, { $batches }.
recall-given-to = Some was given to: { LIST($names, type: "commas") }.
recall-not-judged = How each jar stands is not said of so many: `croftbook show shelf` does.
recall-nobody-named = { $n ->
        [one] Of 1 gift nobody wrote down who got it.
       *[other] Of { $n } gifts nobody wrote down who got it.
    }
recall-no-test = No test of a gauge is written down: every load by a dial is named.
recall-people = { $guests ->
        [none] { $n ->
                [one] 1 person
               *[other] { $n } people
            }
       *[other] { $n ->
               [one] 1 person
              *[other] { $n } people
           }, { $guests } of them guests
    }
recall-start-lot = lot { $id }
recall-start-batch = batch { $id }
recall-start-meal = meal { $id }
recall-start-entry = { $kind } { $id }
recall-start-gauge = { $name ->
        [none] the dial gauge
       *[other] the gauge of { $name }
    }
recall-start-schedule = the schedule { $name }
