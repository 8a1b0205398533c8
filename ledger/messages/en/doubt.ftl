# What is asked of a person before something doubtful is written down, and the answers that are offered.

doubt-done-so = it was done so
doubt-right = it is right
doubt-where-kept = Where do the jars of { $item } stand? No place was said, and no published process closes jars of a cook: they are taken to stand in the refrigerator. The nearest figure that is printed is { $n } to { $n2 } days, for home-canned food once opened{ $source }. If they stand on the shelf or in the cellar, write that place down with the jars.
doubt-in-fridge = in the refrigerator
doubt-closed-on-shelf = No place was said for the jars of { $item }: closed so ({ $tool }), they are judged as jars on the shelf.
doubt-name-near = { $name } is not in the book yet; did you mean { $near }?
doubt-oldest = take the oldest
doubt-newest = { $text }, the newest
doubt-in-pieces = { $item }, counted in pieces
doubt-clock = this machine's clock says { DAY($today, style: "iso") }, and the last entry was written down on { DAY($last, style: "iso") }; is the clock right?
doubt-future = { DAY($day, style: "iso") } is still to come; is the day right?
doubt-cans = { $name } in cans would be dated and eaten as the fresh food. Are they kept apart as { $ware }?
doubt-close-to = { $item } is close to { $near }; is it another item?
doubt-yes-right = yes, it is right
doubt-sourced = { $question } ({ $source })
doubt-not-known = it is not known
doubt-another-item = it is another item
doubt-means-one = does { $text } mean { $jars }?
doubt-means-either = does { $text } mean { $apart }, or { $together }?
doubt-thousands = is { $text } { $plain }, or { $part }?
doubt-count-contradicted = { $amount } of { $name } is less than later entries that name a lot took; is the count right?
doubt-which-jars = { $amount } { $name }: which jars, { LIST($jars, type: "or") }?
doubt-great-deal = { $amount } of { $name } is a great deal; is it right?
doubt-lot-instead = { $lot }: { $problem }; take the oldest { $item } instead?
doubt-lot-made-up = a lot that was found or never written down cannot be named
doubt-lot-none = there is no such lot
doubt-lot-struck = that entry was taken back
doubt-lot-of-other = that lot is { $item }
doubt-lot-late = that lot came later
doubt-lot-no-label = it is neither a lot nor a jar's label
doubt-lot-label-of-none = no jar of { $item } has that label
doubt-lot-jar-late = that jar came later
doubt-which-unsealed = Which jars of { $item } failed to seal: { LIST($jars, type: "commas") }?
doubt-jars-of-day = the { $jars } of { DAY($day, style: "iso") }
doubt-unit-or-item = { $near ->
        [none] { $text } is not a unit that is known; is { $item } an item of that name?
       *[other] { $text } is not a unit that is known (did you mean { $near }?); is { $item } an item of that name?
    }
doubt-water-added = { $out } came out of { $into }; was water added?
doubt-not-there = { $other ->
        [none] { $there ->
            [none] { $amount } of { $name } are taken, and the book has none left on that day; is the amount right?
           *[other] { $amount } of { $name } are taken, and the book has { $there } left on that day; is the amount right?
        }
       *[other] { $there ->
            [none] { $amount } of { $name } are taken, and the book has none left on that day { $other }; is the amount right?
           *[other] { $amount } of { $name } are taken, and the book has { $there } left on that day { $other }; is the amount right?
        }
    }
doubt-apart-from = { $unit ->
        [none] (apart from { $amount } of it)
       *[other] (apart from { $amount } of it, until croftbook item "{ $name }" --g-per "{ $unit } ..." says what one weighs)
    }
doubt-out-of-jars = { $amount } of { $name } would come out of jars put up on { $day } ({ $method }): they bear the name of the fresh food, and what is oldest goes first. Was it those jars? If it was fresh, write down first where it came from, or name its lot ("5 lb bean from lot 1a2b3c4d"); a name of its own for what is put up keeps the two apart.
doubt-from-jars = it was those jars
doubt-quart-or-jar = { $amount } of { $name }: is it { $jars } of what was put up, as it stands on the shelf? If it was fresh, say its weight, or name its lot.
doubt-count-from-jars = The count is of all that bears the name { $name }, and would take { $jars } off the shelf, put up on { $day } ({ $method }){ $mark ->
        [none] {""}
       *[other] {", "}marked: { $mark }
    }. Are those jars gone? If only the fresh food was counted, count the jars beside it, by the jar. If they were thrown out, write that down instead (croftbook discard).
doubt-jars-gone = those jars are gone
doubt-unrecorded = it is right, and { $amount } counts as unrecorded
doubt-far-more = { $amount } of { $name } at once; the most written down so far is { $most }. Is the amount right?
doubt-dear = { $paid } for { $amount } { $name }: at the price last seen it would be { $expected }; is it right?
doubt-taken = { $field }: { $question } Taken: { $answer }
doubt-noted = { $field }: { $question }
doubt-on-line = line { SAY($n, style: "plain") }: { $text }
doubt-adopted = { $piece ->
        [none] { $name } is taken as { $row } of the food table, kept by { $measure }; to change that: croftbook item "{ $name }" --food "another name" --measure mass
       *[other] { $name } is taken as { $row } of the food table, kept by { $measure }, one weighs { $piece }; to change that: croftbook item "{ $name }" --food "another name" --measure mass
    }
doubt-still-to-come = recorded_at: { $at } is still to come and is kept: the clock that wrote it was ahead, or this machine's is behind
doubt-no-head-beside = no head stands beside the file, so nobody can tell whether its end is whole
doubt-taken-as-jars = { $amount } { $name } are taken as { $jars }
doubt-kept-as-said = { $amount } { $name } is kept as said: what one { $unit } of it weighs is not known; say it, in grams, with: { $command }
doubt-measures-unset = Amounts stay in pounds, ounces and quarts until you say otherwise; for kilograms and litres: { $command }
