# What published tables print, and what goes with it: cautions, steps, processes. $source: a document as it stands in a sentence, " (title; publisher, year)", with the space before it; nothing where it is left out.

# Figures and names
published-inches = { $x } in
published-band = { $n } to { $n2 } ft
published-band-above = above { $n } ft
published-quoted = "{ $name }"
published-source = ({ $text })
published-with-source = { $text } ({ $source })
published-any-of = { LIST($names, type: "or") }
published-all-of = { LIST($names) }
published-acid-or = { $one } or { $other }
published-acid-lemon = { $x } bottled lemon juice
published-acid-citric = { $x } citric acid
published-acid-vinegar = { $x } vinegar of 5%
published-acid-name = { $acid ->
        [lemon] lemon juice
        [citric] citric acid
       *[vinegar] vinegar 5%
    }
published-pack = { $pack ->
        [hot] hot
        [raw] raw
       *[unstated] unstated
    }
published-packs = { $packs ->
        [hot] hot
        [raw] raw
       *[both] hot and raw
    }
published-size = { $size ->
        [half-pint] half-pint
        [pint] pint
        [pint-and-half] 1.5-pint
        [half-gallon] half-gallon
       *[quart] quart
    }
published-sizes = { $size ->
        [half-pint] half-pints
        [pint] pints
        [pint-and-half] 1.5-pints
        [half-gallon] half-gallons
       *[quart] quarts
    }
published-sizes-before = { $size ->
        [half-pint] half-pints
        [pint] pints
        [pint-and-half] 1.5-pints
        [half-gallon] half-gallons
       *[quart] quarts
    }
published-sizes-counted = { $n ->
        [one] { $n } { $size ->
            [half-pint] half-pint
            [pint] pint
            [pint-and-half] 1.5-pint
            [half-gallon] half-gallon
           *[quart] quart
        }
       *[other] { $n } { $size ->
            [half-pint] half-pints
            [pint] pints
            [pint-and-half] 1.5-pints
            [half-gallon] half-gallons
           *[quart] quarts
        }
    }

# The usual cautions, in our own words
published-caution = This compares figures with published tables and vouches for no food. Never taste what may have spoiled. Follow the current bulletin and your canner's manual; ask an extension adviser.
published-caution-first = Home canning can cause botulism, burns and broken glass. Croftbook tests nothing: it only compares figures with published tables. Follow the current bulletin and your canner's manual, have dial gauges tested every year, and never taste what may have spoiled. Whole: docs/cautions.md.
published-botulism = Botulism
published-botulism-whole = Bacteria that live in soil make a deadly poison in moist food of little acid, without air, between 40 and 120 degrees F. It needs three or four days. It may have no smell, no taste and no look. Boiling water does not kill their spores: vegetables, meat, fish, stock, soup and mixtures of them are published for pressure only. Double sight, drooping eyelids, slurred speech or weakness after eating: call emergency services and say what was eaten.
published-never-taste = Never taste
published-never-taste-whole = Do not taste food to find out about it. A jar that leaks, bulges, hisses, spurts, foams, has lost its seal, smells wrong, is cloudy or mouldy, or was not processed as published: discard it where no person or animal can reach it. Closed as it is: in a strong, closed bag into the rubbish. Open or leaking: with its lid into a pot, an inch of water over it, covered, boil 30 minutes, then into the rubbish; scrub what it touched, and your hands (Missouri Extension, 2009, and Clemson Extension, after the USDA guide). Whoever ate of it: ask a doctor or a poison centre.
# $words: signs as they were said
published-signs = CAUTION: “{ LIST($words, type: "commas") }” may be a sign that what is in the jar has spoiled; a jar that shows none may have spoiled as well.
published-tested-process = A tested process, whole
published-tested-process-whole = Use a published process for the very product, pack, jar, gauge and altitude. Do not mix two options, do not take the time of a smaller jar, do not shorten, do not make up for pressure with minutes. Adding oil, flour, rice, noodles, meat or vegetables of little acid makes another product, for which nothing may be published.
published-acid = Acid
published-acid-whole = Tomatoes take bottled lemon juice, citric acid or vinegar of 5% in every jar, in a pressure canner too. In pickles keep to the recipe's vinegar and its strength.
published-altitude = Altitude
published-altitude-whole = Water boils cooler the higher you are. Set your own altitude, from a map or the survey office, and take the band that it falls in; near a border ask.
published-gauges = Gauges
published-gauges-whole = Have a dial gauge tested every year before the season, and after a knock; replace one that is off. A weighted gauge cannot be read between its weights. Change gaskets as the maker says.
published-steam = Steam and burns
published-steam-whole = Vent the canner before closing it. Stay with it. Let the pressure fall to zero by itself; never force the lid or cool it with water. Lift the lid away from your face. Keep children away.
published-glass = Glass under pressure
published-glass-whole = Use jars made for canning, without nicks or cracks; hot food into hot jars; no cold draught or cold counter afterwards. Jars for freezing need room at the top and straight sides.
published-lids = Lids
published-lids-whole = New lids each time. Test each seal after 12 to 24 hours, take the rings off, and look at it again before opening.
published-whom-to-ask = Whom to ask
published-whom-to-ask-whole = The current bulletin (USDA Complete Guide to Home Canning), the National Center for Home Food Preservation, your extension service, your canner's manual and, for what you give away or sell, your local codes go before anything shown here.

