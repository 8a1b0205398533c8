power-not-known = nicht bekannt
power-kept = behalten
power-all-kept = alles, was lag
power-part = sein Anteil
power-electricity-lot = Strom des Postens
power-cost = Kosten
power-days = in { $n ->
        [one] 1 Tag
       *[other] { $n } Tagen
    }
power-year = auf ein Jahr
power-year-2 = in einem Jahr
power-freezer-took-kwh-year-kept = Der Gefrierschrank brauchte { $n } kWh im Jahr ({ $how }); im Mittel lagen { $amount } darin.
power-what-freezer-takes-not-known = Was der Gefrierschrank braucht, ist nicht bekannt: Lest ab und zu seinen Zähler (`croftbook meter freezer --reads "412,6 kWh"`), oder `croftbook setting freezer_room "15 cu ft"`.
power-nothing-freezer-last-year = Im letzten Jahr war nichts im Gefrierschrank.
power-empty-freezer-takes-nearly-much = Ein leerer Gefrierschrank braucht fast so viel wie ein voller: Der Strom eines Jahres wird nach Pfund und Monaten geteilt.
power-price-electricity = Strompreis
power-year-3 = ein Jahr
power-days-2 = Tage
power-heat = Wärme
power-good-jars = gute Gläser
power-all-jars = alle Gläser
power-canner-loads = Topffüllungen
power-no-batch-went-through-canner = Noch ging kein Ansatz durch einen Topf.
power-measured-kwh-good-jar-over = Gemessen: { $n } kWh je gutes Glas über { $n2 ->
        [one] 1 Glas
       *[other] { $n2 } Gläser
    }.
power-full-loads-would-have-saved = Volle Füllungen hätten zusammen { $n } kWh gespart.
power-gas-counts-heat-gave-kwh = Gas zählt nach der Wärme, die es gab, in kWh.
power-water-not-metered-canner-own = Nicht gezähltes Wasser ist das des Topfs, wie erinnert; Waschen und Kühlen brauchen 20 bis 40 L je Füllung mehr (übliche Praxis, aus dem Gedächtnis).
power-water-canner = Wasser des Topfs
power-where-nothing-measured-estimate-from = Wo nichts gemessen wurde: eine Schätzung aus der Herdwärme für eine Füllung von sieben Quarts, ihre Annahmen aus dem Gedächtnis. `croftbook meter stove --reads ... --before ... --batch ID` misst es.
power-jars-full-loads = Gläser voller Füllungen
power-good-jar = ein gutes Glas
power-load-from-memory = eine Füllung (aus dem Gedächtnis)
power-as-bought = { $size }, wie um 2007 gekauft ({ $source })
power-year-by = Der Strom des Jahres ist { $how ->
    [unknown] nicht bekannt
    [meter] vom Zähler
   *[size] nach seiner Größe geschätzt: { $size }
}.
power-no-price = kein Preis ist eingestellt
power-stove-heat = Schätzung aus der Herdwärme, nicht gemessen
power-water-meter = Wasser nach dem Zähler
power-jar-of-full-loads = ein Glas aus vollen Füllungen
power-full-load-saves = eine volle Füllung spart
power-a-jar = ein Glas
power-loads-full = die Füllungen waren voll
power-water-good-jar = Wasser je gutes Glas
power-load-estimate = Wärme einer Füllung, aus der Herdwärme geschätzt, nicht gemessen
power-unsealed = nicht verschlossen
power-no-good-jar = kein Glas davon ist gut
power-jars-per-load = Gläser einer vollen Füllung
power-no-capacity = wie viele Gläser eine Füllung fasst, ist nicht bekannt
power-water-not-read = das Wasser wurde nicht abgelesen
power-stays = Tage im Gefrierschrank im letzten Jahr
power-per-pound = Gramm in einem Pfund
power-per-month = Tage eines Monats
power-pounds = Pfund
power-months = Monate
power-stayed = eine Zeit im Gefrierschrank
