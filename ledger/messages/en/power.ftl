power-not-known = not known
power-kept = kept
power-all-kept = all that was kept
power-part = its part
power-electricity-lot = electricity of the lot
power-cost = cost
power-days = in { $n ->
        [one] 1 day
       *[other] { $n } days
    }
power-year = to a year
power-year-2 = in a year
power-freezer-took-kwh-year-kept = The freezer took { $n } kWh in a year ({ $how }); { $amount } were kept on average.
power-what-freezer-takes-not-known = What the freezer takes is not known: read its meter now and then (`croftbook meter freezer --reads "412.6 kWh"`), or `croftbook setting freezer_room "15 cu ft"`.
power-nothing-freezer-last-year = Nothing was in the freezer in the last year.
power-empty-freezer-takes-nearly-much = An empty freezer takes nearly as much as a full one: a year's electricity is shared by pounds and months.
power-price-electricity = price of electricity
power-year-3 = a year
power-days-2 = days
power-heat = heat
power-good-jars = good jars
power-all-jars = all jars
power-canner-loads = canner loads
power-no-batch-went-through-canner = No batch went through a canner yet.
power-measured-kwh-good-jar-over = Measured: { $n } kWh a good jar over { $n2 ->
        [one] 1 jar
       *[other] { $n2 } jars
    }.
power-full-loads-would-have-saved = Full loads would have saved { $n } kWh in all.
power-gas-counts-heat-gave-kwh = Gas counts by the heat that it gave, in kWh.
power-water-not-metered-canner-own = Water not metered is the canner's own as recalled; washing and cooling take 20 to 40 L a load more (common practice, from memory).
power-water-canner = water of the canner
power-where-nothing-measured-estimate-from = Where nothing was measured: an estimate from stove heat of a load of seven quarts, its inputs from memory. `croftbook meter stove --reads ... --before ... --batch ID` measures it.
power-jars-full-loads = jars of full loads
power-good-jar = a good jar
power-load-from-memory = a load (from memory)
power-as-bought = { $size }, as bought about 2007 ({ $source })
power-year-by = The year's electricity is { $how ->
    [unknown] not known
    [meter] by its meter
   *[size] by its size, an estimate: { $size }
}.
power-no-price = no price is set
power-stove-heat = estimate from stove heat, not measured
power-water-meter = water by the meter
power-jar-of-full-loads = a jar of full loads
power-full-load-saves = a full load saves
power-a-jar = a jar
power-loads-full = the loads were full
power-water-good-jar = water a good jar
power-load-estimate = heat of a load, from stove heat, not measured
power-unsealed = did not seal
power-no-good-jar = no jar of it is good
power-jars-per-load = jars in a full load
power-no-capacity = how many jars a load holds is not known
power-water-not-read = the water was not metered
power-stays = days in the freezer in the last year
power-per-pound = grams in a pound
power-per-month = days in a month
power-pounds = pounds
power-months = months
power-stayed = a stay in the freezer
