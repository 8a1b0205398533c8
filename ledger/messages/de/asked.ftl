# Was zu einem gesagten Text und zu einem Buch gefragt wird: Fragen und ihre wahrscheinlichen Antworten.
asked-used-of-which = Was kam in welches von { $names }?
asked-side = Ging { $name } hinein, oder kam es heraus?
asked-went-in = es ging hinein
asked-came-out = es kam heraus
asked-power-cut = War der Gefrierschrank aus? Was mit dem Inhalt zu tun ist: croftbook show as-published --freezer-off "30 h".
asked-method = Wie wurde { $name } eingemacht: { LIST($ways, type: "or") }?
asked-used = Was kam in { $name }?
asked-used-then = Was kam in { $name } vom { DAY($day) }?
asked-which-meant = Was ist gemeint: { LIST($names, type: "or") }?
asked-full-jars = { $amount }: wie viele volle Gläser, und was blieb übrig?
asked-how-many-jars = Wie viele Gläser { $name } waren es, und wie groß?
# amount: Pfunde hinter Gläsern, die am Manometer stehen oder hineinkamen.
asked-pressure-or-weight = Ist { $amount } der Druck am Manometer, oder wie viel { $name } hineinkam?
asked-as-pressure = { $amount } Druck
asked-as-weight = { $amount } { $name }
asked-unsealed = Wie viele Gläser wurden nicht dicht?
asked-unsealed-size = Welche Größe wurde nicht dicht: { LIST($names, type: "or") }?
asked-which-jars = Welche Gläser waren es?
asked-who-worked = { $n ->
        [one] Wer hat 1 Minute gearbeitet?
       *[other] Wer hat { $n } Minuten gearbeitet?
    }
asked-who-worked-then = { $n ->
        [one] Wer hat am { DAY($day) } 1 Minute gearbeitet?
       *[other] Wer hat am { DAY($day) } { $n } Minuten gearbeitet?
    }
asked-mends-which = Welchen Eintrag verbessert „{ $text }“?
asked-day-ahead = { DAY($day) } kommt erst noch; welcher Tag war es?
asked-day-vague = Welcher Tag war es?
asked-no-such-day = Diesen Tag gibt es nicht; welcher Tag war es?
asked-row-day = Zeile { $n }: Welcher Tag ist „{ $text }“?
asked-all-or-each = Ist { $n } für alles, oder für eines?
asked-for-all = { $price } für alles
asked-a-dozen = { $price } je Dutzend
asked-dozen-or-each = { $name } für je { $price }: jedes Dutzend oder jedes Stück?
asked-each = je { $price }
asked-what-amount = { $text }: was, und wie viel?
asked-came-how = { $text }: gekauft, geerntet oder bekommen?
asked-price-of-what = { $text }: was kostet wie viel davon?
asked-costs-how-much = Wie viel { $name } kostet { $n }?
asked-planted-amount = Wie viel { $name } wurde gepflanzt?
asked-crop = Welche Pflanze war es?
asked-who-practised = Wer hat { $skill } geübt?
asked-likely-kind = { $kind ->
        [harvested] { $text }: geerntet?
        [discarded] { $text }: weggeworfen?
        [eaten] { $text }: gegessen?
        [received] { $text }: ein Geschenk?
        [counted] { $text }: gezählt?
       *[bought] { $text }: gekauft?
    }
asked-slip = Ist „{ $text }“ dasselbe wie { $name }?
asked-new = Ist „{ $name }“ etwas Neues?
asked-of-what = { $text } wovon?
asked-lot-of = { $label } ist ein Glas { $names }; welches Glas war es?
asked-lot-unknown = Kein Glas im Buch trägt das Etikett { $label }; welches Glas war es?
asked-amount = Wie viel { $name }?
asked-amount-vague = Wie viel { $name } war es?
asked-amount-range = { LIST($names, type: "or") } von { $name }?
asked-which-meant-of = Was ist bei { $name } gemeint: { LIST($names, type: "or") }?
asked-out-of-jars = { $amount } { $name }: aus Gläsern, und aus welcher Größe?
asked-jar-size = Wie groß ist ein Glas { $name }?
asked-failed-jars = Welche Gläser { $name } wurden nicht dicht?
asked-share-of-dish = Welcher Teil des Gerichts ist das: { $name }?
asked-leftovers-of = Reste gehören zu einer Mahlzeit: Sagt sie dazu (... gegessen, Reste 1 l Suppe).
asked-fed-with = Womit wurde { $name } gefüttert?
asked-opening = Was vom ersten Vorrat ist selbst gemacht ({ LIST($names, type: "commas") })? Namen, alles oder nichts.
asked-other-spending = Ist „{ $text }“, { $n }, ein Lebensmittel oder für den Haushalt? Sagt, was (1 kg Reis), nein oder raus.
asked-weight = Was wiegt 1 { $unit } { $name }?
asked-cost = Was habt ihr für { $name } bezahlt?
asked-cost-then = Was habt ihr am { DAY($day) } für { $amount } { $name } bezahlt?
asked-parts-for = { $n } für { $names }: welcher Teil war für was?
asked-price-of-all = Ist { $n } der Preis für alles an { $name }, oder für eines?
asked-line-unpriced = Die Zeile „{ $text }“ hat keinen Preis: was hat es gekostet?
asked-how-many-in-it = „{ $text }“: wie viele waren es?
asked-which-of-these = „{ $text }“: was davon ist es?
asked-other-spending-kept = „{ $text }“ gilt als andere Ausgabe: ist es Lebensmittel oder Vorrat des Hauses?
asked-total = Die Zeilen ergeben { $lines }, der Kassenzettel sagt { $total }; fehlt eine Zeile oder ist eine falsch gelesen?
asked-repeat = { $text } am { DAY($day) } steht schon im Buch; ist dies noch eines?
asked-far-more = { $text } ist weit mehr als üblich; stimmt das?
asked-far-price = { $n } für { $text } liegt weit vom letzten Preis; stimmt das?
asked-another = noch eines
asked-leave-out = weglassen
asked-as-it-stands = so eintragen
asked-is-right = { $amount } stimmt
asked-pieces = { $n } Stück
asked-new-named = neu: { $name }
