reserve-wanted-days = gewünscht für 14 Tage
reserve-how-much-water-stored-not = Wie viel Wasser gelagert ist, steht nicht im Buch: `--water "120 L"`, oder zählt ein Ding namens water.
reserve-house-has-every-group-days = Das Haus hat jede Gruppe der 14 Tage.
reserve-reserve-lists-german-federal-ministry = Vorratslisten des Bundesministeriums für Ernährung für 14 Tage (in Nachdrucken gelesen) und des Bundesamts für Bevölkerungsschutz für 10 (aus zweiter Hand), je Person.
reserve-what-batch-made-counts-group = Was ein Ansatz ergab, zählt zu der Gruppe, aus der das meiste hineinging.
reserve-us-advice-gallon-person-day = Die Empfehlung der USA ist 1 Gallone je Person und Tag für zwei Wochen: { $n2 } L (aus zweiter Hand).
reserve-medicines-infants-animals-not-these = Arzneien, Säuglinge und Tiere stehen nicht auf diesen Listen.
reserve-add = dazu
reserve-wanted-days-2 = gewünscht für 10 Tage
reserve-not-written-down = nicht eingetragen
reserve-house = im Haus
reserve-person-days-second-hand = eine Person, 10 Tage (aus zweiter Hand)
reserve-person-days-published = eine Person, 14 Tage (veröffentlicht)
reserve-hours = { $n ->
        [one] 1 Stunde
       *[other] { $n } Stunden
    }
reserve-no-food-house-written-down = Kein Essen im Haus ist eingetragen.
reserve-without-water-days-drink-cook = Ohne Wasser: { $n ->
        [one] 1 Tag
       *[other] { $n } Tage
    } zum Trinken und Kochen, { $n2 ->
            [one] 1 Tag
           *[other] { $n2 } Tage
        } mit Waschen.
reserve-medicines-infants-animals-not-these-2 = Arzneien, Säuglinge und Tiere sind in diesen Tagen nicht enthalten.
reserve-days-energy-protein-whichever-less = Tage nach Energie oder Eiweiß, je nachdem, was kürzer reicht; `croftbook show enough` hat jeden Nährstoff.
reserve-without-shop-days-all-table = Ohne Laden: { $n ->
        [one] 1 Tag
       *[other] { $n } Tage
    } für alle am Tisch.
reserve-stock-last-counted = Der Vorrat wurde zuletzt am { DAY($day) } gezählt.
reserve-stock-never-counted-sets-right = Der Vorrat wurde nie gezählt: `croftbook count` stellt ihn richtig.
reserve-throw-away-what-above-degrees = Wegwerfen, was mehr als 2 Stunden über 4,4 Grad Celsius (40 Fahrenheit) war; nie kosten, um zu entscheiden. Die Tabelle und der Rat der Behörde gehen vor.
reserve-what-eaten-without-stove-common = Was ohne Herd gegessen wird, ist übliche Praxis, ohne Quelle.
reserve-more-needed-heat-when-ill = Bei Hitze, Krankheit, in der Schwangerschaft und Stillzeit braucht es mehr. Wie Wasser trinkbar wird, sagen die Gesundheitsbehörde und das Etikett des Mittels; hier steht keine Dosis.
reserve-shelf-cellar = Regal und Keller
reserve-without-stove-cold = ohne Herd und Kälte
reserve-all-stands-without-cold = alles, was ohne Kälte steht
reserve-days = Tage
reserve-shut-published = geschlossen, wie veröffentlicht
reserve-short-of = { $amount } { $group }
reserve-to-add = Für 14 Tage fehlen: { $list }.
reserve-without-power = Ohne Strom, wenn beide zu bleiben: der Kühlschrank { $n ->
        [one] 1 Stunde
       *[other] { $n } Stunden
    } und der Gefrierschrank { $freezer }; dann { $cold ->
            [one] 1 Tag
           *[other] { $cold } Tage
        } ohne Herd, { $warm ->
                [one] 1 Tag
               *[other] { $warm } Tage
            } mit Herd.
reserve-less-than-a-day = weniger als 24 Stunden (halb voll: 24)
reserve-shut-fridge-keeps = Ein geschlossener Kühlschrank hält 4 Stunden, ein voller Gefrierschrank 48 und ein halb voller 24 (USDA FSIS, aus zweiter Hand); die Linie dazwischen ist unsere. { $full ->
    [none] Wie voll er ist, ist nicht bekannt: `croftbook setting freezer_room "15 cu ft"` sagt seinen Raum.
   *[other] Der Gefrierschrank ist zu { $full } % voll{ $how ->
        [less] : weniger als halb, und dafür ist nichts veröffentlicht.
       *[half] .
    }
}
reserve-litres-german = 2 L je Person und Tag (deutsche Empfehlung)
reserve-gallon-us = 1 US-Gallone je Person und Tag (Empfehlung der USA, aus zweiter Hand)
reserve-water-as-asked = gelagertes Wasser, wie gefragt
reserve-water-stored = gelagertes Wasser
reserve-litres-day = Liter am Tag
reserve-energy-days = Tage nach Energie
reserve-protein-days = Tage nach Eiweiß
reserve-no-food = kein Essen im Haus ist eingetragen
reserve-not-shut = hier nicht gefragt
reserve-freezer-full = der gefüllte Teil des Gefrierschranks
reserve-freezer-room = Raum des Gefrierschranks
reserve-no-freezer-room = der Raum des Gefrierschranks ist nicht eingestellt
reserve-filled = gefüllter Raum
reserve-packed = Essen in einem Kubikfuß, wie veröffentlicht
reserve-frozen = Gefrorenes
reserve-lacks = gewünscht, ohne das, was da ist
reserve-nothing-lacks = es fehlt nichts
