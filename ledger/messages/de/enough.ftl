enough-what-next-season-plan-would = Was der Plan der nächsten Saison wohl brächte, wie geerntet, vor dem Einmachen: eine mittlere Saison, kein Versprechen.
enough-where-food-figure-not-known = Wo der Wert eines Lebensmittels nicht bekannt ist, zählt er nichts: Es ist mindestens so viel.
enough-enriched-count-not-enriched-counts = Ist es angereichert? { LIST($names, type: "commas") } zählen als nicht angereichert. `croftbook setting flour_enriched yes` zählt zugesetztes Folat und Eisen mit.
enough-salt-iodised-iodine-not-reckoned = Ist das Salz jodiert? Mit Jod wird hier nicht gerechnet; `croftbook setting salt_iodised yes` bewahrt die Antwort.
enough-needs-recommended-allowances-else-adequate = Der Bedarf ist die empfohlene, sonst die angemessene Zufuhr (Dietary Reference Intakes); die Nährstoffe sind die von USDA SR28. Es sagt, was das Essen enthält, nie, wie es jemandem geht.
enough-sodium-set-against-level-above = Natrium steht gegen die Menge, über der das Risiko steigt (2019, aus dem Gedächtnis); Salz in der Dose zählt nicht.
enough-food-counts-kept-cooking-takes = Essen zählt, wie es aufbewahrt ist. Kochen nimmt davon: Gekochtes Blattgemüse behält 55 bis 70 Prozent seines Vitamin C; Eingemachtes trägt, was hineinging, Gemüse ohne das, was das Kochen nimmt.
enough-no-weight-known-counts-nothing = Von { LIST($names, type: "commas") } ist kein Gewicht bekannt; es zählt nichts: `croftbook item` nimmt auf, was eines wiegt.
enough-energy-days = Energie: { $n ->
        [one] 1 Tag
       *[other] { $n } Tage
    }.
enough-days-asked = gefragte Tage
enough-need-these-days = Bedarf dieser Tage
enough-gap = Lücke
enough-ground = Fläche { $bed }
enough-level-household = Grenze des Haushalts
enough-days-energy-lasts = Tage, für die die Energie reicht
enough-weight-all = Gewicht von allem
enough-part-known = bekannter Anteil
enough-days = Tage mit { $nutrient }
enough-part-need = Anteil am Bedarf an { $nutrient }
enough-part-grown-here = eigener Anteil
enough-grown-here = hier gewachsen
enough-what-food-holds = was das Essen enthält
enough-weight-known = bekanntes Gewicht
enough-nothing = Kein Essen, mit dem zu rechnen wäre: { $of ->
    [pantry] Nichts ist im Haus, was zählen darf
    [eaten] In diesen Tagen sind keine Mahlzeiten eingetragen
   *[next-season] Für die nächste Saison ist nichts geplant
}.
enough-not-known-what-is-in = Was in { LIST($names, case: "dative") } steckt, ist nicht bekannt: `croftbook item NAME --food ID` verknüpft eine Zeile der Nährwerttabelle.
enough-short-first = Zuerst knapp: { $nutrient }, { $n ->
        [one] 1 Tag
       *[other] { $n } Tage
    } mit { $of ->
    [pantry] dem, was im Haus ist
   *[next-season] dem, was der Plan der nächsten Saison brächte
}.
enough-from-shop = { $amount } { $name } für { $price }
enough-from-bed = { $ground } { $crop }
enough-to-close = Damit { $nutrient } { $n ->
        [one] 1 Tag
       *[other] { $n } Tage
    } reicht: { LIST($ways, type: "or") }.
enough-eaten-no-need = Vom { DAY($day) } bis { DAY($day2) } ist neben das Gegessene kein Bedarf zu stellen.
enough-eaten-least = Vom { DAY($day) } bis { DAY($day2) } hatte das Gegessene am wenigsten { $nutrient }: { $n } % des Bedarfs{ $energy ->
    [none] .
   *[other] ; Energie { $energy } %.
}
enough-half-unknown = Von { $n } % dieses Essens nach Gewicht ist nichts als die Energie bekannt: Es gibt keine Schlagzeile. Was nicht bekannt ist, steht unten.
enough-not-counted = Nicht gezählt, weil { $why ->
    [marked] es ein Zeichen trägt
   *[past-its-date] die Frist vorbei ist
}: { LIST($names, type: "commas") }.
enough-why-shop = aus dem Laden
enough-why-one-whole = in einer ganzen Einheit { $name } (Nährwerttabelle)
enough-why-so-much = so viel { $name }
enough-why-price-of-one = Preis einer ganzen Einheit { $name }
enough-why-name-from-shop = { $name } aus dem Laden
enough-why-bed = aus einem Beet
enough-why-yields = { $name } nach veröffentlichten Erträgen ({ $note })
enough-why-one-gram = in einem Gramm { $name } (Nährwerttabelle)
enough-why-square-metre = auf einem Quadratmeter
enough-why-level = { $name } (Grenze, { $by })
enough-part-from = { $name } { $n } %
enough-eaten = gegessen
enough-likely-picked = wohl geerntet
enough-too-little-known = darüber ist zu wenig bekannt
enough-no-days = wird dafür nicht berechnet
enough-no-gap = keine Lücke
