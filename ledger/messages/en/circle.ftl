# What a household is told of its circle: figures of a sheet and of a release, and what it agrees to.

circle-people = People
circle-people-means = people at the table, as the setting says
circle-batches = Batches
circle-batches-means = batches put up in the season
circle-skills = Skills in hand
circle-skills-means = skills of the household that stand in hand
circle-judged = Batches compared
circle-judged-means = batches of the season set beside a published process
circle-short = Short of published
circle-short-means = of those, short of the published process or against every one
circle-no-process = No tested process
circle-no-process-means = of those, with no published process held for them
circle-not-recorded = Not recorded
circle-not-recorded-means = of those, with something not written down that decides
circle-canned = Jars canned
circle-canned-means = jars put up in boiling water or under pressure in the season
circle-unsealed = Jars unsealed
circle-unsealed-means = of those, jars that did not seal
circle-kept = Jars kept
circle-kept-means = jars left on the season's last day
circle-kept-over-year = Jars over a year
circle-kept-over-year-means = of those, put up more than twelve months before
circle-own-energy = Own share by energy
circle-own-energy-means = what was eaten in the season and grown at home, by energy
circle-own-weight = Own share by weight
circle-own-weight-means = the same by weight
circle-own-value = Own share by value
circle-own-value-means = the same at the shop's price
circle-waste = Wasted
circle-waste-means = part of all food of the season, by weight, that was lost
circle-hours = Hours
circle-hours-means = hours written down for garden and batches
circle-spent = Paid out for batches
circle-spent-means = money paid out for the season's batches
circle-saved = Saved by batches
circle-saved-means = shop's price of the season's batches less all-in cost
circle-change-short = Change: short of published
circle-change-short-means = share of batches short of published, this season less the one before
circle-change-unsealed = Change: unsealed
circle-change-unsealed-means = share of jars that did not seal, this season less the one before
circle-change-waste = Change: wasted
circle-change-waste-means = share wasted, this season less the one before
circle-change-own-energy = Change: own share
circle-change-own-energy-means = own share by energy, this season less the one before
circle-change-minutes = Change: minutes a quart
circle-change-minutes-means = minutes of work a quart of all products asked for, this season less the one before
circle-jars = Jars
circle-jars-means = jars of it put up by this method
circle-cost = Cost a quart
circle-cost-means = all-in cost a US quart; not known once something that went in has no price
circle-minutes = Minutes a quart
circle-minutes-means = minutes of work a US quart; not known where no work was written down
circle-learning = Learning rate
circle-learning-means = what a doubling of batches leaves of the minutes; not known from fewer than five batches
circle-yield = Yield
circle-yield-means = weight picked a square metre of that ground
circle-area = Ground
circle-area-means = ground planted with it; not known where a planting does not say
circle-told-short-share = Batches short of published
circle-told-unsealed-share = Jars that did not seal
circle-told-waste = Food wasted, by weight
circle-told-own-energy = Own share of what was eaten, by energy
circle-told-old-share = Jars older than a year
circle-told-own-weight = Own share, by weight
circle-told-own-value = Own share, at the shop's price
circle-told-change-short = Change: batches short of published
circle-told-change-unsealed = Change: jars that did not seal
circle-told-change-waste = Change: food wasted
circle-told-change-own-energy = Change: own share by energy
circle-told-hours = Hours of garden and batches
circle-told-saved = Saved against the shop
circle-told-batches = Batches put up
circle-told-short = Batches short of published, counted
circle-told-unsealed = Jars that did not seal, counted
circle-told-kept = Jars left at the season's end
circle-told-minutes = Minutes of work a quart
circle-told-jars = Jars put up
circle-asks = { $who } asks about the season { SAY($year, style: "plain") }, { DAY($day, style: "iso") } to { DAY($day2, style: "iso") }.
circle-zones = Zones: { LIST($names, type: "commas") }. Money in { $currency }.
circle-products = Put up: { LIST($names, type: "commas") }.
circle-crops = Crops: { LIST($names, type: "commas") }.
circle-compared = Compared with the season { DAY($day, style: "iso") } to { DAY($day2, style: "iso") }, at home.
circle-zone = Zone
circle-zone-means = as you say
circle-not-known = not known
circle-rate-said = { $n } % of the minutes
circle-change-said = { $n ->
        [one] 1 point
       *[other] { $n } points
    }
circle-grams-said = { $n } g a m²
circle-or-more = { $amount } or more
circle-or-less = { $amount } or less
circle-minutes-said = { $n ->
        [one] 1 minute
       *[other] { $n } minutes
    }
circle-hours-said = { $n ->
        [one] 1 hour
       *[other] { $n } hours
    }
circle-jars-said = { $n ->
        [one] 1 jar
       *[other] { $n } jars
    }
circle-batches-said = { $n ->
        [one] 1 batch
       *[other] { $n } batches
    }
circle-unpriced = no price is known of { LIST($names, type: "commas") }: `croftbook price` writes one down
circle-consent-figures = These figures and nothing else leave this household: no entry, no name, no place, no number of entries.
circle-consent-cards = Who gathers the sheets sees each of them under the number that your card gives, and not whose card it is.
circle-consent-class = The class is told nothing that fewer than 10 households share; the public is told figures with noise alone.
circle-consent-withdrawal = `croftbook circle withdraw` takes the sheet back and deletes it; what was told by then cannot be called back.
circle-head-figure = Figure
circle-head-yours = Yours
circle-head-low = Low
circle-head-middle = Middle
circle-head-high = High
circle-head-households = Households
circle-at-least = { $n } or more
circle-about = about { $n }
circle-few = fewer than 10
circle-no-quartiles = fewer than 20: no quartiles
circle-few-have-any = fewer than 10 have any
circle-dominated = one household is over half
circle-more-minutes-said = { $n ->
        [one] 1 minute
       *[other] { $n } minutes
    }
circle-product = { $item } ({ $method })
circle-leftover = what is left beside it would be told as well
