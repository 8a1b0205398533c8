months-things-months-writes-them-calendar = { $n ->
        [one] 1 thing
       *[other] { $n } things
    } in { $n2 ->
            [one] 1 month
           *[other] { $n2 } months
        }. `croftbook calendar FILE.ics` writes them for a calendar.
months-no-day-put-up-set = No day to put up is set for { LIST($names, type: "commas") }: no batch of your own stands as published.
months-nothing-planned-plantings-frost-days = Nothing is planned: plantings, frost days, batches and dates bring it.
months-how-long-how-hot-how = How long, how hot and how much acid is not said here: follow the published, tested process for that jar and altitude (`croftbook show as-published`).
months-eat-first-what-passes-date = Eat first: what passes its date within { $n } days, by item; marked jars are left out.
months-dial-gauge-tested-each-year = A dial gauge is tested each year before the season (extension advice); the day is a year after its last test.
months-eat-last-day = eat { $name }: its last day
months-have-gauge-tested = have the gauge of { $name } tested
months-start-indoors = start { $crop } indoors
months-practise-before-goes-rusty = practise { $skill } before it goes rusty
months-sow-again = sow { $crop } again
months-outdoors = { $how ->
    [out] set out
   *[sow] sow
} { $crop } outdoors from now on{ $soil ->
    [none] { "" }
   *[other] , soil at least { $soil } °F
}
months-last = last sowing of { $crop }{ $where ->
    [in] { "" } indoors
   *[out] { "" }
}
months-put-up = put up { $name }: { $makes } from { $takes }{ $loads ->
    [none] { "" }
    [one] , { $loads } canner load
   *[other] , { $loads } canner loads
}
