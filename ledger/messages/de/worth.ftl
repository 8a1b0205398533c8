# Worauf beruht, ob es sich lohnt, und was dafür fehlt.
worth-counts-once = Alles zählt einmal: Was in Gläser oder Gerichte ging, zählt dort, und was verkauft, weggegeben oder verloren wurde oder zu lange lag, ist in seinem Bereich abgezogen. `croftbook show season` zählt alles Geerntete.
worth-unpriced = Von { $name } ist kein Ladenpreis bekannt; was davon da war, zählt mit dem Wert 0.
worth-no-value = { $name } kam ohne Wert ins Haus; es zählt mit dem Ladenpreis seines Tages.
worth-kept-too-long = Was geerntet wurde und noch im Buch steht, wenn seine Haltbarkeit vorbei ist, gilt als nie gegessen: Es zählt das Spätere aus dem Wort des Haushalts und der veröffentlichten Lagerdauer (USDA Handbook 66, Lagertabellen), ab der letzten Zählung, die etwas fand.
worth-fed-for-feed = Was an Tiere verfüttert wurde, zählt als das Futter, das es ersparte: seine Energie, zum bis dahin gezahlten Preis der Energie im Futter ({ $n } kcal je Kilogramm Futter, wo der Haushalt nichts sagt).
worth-nothing = In der Saison { SAY($n, style: "plain") } ist nichts eingetragen, was hier zählt.
worth-no-hours = Es sind keine Stunden eingetragen, daher gibt es keinen Überschuss je Stunde: Tragt die Arbeit beim Ernten, Pflanzen und Einmachen mit ein.
worth-nothing-made = Es wurde nichts geerntet und nichts eingemacht.
worth-nothing-made-in = In der Saison { SAY($n, style: "plain") } wurde nichts geerntet und nichts eingemacht.
worth-no-shop-price = Kein Ladenpreis von { LIST($names, type: "commas") }: Tragt einen ein mit `croftbook price`, oder nennt mit `croftbook item`, wofür es steht.
worth-no-durables = Es sind keine Gläser, Geräte oder haltbaren Gartensachen gekauft.
worth-shared-by-wear = Was Ansätze und Ernten einbrachten, wird nach Abnutzung auf das Haltbare verteilt, das ihnen diente; eigene Zeit ist nicht abgezogen.
worth-no-interest = Es ist kein Zinssatz eingestellt; was hält, kostet im Jahr daher seinen Preis geteilt durch die Lebensdauer: `croftbook setting interest_rate 4` stellt einen ein.
worth-interest = Was hält, kostet im Jahr seinen Preis und { $n } Prozent Zinsen, gleichmäßig über die Lebensdauer verteilt, ohne Restwert.
worth-served-equipment = Nirgends steht, wozu { $item } diente: Nennt es als Gerät, wenn ihr einmacht ({ $typed }).
worth-served-jar = Nirgends steht, wozu { $item } diente: Macht etwas darin ein.
worth-served-crop = Nirgends steht, wozu { $item } diente: Seine Kultur ist noch nicht geerntet.
worth-paid-off = abbezahlt
worth-life-assumed = Nirgends steht, wie lange { $name } hält; es zählt als { $n ->
        [one] 1 Jahr
       *[other] { $n } Jahre
    }.
worth-first-year = Was vor weniger als einem Jahr gekauft wurde, gilt als verdiene es im Jahr, was es bisher verdient hat.
worth-span = { $state ->
        [running] { DAY($day) } bis { DAY($day2) }, läuft noch
       *[over] { DAY($day) } bis { DAY($day2) }
    }
