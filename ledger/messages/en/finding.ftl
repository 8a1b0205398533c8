# What setting a batch beside a published process finds. $source: a document as it stands in a sentence, with the space before it; nothing where it is left out. $item, $amount: as the household wrote them. $done, $printed: what was done, what is printed.
finding-in-field = { $field }: { $text }
finding-published = Published: { $printed }.
finding-published-in = Published: { $printed }{ $source }.
finding-done = Done: { $done }.
finding-published-for = Published for { $what }.
finding-range = { $n } to { $n2 }
finding-not-written = not written down
finding-is-figure-right = Is the figure right?
finding-figure-not-confirmed = The published figure here is not confirmed: look it up in its own document and compare.

# Fields of a finding
finding-field-product = product
finding-field-ingredients = ingredients
finding-field-form = form
finding-field-method = method
finding-field-equipment = equipment
finding-field-jar = jar
finding-field-pack = pack
finding-field-altitude = altitude
finding-field-gauge = gauge
finding-field-minutes = minutes
finding-field-psi = pressure
finding-field-headspace = headspace
finding-field-acid = acid
finding-field-load = load
finding-field-schedule = schedule
finding-field-note = note
finding-field-storage = storage
finding-field-temperature = temperature
finding-field-conditioning = conditioning
finding-field-time = time
finding-field-salt = salt
finding-field-sugar = sugar
finding-field-freezer = freezer
finding-field-process = process

# Minutes, pressure, headspace. $where: jar, pack, gauge and altitude
finding-of-pack = { $pack } pack
finding-of-gauge = { $gauge } gauge
finding-of-option = option { $n }
finding-minutes = Published: { $n } minutes ({ $where }).
finding-minutes-ask = How many minutes did it run, counted from the full boil or the full pressure?
finding-minutes-short = { $n ->
        [one] That is { $n } minute short.
       *[other] That is { $n } minutes short.
    }
finding-minutes-longer = Longer than printed: it costs quality, and makes up for nothing else.
finding-psi = Published: { $n } psi ({ $where }).
finding-psi-ask = What did the gauge show at the lowest?
finding-psi-said = { $said } ({ $n } psi)
finding-psi-short = That is { $n } psi short; more minutes do not make up for it.
finding-was-it-bar = Were they bar? Write the unit: 0.8 bar.
finding-was-it-kpa = Was it a gauge in kPa? Write the unit: 76 kPa.
finding-gauges-run-to = Gauges of canners run from 0 to { $n } psi{ $source }.
finding-which-weight = A weighted gauge shows 5, 10 or 15 psi: which was it?
finding-psi-far-above = That is more than { $n } psi above the printed figure: is it right?
finding-headspace = Published headspace: { $x }.
finding-headspace-ask = How much was left?
finding-headspace-short = Food may boil out and keep the lid from sealing.
finding-headspace-over = More air than tested stays in the jar.
finding-small-beans = For small beans { $x } is printed: how large were they?
finding-minutes-of-jar = { $n } minutes is the published time for the smaller jar ({ $sizes }).
finding-minutes-of-pack = { $n } minutes is the published time for { $pack } pack.
finding-minutes-of-altitude = { $n } minutes is printed for a lower altitude ({ $band }).
finding-not-above-1000-ft = { $n } minutes at { $n2 } psi is printed for 0 to 1,000 ft only: not recommended above 1,000 ft.
finding-psi-of-altitude = { $n } psi is printed for a lower altitude ({ $band }).
finding-psi-of-gauge = { $n } psi is printed for the { $gauge } gauge.
finding-short-of-all = Published: { $printed }, depending on { $list }. Done: { $done }, short of every one of them.
finding-reaches-all = Published: { $printed }, depending on { $list }. Done: { $done }, which reaches them all.
finding-depends = Published: { $printed }. Done: { $done }. It depends on what was not written down or not settled: { $list }.
finding-reaches-each = The batch reaches each of them.
finding-open-product = which product it was
finding-open-pack = hot or raw pack
finding-open-gauge = which gauge
finding-open-jar = which jar
finding-open-altitude = the altitude
finding-open-process = the process
finding-no-figure = { $said } cannot be read as a figure.

