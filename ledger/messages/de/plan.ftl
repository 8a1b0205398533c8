# Der Plan der nächsten Saison: Zeilen, Summen, worauf er beruht und was fehlt.
plan-season = Für die Saison { SAY($n, style: "plain") }.
plan-ground = { $beds ->
        [one] Für die Saison { SAY($n, style: "plain") }: { $wanted } gewünscht, { $there } im Beet.
       *[other] Für die Saison { SAY($n, style: "plain") }: { $wanted } gewünscht, { $there } in { $beds } Beeten.
    }
plan-even-chance = „Pflanzen“ bringen mit gleicher Aussicht genug oder zu wenig; „9 von 10“: genug in neun von zehn Jahren.
plan-leave-out = Es wird mehr Fläche gebraucht, als da ist: { LIST($names, type: "commas") } weglassen.
plan-grow-less = Es wird mehr Fläche gebraucht, als da ist: weniger anbauen: { LIST($list, type: "commas") }.
plan-leave-out-and-grow-less = Es wird mehr Fläche gebraucht, als da ist: { LIST($names, type: "commas") } weglassen; weniger anbauen: { LIST($list, type: "commas") }.
plan-some-of = { $crop } ({ $many } von { $many2 })
plan-fails = { $name }: fällt hier etwa in einer von { $n } Saisons ganz aus. Dagegen hilft keine Zahl von Pflanzen: Macht in einer guten Saison für zwei ein, oder sät zweimal.
plan-where = { $crop }: { LIST($where, type: "commas") }.
plan-where-short = { $crop }: { LIST($where, type: "commas") }; es fehlen { $amount }.
plan-no-room = kein Platz
plan-in-bed = { $many } im Beet { $bed }
plan-not-sufficient = { $aim ->
        [value] Die Beete reichen nicht; so bringen sie am meisten an Ladenwert (anders gewogen: --for { LIST($others, type: "commas") }).
        [energy] Die Beete reichen nicht; so bringen sie am meisten an Energie (anders gewogen: --for { LIST($others, type: "commas") }).
       *[targets] Die Beete reichen nicht; so bringen sie am meisten an dem, was gewünscht ist (anders gewogen: --for { LIST($others, type: "commas") }).
    }
plan-stands-short = { $crop }: Was steht, bringt { $amount }; es fehlen { $amount2 }.
plan-season-short = { $crop }: Eine mittlere Saison bringt { $amount }; es fehlen { $amount2 }.
plan-kept-out = Nicht in { LIST($names, type: "commas") }, wo ihre Familie stand: { LIST($names2, type: "commas") }.
plan-for = für { $list }
plan-of-item = { $amount } { $item } ({ $how })
plan-last-year = letztes Jahr
plan-last-year-more = letztes Jahr und { $n } % mehr: schmeckte { $n2 } von 5
plan-last-year-less = letztes Jahr und { $n } % weniger: schmeckte { $n2 } von 5
plan-asked = gefragt
plan-target = Ziel
plan-as-asked = { $amount } (gefragt)
plan-as-targeted = { $amount } (Ziel)
plan-none-asked = nichts (gefragt)
plan-more = { $n } weitere
plan-fresh = { $amount } frisch
plan-fresh-more = { $amount } frisch ({ $n } % mehr: schmeckte { $n2 } von 5)
plan-fresh-less = { $amount } frisch ({ $n } % weniger: schmeckte { $n2 } von 5)
plan-of-it-in-all = { $amount } davon insgesamt
plan-nobody-ate = niemand hat davon gegessen, und es gibt kein Ziel
plan-yield-unknown = Ertrag nicht bekannt
plan-published = veröffentlicht: { $span } je { $unit } ({ $note })
plan-own-seasons = { $n ->
        [one] 1 eigene Saison: { $span } je { $unit }
       *[other] { $n } eigene Saisons: { $span } je { $unit }
    }
plan-span = { $low } bis { $high }
plan-unit = { $unit ->
        [row] Meter Reihe
        [area] Quadratmeter
        [season] Saison
       *[plant] Pflanze
    }
plan-standing-since = steht seit { DAY($day) }, daher wird kein neuer Platz gesucht
plan-beds-take = die Beete fassen { $many } von { $many2 }; es fehlen { $amount }
plan-short = es fehlen { $amount }
plan-earlier-yields = { $n } von { $n2 } früheren Erträgen waren mindestens so hoch, wie neun von zehn Saisons bringen sollten.
plan-held = { $n } von { $n2 }
plan-nothing-grows = Noch ist nichts gewünscht, was hier wächst: `croftbook harvest` und `croftbook plant` sagen, was wächst, `croftbook meal` und `croftbook target`, was gewünscht ist.
plan-no-beds = Von keinem Beet ist die Fläche bekannt: `croftbook plant` sagt sie, mit Beet und Fläche.
plan-ground-unknown = Die Fläche von { LIST($names, type: "commas") } ist nicht bekannt, daher kam dort nichts hin: Tragt sie beim Pflanzen mit ein.
plan-not-proven = Die Zeit reichte nicht, um einen besseren Plan auszuschließen.
plan-few-days = { $n ->
        [one] Nur 1 Tag Verbrauch ist eingetragen und steht für das ganze Jahr: Ein Ziel sagt es besser.
       *[other] Nur { $n } Tage Verbrauch sind eingetragen und stehen für das ganze Jahr: Ein Ziel sagt es besser.
    }
