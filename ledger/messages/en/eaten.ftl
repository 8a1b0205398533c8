# Below the shares of the table: what they rest on, and what is missing.
eaten-no-weight = No weight of { $name } is known, so it counts 0: `croftbook item` takes what one weighs.
eaten-no-energy = No energy of { $name } is known, so it counts 0 kcal: `croftbook item` takes kcal_per_100g or a food of the table.
eaten-no-price = No shop price of { $name } is known, so it counts 0 in value: `croftbook price` takes one.
eaten-price-later = The shop's price of { $name } was first seen only after the day it was used.
eaten-found = More { $name } was counted than the book had; it counts as found.
eaten-from-opening = { $name } was there when the book began; nobody said where it came from (`croftbook questions`).
eaten-unrecorded = { $name } was used that nobody wrote down as coming in; it counts as unrecorded.
eaten-feed-unknown = Nothing says what the animals were given in season { $name }, so what is adjusted for feed is not known.
eaten-days-written = Something eaten is written down on { $n } of { $n2 ->
        [one] 1 day
       *[other] { $n2 } days
    }; what was eaten on the others is in no figure here.
eaten-lacks-energy = No energy of { LIST($names, type: "commas") } is known, which came in: what was used at home by energy leaves it out.
eaten-lacks-weight = No weight of { LIST($names, type: "commas") } is known, which came in: what was used at home by weight leaves it out.
eaten-lacks-value = No shop price of { LIST($names, type: "commas") } is known, which came in: what was used at home by value leaves it out.
eaten-unweighed-feed = No weight of { LIST($names, type: "commas") } is known, so it does not count as feed.
eaten-need-unknown = What the household needs is not known until this is said: { LIST($list, type: "commas") }.
eaten-setting-command = `croftbook { $command }`
eaten-too-few-days = Shares are told from { $n } days with meals on; so far: { $n2 }.
eaten-rests-on = The shares rest on the { $n } of { $n2 ->
        [one] 1 day
       *[other] { $n2 } days
    } with a meal written down.
eaten-grown = Of what we ate, we grew { LIST($list, type: "commas") }.
eaten-grown-by-feed = Counting eggs, milk and meat only as far as we grew the feed: { LIST($list, type: "commas") }.
eaten-produced = Grown, of all used at home (grown + came in - given away - stock change) { LIST($list, type: "commas") }.
eaten-by-energy = { $share } by energy
eaten-by-weight = { $share } by weight
eaten-by-value = { $share } by shop value
eaten-of-need = Of the energy needed at the table, { $grown } was grown and { $eaten } is written down as eaten.
eaten-balance = { $n } kg came in from { DAY($day, style: "iso") } to { DAY($day2, style: "iso") }, beside { $n2 } kg that was there; the paths hold { $n3 } kg.
eaten-balance-label = { $n } kg came in from { $label }, beside { $n2 } kg that was there; the paths hold { $n3 } kg.
eaten-from-to = Eaten from { DAY($day, style: "iso") } to { DAY($day2, style: "iso") }.
eaten-in = Eaten in { $period }.
eaten-day-ahead = { DAY($day, style: "iso") } is after { DAY($day2, style: "iso") }, the day of this answer: nothing has happened yet.
eaten-nothing = Nothing eaten is written down between { DAY($day, style: "iso") } and { DAY($day2, style: "iso") }: `croftbook meal` takes what was on the table.
