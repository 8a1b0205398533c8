reserve-wanted-days = wanted for 14 days
reserve-how-much-water-stored-not = How much water is stored is not written down: `--water "120 L"`, or count an item called water.
reserve-house-has-every-group-days = The house has every group of the 14 days.
reserve-reserve-lists-german-federal-ministry = Reserve lists of the German Federal Ministry of Food for 14 days (read in reprints) and the Federal Office of Civil Protection for 10 (second hand), by person.
reserve-what-batch-made-counts-group = What a batch made counts in the group of most of what went in.
reserve-us-advice-gallon-person-day = US advice is 1 gallon a person and day for two weeks: { $n2 } L (second hand).
reserve-medicines-infants-animals-not-these = Medicines, infants and animals are not on these lists.
reserve-add = to add
reserve-wanted-days-2 = wanted for 10 days
reserve-not-written-down = not written down
reserve-house = in the house
reserve-person-days-second-hand = a person, 10 days (second hand)
reserve-person-days-published = a person, 14 days (published)
reserve-hours = { $n ->
        [one] 1 hour
       *[other] { $n } hours
    }
reserve-no-food-house-written-down = No food in the house is written down.
reserve-without-water-days-drink-cook = Without water: { $n ->
        [one] 1 day
       *[other] { $n } days
    } to drink and cook, { $n2 ->
            [one] 1 day
           *[other] { $n2 } days
        } with washing.
reserve-medicines-infants-animals-not-these-2 = Medicines, infants and animals are not in these days.
reserve-days-energy-protein-whichever-less = Days are by energy or protein, whichever is less; `croftbook show enough` has every nutrient.
reserve-without-shop-days-all-table = Without the shop: { $n ->
        [one] 1 day
       *[other] { $n } days
    } for all at the table.
reserve-stock-last-counted = The stock was last counted on { DAY($day, style: "iso") }.
reserve-stock-never-counted-sets-right = The stock was never counted: `croftbook count` sets it right.
reserve-throw-away-what-above-degrees = Throw away what was above 40 degrees Fahrenheit (4.4 Celsius) for more than 2 hours; never taste to decide. The authority's chart and advice come first.
reserve-what-eaten-without-stove-common = What is eaten without a stove is common practice, no source.
reserve-more-needed-heat-when-ill = More is needed in heat, when ill, pregnant or nursing. How to make water safe to drink says the health agency and the label of what is used; no dose is printed here.
reserve-shelf-cellar = shelf and cellar
reserve-without-stove-cold = without stove or cold
reserve-all-stands-without-cold = all that stands without cold
reserve-days = days
reserve-shut-published = shut, as published
reserve-short-of = { $amount } { $group }
reserve-to-add = To add for 14 days: { $list }.
reserve-without-power = Without power, if they stay shut: the fridge { $n ->
        [one] 1 hour
       *[other] { $n } hours
    } and the freezer { $freezer }; then { $cold ->
            [one] 1 day
           *[other] { $cold } days
        } without a stove, { $warm ->
                [one] 1 day
               *[other] { $warm } days
            } with one.
reserve-less-than-a-day = less than 24 hours (half full: 24)
reserve-shut-fridge-keeps = A shut fridge keeps 4 hours, a full freezer 48 and a half full one 24 (USDA FSIS, second hand); the line between is our own. { $full ->
    [none] How full it is is not known: `croftbook setting freezer_room "15 cu ft"` says its room.
   *[other] The freezer is { $full }% full{ $how ->
        [less] : less than half, of which nothing is published.
       *[half] .
    }
}
reserve-litres-german = 2 L a person and day (German advice)
reserve-gallon-us = 1 US gallon a person and day (US advice, second hand)
reserve-water-as-asked = water stored, as asked
reserve-water-stored = water stored
reserve-litres-day = litres a day
reserve-energy-days = energy days
reserve-protein-days = protein days
reserve-no-food = no food in the house is written down
reserve-not-shut = not asked of it
reserve-freezer-full = the part of the freezer that is full
reserve-freezer-room = room of the freezer
reserve-no-freezer-room = the room of the freezer is not set
reserve-filled = room filled
reserve-packed = food in a cubic foot, as published
reserve-frozen = frozen food
reserve-lacks = wanted, less what is there
reserve-nothing-lacks = nothing lacks
