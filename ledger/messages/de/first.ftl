first-published-plan-table-plan-not = Nach einer veröffentlichten Vorlage für { $n } am Tisch: eine Vorlage, nicht diese Familie. { $n2 } Lebensmittel haben ein eigenes Buch.
first-people = Personen
first-used = gegessen und weggegeben
first-eaten-given-away = dasselbe in Quart
first-days-since = Tage seit dem ersten davon, dieser Tag mitgezählt
first-first-day = sein Tag
first-no-own-record = kein eigenes Buch
first-months-of-a-year = Monate eines Jahres
first-a-month = ein Monat
first-canner-load = frische Ware in einer Topffüllung
first-quarts-of-load = Quart in der Topffüllung
first-no-load = keine Topffüllung davon ist veröffentlicht
first-row-gives = was die Reihe bringt
first-row-of = wie lang sie ist
first-no-row = kein Ertrag einer Reihe davon ist veröffentlicht
first-year = auf ein Jahr
first-own-record = eigenes Buch
first-plan-says-what-some-family = Die Vorlage: { $source }. Sie sagt, was irgendeine Familie ihrer Zeit aß.
first-own-record-counts-months-against = Das eigene Buch zählt mit seinen Monaten gegen { $n } der Vorlage: unsere eigene Wahl.
first-jar-maker-guide-says-otherwise = Der Ratgeber eines Gläserherstellers sagt anderes ({ $list }), mit vier Mahlzeiten aus Fleischkonserven in der Woche (aus zweiter Hand).
first-how-long-how-hot-how = Wie lange, wie heiß und wie viel Säure, steht hier nicht: Haltet euch an die veröffentlichte, geprüfte Vorschrift für Glas und Höhe (`croftbook show as-published`).
first-no-servings-said = keine Portionen genannt
first-person = eine Person, { $plan }
first-plan = nach der Vorlage
first-months-own-record = Monate eigenes Buch
first-fresh-produce = frische Ware
first-row = Reihe
first-year-2 = ein Jahr
first-days = Tage
first-months-plan-weighs-our-own = Monate, die die Vorlage wiegt (unsere Wahl)
first-together = zusammen
first-put-up = einzumachen
first-quart-published-canner-load = ein Quart, nach einer veröffentlichten Topffüllung
first-foot-row-published = ein Fuß Reihe, wie veröffentlicht
first-part-plan = Anteil der Vorlage
first-part-own-record = Anteil des eigenen Buchs
first-weight = sein Gewicht
first-a-person-of = { $n } { $jar ->
    [pint] Pints
   *[quart] Quarts
} je Person { $name }
first-jars-a-person = { $n } { $jar ->
    [pint] { $n ->
        [one] Pint
       *[other] Pints
    }
   *[quart] { $n ->
        [one] Quart
       *[other] Quarts
    }
} je Person
first-servings = { $n } { $every ->
    [none] in der Woche
   *[other] in { $every } Wochen
} x { $weeks } Wochen x { $size } { $spoon ->
    [tsp] TL
   *[cup] { $size ->
        [one] Tasse
       *[other] Tassen
    }
}