plan-never-made = Nirgends steht, wie { $item } gemacht wird: `croftbook recipe` oder ein erster Ansatz sagt, was es braucht.
plan-nobody-ate-it = Niemand hat { $name } gegessen, und es gibt kein Ziel: Eines setzt `croftbook target '{ $measures ->
        [metric] 25 kg
       *[other] 60 lb
    } { $name }' --per year`.
plan-brings-unknown = Was { $unit } von { $name } bringt, ist nicht bekannt: Eine beendete Saison mit Pflanzung und Ernte zeigt es.
plan-brings-unknown-but-published = Was { $unit } von { $name } bringt, ist nicht bekannt: Eine beendete Saison mit Pflanzung und Ernte zeigt es, oder eine Pflanzung mit Reihe und Fläche, für den veröffentlichten Ertrag.
plan-one = { $unit ->
        [row] ein Meter Reihe
        [area] ein Quadratmeter
        [plant] eine Pflanze
       *[season] eine Pflanzung
    }
plan-length-of-row = { $name }: Keine Pflanzung sagt, wie viel gepflanzt wurde; darum steht die Antwort als Länge der Reihe, nach dem veröffentlichten Ertrag.
plan-not-fitted = { $name }: Keine Pflanzung nennt Fläche und Menge zugleich; es bekam daher keinen Platz in den Beeten.
plan-no-price = Von { $name } ist kein Ladenpreis bekannt; es zählt hier nichts: `croftbook price`.
plan-no-energy = Von { $name } ist keine Energie bekannt; es zählt hier nichts: `croftbook item`.
plan-use-as-last-year = Wo kein Ziel gesetzt ist, gilt für das nächste Jahr, was in den letzten { $n } Tagen gegessen und weggegeben wurde.
plan-shelf-eaten-up = Was heute im Vorrat ist, gilt als aufgegessen, bevor die nächste Ernte eingemacht wird.
plan-by-recipe = Noch nie gemacht, nach dem Rezept gerechnet: { LIST($names, type: "commas") }.
plan-liked-counts = Wo kein Ziel gesetzt ist, zählt, was schmeckte, bis zu ein Fünftel mehr, und was nicht, bis zu ein Fünftel weniger; Weggeworfenes zählt nicht.
plan-published-yield = Nach veröffentlichten Erträgen: { LIST($list, type: "commas") }.
plan-crop-by = { $crop } ({ $note })
plan-seasons-weighed = Eigene Saisons und veröffentlichter Ertrag werden danach gewichtet, wie weit jedem zu trauen ist; bei wenigen Saisons zählt das Buch mehr. Neun von zehn lässt das schlechteste Zehntel weg, ausgefallene Saisons mitgezählt.
plan-whole-season = Eine Kultur braucht ihre Fläche die ganze Saison; danach kommt dort nichts.
plan-bed-as-planted = Ein Beet hat so viel Fläche, wie in einer Saison höchstens darin bepflanzt war.
plan-target-per-person = Das Ziel für { $name } gilt je Person, und nirgends steht, wie viele ihr seid: `croftbook setting people 4`. Bis dahin gilt der Verbrauch des letzten Jahres.
plan-published-process = Wie lange, wie heiß und wie viel Säure, steht hier nicht: Haltet euch an die veröffentlichte, geprüfte Vorschrift für Glas und Höhe (`croftbook show as-published`).
plan-weeks-as-before = Die Ernte kommt wie in den bisherigen Saisons, Tag für Tag in die nächste verschoben.
plan-batches-as-before = Ansätze, Gläser und Minuten sind die der eigenen Ansätze aus dem Jahr bis zum jeweils neuesten.
plan-full-jars-emptied = Heute volle Gläser gelten bis dahin als leer.
plan-nothing-keeps = Nichts Haltbares ist gewünscht von dem, was hier wächst: `croftbook target` oder ein Ansatz (`croftbook putup`) sagt, was.
plan-picked-when-unknown = Wann { $name } geerntet wird, ist noch nicht bekannt: Die Ernten zeigen es (`croftbook harvest`).
plan-no-hours = Keine Stunden sind eingetragen von { LIST($names, type: "commas") }: `croftbook putup` nimmt sie, bei Arbeit.
plan-hours = { $n ->
        [one] 1 Stunde im Ganzen; am meisten in der Woche vom { DAY($day) }: { $n2 }.
       *[other] { $n } Stunden im Ganzen; am meisten in der Woche vom { DAY($day) }: { $n2 }.
    }
plan-stores = { $what }: { $n } nötig, { $have }; { $gap }.
plan-kind = { $kind ->
        [half-pint-jar] Halbpint-Gläser
        [pint-jar] Pint-Gläser
        [quart-jar] Quart-Gläser
        [half-gallon-jar] ½-Gallonen-Gläser
        [lid] Deckel
       *[other] { $name }
    }
plan-empty-and-full = { $n } leer und { $n2 } jetzt voll
plan-in-hand = { $n } da
plan-enough = genug
plan-to-get = { $n } zu besorgen
plan-eaten-in-year-to = gegessen und weggegeben im Jahr bis { DAY($day) }
