# What stands around a table, a tree of arithmetic and the history.

table-empty = Nothing to show yet for { $question }.
table-why = `croftbook why 1` opens row 1 to what it comes from.
table-more = And { $n } more: --all
table-earlier = From { DAY($day, style: "iso") } on; and { $n } earlier: --all
# $known: the moment of what was known, or none; $currency: its letters, or none where there is no money
table-as-of = { $known ->
        [none] { $currency ->
            [none] As of { DAY($day, style: "iso") }.
           *[other] As of { DAY($day, style: "iso") }. Money in { $currency }.
        }
       *[other] { $currency ->
            [none] As of { DAY($day, style: "iso") }, as known at { $known }.
           *[other] As of { DAY($day, style: "iso") }, as known at { $known }. Money in { $currency }.
        }
    }
table-more-notes = and { $n } more: --notes shows them all
table-total = Total { $name }: { $value }
table-yes = yes
table-not-known = not known
table-published = published: { $source }
table-assumed = assumed: { $assumption }
table-how-sum = the sum of
table-how-product = the product of
table-how-quotient = the first by the second
table-how-difference = the first less the second
table-how-power = the first to the power of the second
table-how-lowest = the least of
table-how-middle = the middle of
table-how-highest = the most of
table-how-mean = the mean of
table-how-rounded-down = rounded down from
table-how-rounded-up = rounded up from
table-how-method = reckoned from
table-id = Id
table-day = Day
table-by = By
table-state = State
table-what = What happened
table-limit = { SAY($n, style: "plain") } of { SAY($of, style: "plain") }; --limit 0 shows all.
table-past = past
table-more-parts = and { SAY($n, style: "plain") } more: --json has all