# Acid in the jar
finding-acid-each-jar = Published: in each jar { $acids }, any one of them.
finding-acid-ask = No acid was written down: was any added?
finding-acid-none = None was added, by what was written down.
finding-acid-done = { $per ->
        [batch] { $amount } { $acid } per batch
       *[jar] { $amount } { $acid } per jar
    }
finding-acid-short = None of the acids reaches its own published amount; parts of two do not add up to one.
finding-acid-in-spoons = Give the amount in spoons for each jar: that is how it is printed.
finding-acid-bottled-ask = Was the juice bottled, the vinegar of 5 %, and is it printed for a jar of that size?

# Product, ingredients, form
finding-published-as = Published as: { $product }.
finding-several = Several published products bear that name: { $products }. Say which.
finding-compared-with = Compared with: { $product }.
finding-none-for = The tables held here print no process for { $product }.
finding-none-with = The tables held here print no process for { $product } with { $method }.
finding-only-as = Published only as { $products }, by that recipe: no figure of it holds for { $food } itself.
finding-not-at-home = Not to be canned at home: { $foods } as { $form } have no process in any canner.
finding-freeze-or-fridge = Freeze it, or keep it in the refrigerator{ $source }.
finding-schedule-unknown = The schedule { $schedule } is not among the tables held here: compare with the document it comes from.
finding-schedule-not-held = The schedule { $schedule } is not among the tables held here: compare with its document.
finding-schedule-set-aside = The schedule { $schedule } does not fit what went in: it is set aside.
finding-nearest-named = Nearest, for comparison only: { $products }.
finding-nearest = For comparison only: { $products }.
finding-nearest-one = { $product } ({ $methods })
finding-none-for-recipe = No process is published for this recipe with { $method }, whatever its name.
finding-words-not-known = { $names }: in no table here. Does it change what was made?
finding-name-says = { $item } says { $names }, and the published product ({ $product }) holds none.
finding-other-method = Published for { $methods } only: no { $method } process is printed for { $product }.
finding-not-by-method = No { $method } process is printed for it: published for { $methods } only.
finding-not-hot-enough = It is low in acid, and boiling water does not get hot enough for it.
finding-ingredients-ask = What went in was not written down: the ingredients decide what it is.
finding-is-water = { $item } ({ $amount }) is water: did it go into the jars?
finding-not-certain = { $item } ({ $amount }) is not read with certainty: is that its name?
finding-no-salt = { $item } ({ $amount }) is no salt: compare with the recipe.
finding-not-part = { $item } ({ $amount }) is not part of the published product ({ $product }).
finding-not-named = { $item } ({ $amount }) is not named in the published product ({ $product }): look it up.
finding-may-it-be-added = { $item } ({ $amount }) is not named in the published product ({ $product }): may it be added?
finding-is-thickening = { $item } ({ $amount }) is thickening, and the published product ({ $product }) holds none.
finding-in-no-table = { $item } ({ $amount }) is in no table here: what is it, and may it go in?
finding-does-not-belong = { $item } ({ $amount }) does not belong into the published product ({ $product }).
finding-which-beans = { $item } ({ $amount }) may be snap beans or dry ones: which were they?
finding-is-low-acid = { $item } ({ $amount }) is food of little acid, and the published product ({ $product }) holds none.
finding-is-borderline = { $item } ({ $amount }) is on the border of little acid, and the published product ({ $product }) holds none.
finding-is-another-food = { $item } ({ $amount }) is another food, and the published product ({ $product }) holds none.
finding-thickens = { $item } ({ $amount }) thickens, and the published product ({ $product }) holds none.
finding-is-fat = { $item } ({ $amount }) is fat, and the published product ({ $product }) holds none.
finding-is-dairy = { $item } ({ $amount }) is dairy, and the published product ({ $product }) holds none.
finding-needs = The published product ({ $product }) holds { $names }; none was written down among what was used.
finding-nothing-of-it = Nothing that the published product ({ $product }) is made of was written down.
finding-none-of-its-parts = Of what { $product } is made, nothing was written down among what was used.
finding-form-not-published = { $form }: { $product } is not published in that form.
finding-form-compare = { $form }: compare with what is printed for { $product }.
finding-not-published-for = { $item }: { $product } is not published for { $name }{ $source }.
finding-not-strained-out = { $item } ({ $amount }) was not strained out: what is left in a stock makes it soup.
finding-berries-hot-only = Blueberries, currants, gooseberries and huckleberries are printed for hot pack only.
finding-pieces-ask = { $product }: in pieces, or mashed? It is published in pieces only.
finding-another-thing = { $item }: { $product } is another thing.
finding-soaked-ask = { $item }: printed soaked and boiled first. Were they?
finding-soaked = soaked and boiled
finding-part-of-soup = { $item }: in a soup each part needs a published process of its own, and none is held for it.
finding-one-cube-of-pork = { $item } ({ $amount }): printed is one small cube of pork a jar. Compare.
finding-made-of = Made of { $item } of { DAY($day, style: "iso") }, which stands: { $standing }.