# Food of little acid. $foods: as typed; $n: hours
published-danger = CAUTION: { LIST($foods, type: "commas") }: food of little acid. Spores of botulism live through boiling water, a steamer, an open kettle and an oven, and grow in such a jar; it may have no smell and no look. Where a process is published for food of little acid it is for a pressure canner only.
published-danger-no-canner = CAUTION: { LIST($foods, type: "commas") }: food of little acid in a form that is published for no canner. Spores of botulism live through boiling water, a steamer, an open kettle and an oven, and grow in such a jar; it may have no smell and no look. A pressure canner is no way out: no process is published for this form.
published-danger-short = CAUTION: { LIST($foods, type: "commas") }: food of little acid, and no published pressure process. Do not taste it, discard it where no person or animal can reach it.
published-danger-pressure = NO PUBLISHED PROCESS: { LIST($foods, type: "commas") }: food of little acid, and in this form nothing is published for it in any canner, under pressure either. No minutes and no pressure of another form hold for it.
published-danger-pressure-other = NO PUBLISHED PROCESS: { LIST($foods, type: "commas") }: food of little acid, put up under pressure, but not as any published process has it. A process holds whole, with its own form, pack, jar and canner, or not at all.
published-danger-pressure-short = NO PUBLISHED PROCESS: { LIST($foods, type: "commas") }: food of little acid, put up under pressure as no published process has it. Do not taste it, discard it where no person or animal can reach it.
published-danger-acid = CAUTION: { LIST($foods, type: "commas") }: food of little acid, which is published for boiling water only as the tested recipe has it: with all its acid, and no more such food than printed. With less acid, in an oven or in an open kettle the spores of botulism live on and grow in such a jar; it may have no smell and no look.
published-danger-acid-short = CAUTION: { LIST($foods, type: "commas") }: food of little acid, and not written down as its tested recipe has it. Do not taste it, discard it where no person or animal can reach it.
published-danger-oil = CAUTION: { LIST($foods, type: "commas") }: moist food under oil or fat. Spores of botulism grow there without air, and vinegar beside it changes nothing; it may have no smell and no look. On the shelf or in the cellar nothing is published for it: do not taste it, discard it where no person or animal can reach it. In the refrigerator 4 days at the most, or freeze it{ $source }.
published-jars-done-so = Jars done so: within { $n } hours give them a whole published pressure process anew, or refrigerate (a few days) or freeze them{ $source }. Later: do not taste, discard where no person or animal can reach it{ $source2 }.
published-jars-done-so-cold = Jars done so: within { $n } hours refrigerate (a few days) or freeze them{ $source }. Later: do not taste, discard where no person or animal can reach it{ $source2 }.

