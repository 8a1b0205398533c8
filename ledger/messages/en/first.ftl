first-published-plan-table-plan-not = By a published plan for { $n } at the table: a plan, not this family. { $n2 } foods have a record of their own.
first-people = people
first-used = eaten and given away
first-eaten-given-away = the same in quarts
first-days-since = days since the first of it, that day counted too
first-first-day = its day
first-no-own-record = no record of our own
first-months-of-a-year = months of a year
first-a-month = a month
first-canner-load = fresh produce in a canner load
first-quarts-of-load = quarts in the load
first-no-load = no canner load of it is published
first-row-gives = what the row gives
first-row-of = how long it is
first-no-row = no yield of a row of it is published
first-year = to a year
first-own-record = own record
first-plan-says-what-some-family = The plan: { $source }. It says what some family of its day ate.
first-own-record-counts-months-against = Own record counts with its months against { $n } of the plan: our own choice.
first-jar-maker-guide-says-otherwise = A jar maker's guide says otherwise ({ $list }), built on four canned meat meals a week (second hand).
first-how-long-how-hot-how = How long, how hot and how much acid is not said here: follow the published, tested process for that jar and altitude (`croftbook show as-published`).
first-no-servings-said = no servings said
first-person = a person, { $plan }
first-plan = by the plan
first-months-own-record = months of own record
first-fresh-produce = fresh produce
first-row = row
first-year-2 = a year
first-days = days
first-months-plan-weighs-our-own = months that the plan weighs (our own choice)
first-together = together
first-put-up = to put up
first-quart-published-canner-load = a quart, by a published canner load
first-foot-row-published = a foot of row, as published
first-part-plan = part of the plan
first-part-own-record = part of the own record
first-weight = its weight
first-a-person-of = { $n } { $jar ->
    [pint] pints
   *[quart] quarts
} a person of { $name }
first-jars-a-person = { $n } { $jar ->
    [pint] { $n ->
        [one] pint
       *[other] pints
    }
   *[quart] { $n ->
        [one] quart
       *[other] quarts
    }
} a person
first-servings = { $n } { $every ->
    [none] a week
   *[other] in { $every } weeks
} x { $weeks } weeks x { $size } { $spoon ->
    [tsp] tsp
   *[cup] cup
}
