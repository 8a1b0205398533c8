# What is asked about a text that was said, and about a book: questions and their likely answers.
asked-used-of-which = What went into which of { $names }?
asked-side = Did the { $name } go in, or come out?
asked-went-in = it went in
asked-came-out = it came out
asked-power-cut = Was the freezer off? What to do with what was in it: croftbook show as-published --freezer-off "30 h".
asked-method = How was the { $name } put up: { LIST($ways, type: "or") }?
asked-used = What went into the { $name }?
asked-used-then = What went into the { $name } of { DAY($day, style: "iso") }?
asked-which-meant = Which is meant: { LIST($names, type: "or") }?
asked-full-jars = { $amount }: how many full jars, and what was left over?
asked-how-many-jars = How many jars of { $name } were there, and of which size?
# amount: pounds said behind jars, which may be the gauge's or the food's.
asked-pressure-or-weight = Is { $amount } the pressure on the gauge, or how much { $name } went in?
asked-as-pressure = { $amount } of pressure
asked-as-weight = { $amount } { $name }
asked-unsealed = How many jars did not seal?
asked-unsealed-size = Which size did not seal: { LIST($names, type: "or") }?
asked-which-jars = Which jars were they?
asked-who-worked = { $n ->
        [one] Who worked for 1 minute?
       *[other] Who worked for { $n } minutes?
    }
asked-who-worked-then = { $n ->
        [one] Who worked for 1 minute on { DAY($day, style: "iso") }?
       *[other] Who worked for { $n } minutes on { DAY($day, style: "iso") }?
    }
asked-mends-which = Which entry does “{ $text }” mend?
asked-day-ahead = { DAY($day, style: "iso") } is still to come; which day was it?
asked-day-vague = Which day was it?
asked-no-such-day = There is no such day; which day was it?
asked-row-day = Row { $n }: which day is “{ $text }”?
asked-all-or-each = Is { $n } for all of it, or for one?
asked-for-all = { $price } for all of it
asked-a-dozen = { $price } a dozen
asked-dozen-or-each = { $name } at { $price } each: each dozen, or each single one?
asked-each = { $price } each
asked-what-amount = { $text }: what, and how much?
asked-came-how = { $text }: bought, picked, or given?
asked-price-of-what = { $text }: what does how much of it cost?
asked-costs-how-much = How much { $name } costs { $n }?
asked-planted-amount = How much { $name } was planted?
asked-crop = Which crop was it?
asked-who-practised = Who practised { $skill }?
asked-likely-kind = { $kind ->
        [harvested] { $text }: picked?
        [discarded] { $text }: thrown out?
        [eaten] { $text }: eaten?
        [received] { $text }: a gift?
        [counted] { $text }: counted?
       *[bought] { $text }: bought?
    }
asked-slip = Is “{ $text }” { $name }?
asked-new = Is “{ $name }” something new?
asked-of-what = { $text } of what?
asked-lot-of = { $label } is a jar of { $names }; which jar was it?
asked-lot-unknown = No jar in the book is labelled { $label }; which jar was it?
asked-amount = How much { $name }?
asked-amount-vague = How much { $name } was it?
asked-amount-range = { LIST($names, type: "or") } of { $name }?
asked-which-meant-of = Which is meant of { $name }: { LIST($names, type: "or") }?
asked-out-of-jars = { $amount } of { $name }: out of jars, and of which size?
asked-jar-size = How big is a jar of { $name }?
asked-failed-jars = Which jars of { $name } failed to seal?
asked-share-of-dish = Which part of the dish is the { $name }?
asked-leftovers-of = What is left over belongs to a meal: say the meal with it (ate ..., leftovers 1 qt soup).
asked-fed-with = What was the { $name } fed with?
asked-opening = What of the opening stock is home-made ({ LIST($names, type: "commas") })? Names, all, or none.
asked-other-spending = Is “{ $text }”, { $n }, food or a supply? Say what (1 lb rice), no, or out.
asked-weight = What does a { $unit } of { $name } weigh?
asked-cost = What did { $name } cost?
asked-cost-then = What did { $amount } { $name } cost, bought on { DAY($day, style: "iso") }?
asked-parts-for = { $n } for { $names }: which part was for which?
asked-price-of-all = Is { $n } the price of all the { $name }, or of one?
asked-line-unpriced = The line “{ $text }” has no price: what did it cost?
asked-how-many-in-it = “{ $text }”: how many were in it?
asked-which-of-these = “{ $text }”: which of these is it?
asked-other-spending-kept = “{ $text }” is kept as other spending: is it food or a supply of the house?
asked-total = The lines come to { $lines }, the receipt says { $total }; is a line missing or misread?
asked-repeat = { $text } on { DAY($day, style: "iso") } is in the book already; is this another?
asked-far-more = { $text } is far more than is usual; is it right?
asked-far-price = { $n } for { $text } is far from the last price; is it right?
asked-another = another
asked-leave-out = leave it out
asked-as-it-stands = write it as it stands
asked-is-right = { $amount } is right
asked-pieces = { $n ->
        [one] 1 piece
       *[other] { $n } pieces
    }
asked-new-named = new: { $name }