# How a whole batch stands, in a sentence
published-stands-against = Food of little acid, and no published pressure process closed it.
published-stands-none = No published process covers this batch as it was written down.
published-stands-short = This batch fell short of the published process.
published-stands-not-recorded = Whether it was done as published cannot be said: something was not written down.
published-stands-to-check = Something was not matched, or is not confirmed here: look it up and compare.
published-stands-beyond = Every figure written down reaches the published one, and some go beyond it. That compares figures; it does not vouch for the food.
published-stands-as-published = Every figure written down reaches the published one. That compares figures; it does not vouch for the food.
published-means-against = Against every published process: food of little acid that no published pressure process closed. Do not taste it.
published-means-to-check = To check yourself: something was not matched, has no place in an entry, or is not confirmed here.
published-means-beyond = Beyond it: every figure reaches the printed one, and some go beyond it.
published-means-as-published = As published: every figure written down reaches the printed one.
published-so-many = { $n } { $standing }
published-batches = { $n ->
        [one] 1 batch: { $standings }.
       *[other] { $n } batches: { $standings }.
    }
published-one-whole = One of them whole: `croftbook show as-published --batch ID`.
published-reached = as published: { LIST($names, type: "commas") }
published-document = document: { $text }
published-same-as = as { $item }
published-what-to-do = what to do, and documents: { $command }
published-as-printed = as printed
published-written-down = written down
published-as-printed-line = as printed: { $line } ({ $source })
published-no-single-line = no single line
published-nothing-for-it = nothing is published for it
published-none-printed = No process is printed for this.
published-nothing-held = Nothing published is held for it.

# After a batch: what the documents say. $n, $n2: hours, or weeks
published-write-down-missing = Write down what is missing, or look it up, before the jars go on the shelf. Until then treat them as jars that fell short.
published-nothing-covers = Nothing published covers this batch, so nothing says how it stands. Ask an extension adviser, with the recipe and these figures, before anybody eats of it.
published-run-anew = Where the process itself was too short, too cool or the wrong one, it is to be run anew, whole and with new lids, within { $n } hours; only jars that had the right process and did not seal have { $n2 }.
published-cold-alone = Within { $n } hours refrigerate them (a few days), or freeze them.
published-else-cold = Else within the same time refrigerate them (a few days), or freeze them.
published-too-late = More than { $n } hours after the process, or where that is not known: do not taste it, not even a little. Discard it so that no person or animal eats it. Older advice was to boil it before eating; since 2013 the advice is to discard.
published-when-in-doubt = When in doubt ask an extension adviser, with this batch's figures.
published-unsealed-again = Within { $n } hours: open the jar, look for a nick in the rim, fill it again leaving the printed headspace, take a new lid and run the whole published process again.
published-unsealed-cold = Or put it into the refrigerator and eat it within { $n ->
        [one] { $n } week
       *[other] { $n } weeks
    } at the most (two of the sources say a few days).
published-unsealed-freeze = Or freeze it, with { $x } of room at the top ({ $x2 } by another source).
published-our-own-advice = our own advice
published-common-practice = common practice, no source

# Before a batch: the printed process, what it takes, the steps
published-band-in = { $band }{ $source }
published-process = { $parts } ({ $where })
published-process-not-confirmed = { $parts } ({ $where }; not confirmed, look it up)
published-by-that-recipe = by that recipe only: { $text }
published-packed = { $pack } pack, { $sizes }
published-minutes-boiling = { $n } minutes in boiling water
published-minutes-pressure = { $n } minutes at { $n2 } psi on a { $gauge ->
        [weighted] weighted
       *[dial] dial
    } gauge
