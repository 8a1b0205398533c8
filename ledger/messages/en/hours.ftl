hours-ways-beside-each-other-never = The ways are beside each other and are never added: each answers another question.
hours-hours-x-wage = hours x wage
hours-no-hours-written-down-work = No hours are written down, so work has no value here: give `--work` when you pick, plant or put up.
hours-what-helper-would-paid-not = What a helper would be paid is not set: `croftbook setting helper_wage 15.00`. Without a wage there is our own rate only.
hours-helper-wage-what-us-household = A helper's wage is what the US household production account uses (a general hand); what it brought is the output method (Fitzgerald and Wicks, 1990: 44 per cent above hours x wage in Montana households). A trade's wage would overstate where the home worker is slower.
hours-season = Season { $year }: { $span }.
hours-worth = { $price } { $by ->
    [own-rate] by our own rate
    [helper] by a helper's wage
    [pay-given-up] by pay given up
   *[brought] by what they brought
}
hours-in-all = { $n ->
        [one] 1 hour
       *[other] { $n } hours
    } in all: { $ways }{ $bound ->
    [most] { "" } at the most
    [least] { "" } at the least
    [either] , give or take what has no known price
   *[exact] { "" }
}.
hours-no-wage = no wage is set