# Amounts of a tested recipe. $what, $part, $basis: as the recipe prints them
finding-at-most = at most { $n } { $what } for { $n2 } { $basis }
finding-at-least = at least { $n } { $what } for { $n2 } { $basis }
finding-beside = { $n } { $what }, where { $n2 } is printed for this much
finding-no-most = { $item } ({ $amount }): of little acid, and the recipe here prints no most of it: compare.
finding-main-part-ask = The recipe is printed for { $part }: how much of it went in?
finding-part-of-process = Printed: { $part } belongs to the process; another one changes it{ $source }. Compare.
finding-how-much-ask = How much { LIST($names, type: "commas") } was it, by weight or in cups?
finding-more-than-tested = That is more than the tested recipe holds.
finding-less-than-tested = { $what ->
        [acid] That is less acid than the tested recipe has.
        [sugar] That is less sugar than the tested recipe has.
        [salt] That is less salt than the tested recipe has.
       *[other] That is less than the tested recipe has.
    }
finding-bound-not-confirmed = The printed figure is not confirmed here.
finding-none-written = None was written down among what was used.
finding-pectin-leaflet = Pectin for little sugar goes by its own leaflet: compare with that.
finding-vinegar-of-5 = vinegar of 5 %
finding-strength-done = Done: { $item }, { $n } %.
finding-strength-unsaid = Done: { $item }, its strength was not written down.
finding-strength-home-made = Done: { $item }, home-made or diluted: its strength is not known.
finding-strength-essence = Done: { $item }, an essence is diluted before use: how strong was it then?
finding-vinegar-not-tested = Home-made vinegar and vinegar below 5 % are not what the recipe was tested with.
finding-bottled = bottled
finding-juice-bottled-ask = { $item } ({ $amount }): was it bottled? Fresh juice varies in acid.
finding-no-water = no water in the liquid
finding-most-water = at most { $n } cups of water
finding-most-water-to-acid = at most { $n } cups of water to { $n2 } of { $acid }
finding-water-to-acid = { $n } cups of water to { $n2 } of { $acid }
finding-acid-to-water = { $n } cups of { $item } to { $n2 } of water
finding-cups-ask = How many cups of each went into the jars?
finding-thins-acid = That thins the acid.
finding-soak-counts-nothing = Water of a soak that was poured off counts for nothing: write it as soaking water.