published-headspace = headspace { $x }
published-acid-each-jar = acid in each jar: { $acids }
published-none-to-show = No process can be shown for what was said.
published-mix-no-two = Each of them is one whole process: take one, and mix no two.
published-to-have-ready = To have ready:
published-in-order = In this order:
published-in-order-first = In this order (for the first of them):
published-need-jars = { $jar }
published-need-lids = new lids
published-need-pounds = about { $n } lb ({ $n2 } lb for { $jars })
published-need-fresh = fresh: { $product }
published-need-note = { $note }, for { $n } to { $jars }
published-need-recipe = recipe: { $product }
published-need-loads = canner loads
published-need-loads-of = { $n }, at { $jars }
published-step-bulletin = Read the current bulletin and the maker's manual first.
published-step-jars = Look at jars and rims for nicks and cracks; wash the jars and keep them hot.
published-step-gauge = Have a dial gauge tested every year, before the season.
published-step-pack = { $pack ->
        [hot] Pack hot, leaving { $x } of room at the top.
        [raw] Pack raw, leaving { $x } of room at the top.
       *[unstated] Pack, leaving { $x } of room at the top.
    }
published-step-acid = Acid into each jar: { $acids }. Any one of them, the whole amount.
published-step-lids = Let bubbles out, wipe the rims, set the lids on.
published-step-seals = Leave the jars 12 to 24 hours, out of draughts, then test every seal.
published-step-label = Label with what it is, the day and the lot; store cool, dark and dry.
published-step-sterile = A process of under { $n } minutes takes sterile jars: boil them { $n2 } minutes, and 1 more for each further 1,000 ft.
published-step-recipe-acid = Keep to the recipe's vinegar or lemon juice, of the printed strength.
published-step-water = Water over the lids by an inch or more; count from the full boil.
published-step-boil = Boil { $n } minutes without a break. If it stops boiling, begin again.
published-step-stand = Heat off; let the jars stand a few minutes, then lift them out upright.
published-step-vent = Let steam flow for { $n } minutes before closing the vent.
published-step-count = Count { $n } minutes from when the gauge shows { $n2 } psi; if it falls below, bring it back and count again from the beginning.
published-step-cool = Heat off; let it cool by itself to zero. Never cool it with water.
published-step-open = Open the vent, wait, lift the lid away from your face, lift the jars out.
published-water-boils = For information: at { $n } ft water boils at about { $n2 } degrees F. No process is worked out from it.
published-figures-recalled = Figures marked as not confirmed were recalled, not read: look them up first.
published-altitude-set = Altitude { $altitude }, as set, where a batch says nothing.
published-gauge-set = Gauge { $gauge }, as set, where a pressure batch says nothing.

# Slips that are asked about as a batch is written
published-denser-than-fat = What went in holds { $n } kcal and { $x } kg came out: that is { $n2 } kcal for 100 g, more than pure fat ({ $n3 }). Are the amounts right?
published-psi-or-kpa = { $said } psi: gauges of canners run from 0 to { $n } psi. Was it a gauge in kPa ({ $said } kPa)? Is it psi?
published-psi-or-bar = { $said } psi: was it a gauge in bar ({ $said } bar)? Is it psi?
published-strength-unsaid = { $item }: its strength was not written down.
published-strength-home-made = { $item }: home-made or diluted: its strength is not known.
published-strength-essence = { $item }: an essence is diluted before use: how strong was it then?
published-strength-ask = Tested recipes count on 5 %; a strength goes into the name ("vinegar 5%"). Is it to stay unknown?
published-fridge-ask = Jars closed with { $tool }, for which no process is published: they are taken to stand in the fridge, not on the shelf. Do they?
published-yield-ask = { $n } lb gave { $jars }: published range { $n2 } to { $n3 } ({ $product }). Is the amount right?
published-loads-ask = { $n ->
        [one] { $jars } in { $n } load: by the jars that the canner takes it would be { $n2 }. How many loads did it take?
       *[other] { $jars } in { $n } loads: by the jars that the canner takes it would be { $n2 }. How many loads did it take?
    }
published-loads-source = the household's setting, else the loads printed with the quantities
published-honey-infant = Honey is never for a child under one year, not even cooked: it can bring infant botulism. If one that young has eaten it, ask a doctor (INSPQ Québec, Honey: never for babies under age 1).
