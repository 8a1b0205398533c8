eaters-how-many-eat-not-said = How many eat is not said: the answer is for one person. `croftbook setting people 6` says so.
eaters-need-household = need of the household
eaters-no-verdict-given-infants-not = No verdict is given for infants: { LIST($names, type: "commas") } is not counted.
eaters-energy-from-calorie-table-remembered = The energy of { LIST($names, type: "commas") } is from the calorie table as remembered, not read: within 132 kcal of the published equation. Weight and height give it by that equation.
eaters-people-no-known-age = people of no known age
eaters-one-adult-assumed = one adult, assumed
eaters-needs-one-day-table = Needs of one day, for { $n } at the table.
eaters-nobody-described-says-who-eats = Nobody is described: `croftbook person Ada --sex female --age 39` says who eats.
eaters-full-years = full years
eaters-doctor = This sets food at hand beside tables for healthy people. Pregnancy, illness, diets and infants are a doctor's matter.
eaters-by-reference-weight = by the reference weight of 12 kg
eaters-by-calorie-table = by the calorie table
eaters-by-weight-and-height = by weight and height
eaters-need-of = { $name } ({ $by })
eaters-group = { $who ->
    [males] males { $low }-{ $high }
    [females] females { $low }-{ $high }
    [pregnancy] pregnancy { $low }-{ $high }
    [lactation] lactation { $low }-{ $high }
   *[children] children { $low }-{ $high }
}
eaters-group-of = { $who ->
    [males] males { $ages }
    [females] females { $ages }
    [pregnancy] pregnancy { $ages }
    [lactation] lactation { $ages }
   *[children] children { $ages }
}
eaters-group-over = { $who ->
    [males] males over { $ages }
   *[females] females over { $ages }
}
eaters-kind-of-need = { $kind ->
    [RDA] RDA
   *[AI] AI
}, { $group }
eaters-no-ages = No age is known of { $n } at the table: each counts { $kcal } kcal and the needs of ages 19 to 50, the mean of both sexes. `croftbook person` says who eats.
eaters-since-when = Since when { $name } is { $state ->
    [pregnant] pregnant is not said: the middle three months is taken.
   *[nursing] nursing is not said: the first half year is taken.
}
eaters-down-as = { $name } is down as { $state ->
    [pregnant] pregnant
   *[nursing] nursing
} for { $n ->
        [one] 1 day
       *[other] { $n } days
    }: say anew how it is.
eaters-of-table = { $by }
eaters-people = people
eaters-people-set = people at the table, as set
eaters-people-described = people described
eaters-age = age
eaters-age-said = as described
eaters-weight = weight
eaters-height = height