# Equipment. $tool: as the household calls it, or one of ours
finding-untested-tool = { $tool }: no process is published for it with any food{ $source }.
finding-oven = an oven
finding-microwave = a microwave oven
finding-dishwasher = a dishwasher
finding-slow-cooker = a slow cooker
finding-open-kettle = an open kettle
finding-turned-over = turning jars over
finding-sun = the sun
finding-dry-canning = dry canning
finding-vacuum = vacuum sealing
finding-wax = wax
finding-in-steam = steam
finding-in-oil = oil
finding-canner = canner
finding-pressure-canner = pressure canner
finding-boiling-water-canner = boiling-water canner
finding-steam-canner = steam canner
finding-multi-cooker = No process is published for an electric multi-cooker, or for a pressure pot that holds fewer than four quart jars{ $source }.
finding-pressure-canner-holds = A pressure canner holds four quart jars at least{ $source }.
finding-pressure-canner-ask = How many does this one hold?
finding-no-pressure = { $tool } holds no pressure{ $source }.
finding-electric-canner = Electric canner: look up in its manual which published processes it was tested for.
finding-tool-not-known = { LIST($names, type: "commas") }: not known here. Was the jar heated in it?
finding-steam = Published for acid food at its boiling-water time, at most { $n } minutes{ $source }.
finding-steam-acid-only = A steam canner is published for acid food only{ $source }.
finding-steam-too-long = A steam canner is published for processes of at most { $n } minutes{ $source }. Done: { $done }.
finding-at-most-minutes = at most { $n } minutes
finding-note = The note says { $note }: do the figures hold all the same?
finding-pasteurization-ask = Low-temperature pasteurization: 30 minutes at 180 to 185 degrees F, measured the whole time. Was it?
finding-pasteurization-only = Low-temperature pasteurization is printed for quick dill and quick sweet pickles only.
finding-pasteurization-heat = 180 to 185 F

# Jar, pack, gauge, altitude, load
finding-which-jars = Which jars were they?
finding-jar-holds-ask = How much does a { $jar } hold?
finding-next-larger = A { $jar } takes the next larger printed size, { $size }{ $source }.
finding-jar-too-large = Published for { $sizes }, not for a { $jar }: nothing is printed for a jar larger than the largest.
finding-metric-jar = A maker prints 500 ml as a pint and 1 l as a quart{ $source }: to check yourself.
finding-no-style-of-pack = The table prints no style of pack.
finding-published-pack = Published for { $pack } pack.
finding-pack-ask = Was it packed hot or raw?
finding-other-pack = Published for { $pack } pack only, not for { $pack2 } pack.
finding-not-for-pack = It is not published for { $pack } pack.
finding-gauge-ask = Dial and weighted gauges have tables of their own. Which has the canner?
finding-gauge-table = { $gauge ->
        [weighted] The table for the weighted gauge is used.
       *[dial] The table for the dial gauge is used.
    }
finding-dial-or-weighted = dial or weighted
finding-no-gauge = Nothing is printed for a { $gauge } gauge.
finding-altitude-ask = The altitude of the kitchen is not set, and the process depends on it.
finding-at-what-altitude = At what altitude is the kitchen? The process depends on it.
finding-in-band = { $n } ft falls in the printed band { $band }.
finding-above-last-band = No process is printed for { $n } ft: the last printed band ends at { $n2 } ft.
finding-below-sea = No process is printed for { $n } ft, below sea level.
finding-ask-adviser = Ask an extension adviser.
finding-not-recommended = Printed as not recommended at { $n } ft.
finding-option-left-out = One printed option is not recommended here and is left out.
finding-last-foot = { $n } ft is the last foot of its band. Altitudes from maps vary: where yours may be higher, the next band begins at { $n2 } ft.
finding-between-bands = { $n } ft lies between the printed { $n2 } and { $n3 } ft: the next band up is taken.
finding-loads-of = The quantities are printed for loads of { $n }{ $source }.
finding-loads-ask = { $n ->
        [one] 1 jar
       *[other] { $n } jars
    }: in how many loads?
finding-loads-done = { $n2 ->
        [one] Done: { $n } jars, { $n2 } load: { $n3 } at least in one of them.
       *[other] Done: { $n } jars, { $n2 } loads: { $n3 } at least in one of them.
    }
