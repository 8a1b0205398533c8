year-not-known = { $name }: davon nicht bekannt: { LIST($list, type: "commas") }
year-never-picked-nobody-knows-when = { $name }: nie geerntet, so weiß niemand wann
year-week = { $name }, Woche ab { DAY($day) }
year-need-year = Bedarf des Jahres
year-what-plan-brings = was der Plan bringt
year-what-holds-plan-what-more = Was den Plan begrenzt, ist das, wovon mehr ihn besser oder billiger machte. Ein Bedarf des Jahres ist der seiner 52 Wochen; was in einer Woche über den Bedarf geht, gleicht keine andere aus, so dass ein Bedarf über das Jahr ganz gebracht und doch nicht in jeder Woche gedeckt sein kann.
year-part = Anteil
year-weeks-plan = Wochen des Plans
year-days-week = Tage einer Woche
year-programme = der Plan des Jahres, sein Geld
year-given = { $name }: { $what }
year-planted = gepflanzt
year-there = vorhanden
year-one = in einem
year-there-once = zugleich da
year-put-up = eingemacht
year-how-much-each-food-this = wie viel dieser Haushalt von jedem Lebensmittel isst
year-what-holds-plan-shows-each = Was den Plan begrenzt: { $list }. `--limits` zeigt jedes und öffnet sein Warum.
year-left-out = Weggelassen: { $list }.
year-no-bed-has-ground-bed = Kein Beet hat Fläche: `croftbook plant` mit --bed und --area oder `croftbook show next-season --beds "south bed=40 sq ft"` sagt sie.
year-kept-out-every-bed-family = Aus jedem Beet gehalten, weil die Familie letzte Saison in jedem stand: { LIST($names, type: "commas") }; `--same-beds` lässt sie wieder dort stehen.
year-no-hours-known-picking-they = Vom Ernten von { LIST($names, type: "commas") } sind keine Stunden bekannt; es zählt keine.
year-nothing-plan-who-eats-crops = Nichts, womit zu planen wäre: wer isst, Kulturen, Rezepte und Preise bringen es.
year-no-food-beyond-one-half = Kein Lebensmittel über das Anderthalbfache dessen, was ein Jahr davon braucht, Gekauftes in jeder Woche gleich viel, von Eingemachtem in einer Woche höchstens das Doppelte seines gleichen Teils, und von einer Kultur als solcher höchstens 200 g je Person und Tag: unsere eigene Wahl, damit der Plan einer ist, den man isst.
year-only-printed-processes-planned-looked = Geplant werden nur gedruckte Vorschriften, nachgeschlagen für Glas, Höhe und Manometer von heute; eine Zeile ist eine Erinnerung und nicht das Ganze: Lest zuerst das aktuelle Dokument und die Anleitung des Topfs (`croftbook show as-published`).
year-one-bed-alone-has-ground = Nur ein Beet hat Fläche: Den Fruchtwechsel darin müsst ihr selbst bedenken.
year-hours = Stunden
year-part-need = Teil des Bedarfs
year-picked = geerntet
year-from-pantry = aus dem Vorrat
year-bought = gekauft
year-spent = ausgegeben
year-growing-picking = { $crop } anbauen und ernten
year-energy-week = Energie der Woche
year-need-week = Bedarf der Woche
year-kilogram-own-seasons = ein Kilogramm, nach eigenen Saisons
year-square-metre-chance-chosen = ein Quadratmeter, zur gewählten Aussicht
year-all-weeks = alle ihre Wochen
year-weeks = Wochen
year-one-own-batches = für eines, nach eigenen Ansätzen
year-one-guess-without-source = für eines, eine Schätzung ohne Quelle
year-likely-picked = wohl geerntet
year-week-plan-choice = Woche ab { DAY($day) }, Wahl des Plans
year-week-2 = in der Woche
year-newest-price-kilogram = neuester Preis, ein Kilogramm
year-pay = zu bezahlen
year-fresh-one = frisch für eines
year-fresh = frisch
year-one-labour-left-out = für eines, ohne Arbeit
year-cost = Kosten
year-grams-kilogram = Gramm in einem Kilogramm
year-no-record-of-hours = Keine eigenen Stunden für { LIST($names, type: "commas") }: 1,0 bis 2,5 Personenstunden je Füllung sind eine Schätzung ohne Quelle.
year-no-batch-as-published = kein eigener Ansatz steht wie veröffentlicht da
year-weight-or-hours-unknown = Gewicht, Stunden oder Inhalt sind nicht bekannt
year-freeze-keeps = einfrieren, hält { $life }
year-for-so-many = Für { $n } am Tisch und { $hours } Stunden in der Woche, mit der Ernte der Beete zu { $chance ->
    [even] gleicher Aussicht
   *[likely] einer Aussicht von neun in zehn
}: { $price } für das Jahr ab { DAY($day) }.
year-sodium-over = Natrium liegt { $n } % über seiner Grenze; Salz in der Dose ist nicht dabei.
year-not-met = Nicht gedeckt: { $n } % { $nutrient } des Jahres ({ $amount } { $unit ->
    [ug] µg
    [g] g
    [kcal] kcal
   *[mg] mg
}), in { $weeks } von 52 Wochen.
year-rounding = Ganze Gläser und ganze Topffüllungen kosten { $n } % dessen, was Bedarf und Geld zusammen wiegen.
year-hours-of-weeks = die Stunden von { $n ->
    [one] { $n } Woche
   *[other] { $n } Wochen
}
year-begins = Das Jahr beginnt mit der ersten Ernte, { DAY($day) }: Was heute im Regal steht, gilt bis dahin als gegessen, soweit es reicht. Der Bedarf ist der jeder Woche; gegessen wird, was da ist: Frisches, solange es hält, Eingemachtes, bis seine Zeit um ist, der Vorrat bis zu seinen Daten. Was drinnen vorgezogen wird, sagt `croftbook show when-to-sow`.
year-beds-bring = Die Beete bringen, was sie mit { $chance ->
    [even] gleicher Aussicht
   *[likely] einer Aussicht von neun in zehn
} bringen, nach eigenen Saisons und veröffentlichten Erträgen, in den Wochen der eigenen Saisons; eine Kultur belegt ihre Fläche die ganze Saison. Obst, Beeren und Eier kommen, wie sie im letzten Jahr kamen.
year-rotation = Eine Pflanzenfamilie bleibt aus dem Beet, in dem sie letzte Saison stand (übliche Praxis, ohne Quelle): { $list }. `--same-beds` lässt sie dort stehen.
year-shop-prices = Die Ladenpreise sind die neuesten bekannten; Gläser, die jetzt voll sind, zählen bis dahin als leer, Deckel als gekauft; der Herd ist { $n } Stunden in der Woche für den Einkochtopf frei. Saatgut und die Gläser der Wege, die nur gedruckt vorliegen, kosten hier nichts.
year-ground-of = Fläche { $bed }
year-stove-hours = Herdstunden
year-freezer-room = Raum im Gefrierschrank
year-lids = Deckel
year-so-much-of = { $n } { $unit ->
    [jars] Gläser
   *[kg] kg
} { $name }
year-lacks = { $nutrient } { $n } %{ $by ->
    [over] { "" } über der Grenze
   *[short] { "" }
}
year-ground-with = { $ground } { $crop }
year-part-picked = davon in dieser Woche geerntet
year-price-of-one = neuester Preis, eine ganze Einheit
year-price-of-gram = neuester Preis, ein Gramm
year-in-kilogram = in einem Kilogramm
year-one-unit = eines
year-no-weeks = in keiner Woche
year-not-weighed = nicht gewogen
year-nothing-paid = nichts wird bezahlt
year-done = { $name }, { $how }
year-used = gebraucht
year-nothing-there = davon ist nichts da
year-a-load = eine Füllung
year-pounds-a-kilogram = Pfund in einem Kilogramm
year-not-frozen = nicht eingefroren
year-do-eat-fresh = frisch
year-do-eat-put-up = haltbar gemacht
year-do-from-the-pantry = aus dem Vorrat
year-do-buy = gekauft
year-much = so viel