finding-loads-manual = Compare with the canner's manual how many it takes.
finding-jars-a-load = { $jars } a load
finding-a-load = { $n } a load

# Food of little acid, and jars that no canning closed
finding-under-oil = { LIST($foods, type: "commas") }: moist food under oil. In the refrigerator 4 days at the most, or freeze it.
finding-pressure-only = { LIST($foods, type: "commas") }: food of little acid. Done: { $done }. Every process that is published for it is for a pressure canner.
finding-oil-warm = { LIST($foods, type: "commas") }: under oil or fat, and not kept cold. No process is published for it in oil on a shelf.
finding-acid-in-each = { LIST($foods, type: "commas") }: borderline in acid. Done: { $done }. Every process that is published for it wants acid in each jar (bottled lemon juice, citric acid or vinegar of 5 %), and none that counts was written down.
finding-none-so = { LIST($foods, type: "commas") }: food of too little acid. Done: { $done }. No process is published for it so.
finding-closed-jars = Closed jars in the { $place }, and no published canning process: { $method } closes a jar no better than an open kettle{ $source }.

# Freezing, drying, fermenting, pickling cold, jam
finding-freezing-room = { $x } (wide mouth) or { $x2 } (narrow), packed in liquid, { $sizes }
finding-freezing-room-ask = How much room was left? Food grows as it freezes, and glass breaks.
finding-glass-may-break = Done: { $x }: glass may break.
finding-mouth-ask = Was the mouth wide or narrow?
finding-freezer-load = { $n } to { $n2 } lb at a time for each cubic foot of freezer
finding-freezer-load-ask = How large is the freezer, and how much went in within 24 hours?
finding-drying-heat = { $n } to { $n2 } degrees F in a drier or oven
finding-drying-heat-ask = At what temperature did it dry?
finding-jerky-heat = { $kind ->
        [red-meat] { $n } degrees F inside, before drying (red meat)
       *[poultry] { $n } degrees F inside, before drying (poultry)
    }
finding-jerky-heat-ask = Was it heated first, and how hot did it get?
finding-conditioning = fruit: about { $n } days loosely packed and stirred daily before storing
finding-conditioning-ask = For how many days was it conditioned?
finding-no-fermenting = The tables hold no figures for fermenting { $item }. Ask an extension adviser for a tested recipe.
finding-weeks-at = { $n } to { $n2 } weeks at { $temperature } degrees F
finding-weeks-cooler = { $n } to { $n2 } at { $temperature }
finding-weeks-ask = How long did it stand, and how warm?
finding-kraut-salt = 3 tbsp canning salt for 5 lb of cabbage (3/4 cup for 25 lb)
finding-salt-by-weight = Done: { $n } percent by weight; { $n2 } to { $n3 } percent is commonly stated, not confirmed here: look it up.
finding-salt-ask = How much salt, in spoons or by weight, to how much cabbage by weight?
finding-salt-done = { $n } tbsp for { $n2 } lb
finding-salt-short = Too little salt lets it spoil.
finding-salt-substitute = salt substitute
finding-no-salt-for-it = Salt substitute and low-sodium salt are no salt for it.
finding-vinegar-of = vinegar of { $n } percent
finding-vinegar-ask = Which vinegar, and how much? Write its strength into its name: vinegar 5%.
finding-as-much-as-water = Published: { $printed }, and as much of it as water.
finding-cups-of-each-ask = How many cups of each?
finding-cold-pickle-kept = Done: kept in the { $place }. For pickles that stand there the tables print a process in boiling water; nothing is published for them without. Keep them in the refrigerator.
finding-refrigerator = refrigerator
finding-cold-pickle-compare = For pickles kept cold no recipe was tested here: compare, and keep them in the refrigerator.
finding-jam-weeks = { $n } weeks in the refrigerator, else the freezer
finding-jam-kept = Done: kept in the { $place }, where uncooked jam spoils.
finding-jam-not-shelf = Uncooked jam is not for the shelf.
