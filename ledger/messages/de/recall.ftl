# Was aus einem Posten oder Eintrag wurde, und was hineinging.

recall-nothing-came-in = { $id } ist { $kind }: dadurch kam nichts herein
    .wanted = Nennt, was gekauft, bekommen oder geerntet wurde; bei einem Ansatz --batch
recall-from-published = Nehmt eine aus `croftbook show as-published`
recall-no-meal-no-gift = { $id } ist { $kind }, weder Mahlzeit noch Geschenk
    .wanted = Nehmt eine aus `croftbook history --kind meal`
recall-no-gauge = { $text } ist kein Manometer in diesem Buch
    .wanted = Nennt den Einkochtopf wie die Ansätze, oder schreibt dial
recall-no-schedule = es gibt keine Vorschrift { $text }, und kein Ansatz nennt sie
recall-name-one = Nennt eines von --item, --lot, --batch, --purchase, --gauge, --schedule oder --meal
recall-ids-begin = { $n } Kennungen von Einträgen beginnen mit { $text }
recall-lots-called = { $n ->
        [none] { $text }: einen solchen Posten oder ein solches Etikett gibt es nicht
       *[other] { $text }: { $n } Posten heißen so
    }
recall-name-lot = Nennt eines von { LIST($names, type: "commas") }
recall-lot-from-shelf = Nehmt einen Posten aus `croftbook show shelf --json`
recall-may-be = Vielleicht ist es eines von: { LIST($names, type: "commas") }
recall-schedule-from = Nehmt eine aus `croftbook show as-published --json`
recall-names-nothing = nennt nichts, dem zu folgen wäre
recall-stands-beside = steht neben { LIST($names, type: "commas") }
recall-looked-up = { $says ->
        [none] Ansatz { $id } nachgesehen in { $name }
       *[other] Ansatz { $id } nachgesehen in { $name }: { $says }
    }
recall-lots = { $n ->
        [one] 1 Posten
       *[other] { $n } Posten
    }
recall-jars = { $n ->
        [one] 1 Glas
       *[other] { $n } Gläser
    }
recall-meals = { $n ->
        [one] 1 Mahlzeit
       *[other] { $n } Mahlzeiten
    }
recall-gifts = { $n ->
        [one] 1 Geschenk
       *[other] { $n } Geschenke
    }
recall-batches = { $n ->
        [one] 1 Ansatz
       *[other] { $n } Ansätze
    }
recall-came-of = Was aus { $what } wurde: { $lots } da ({ $jars }), { $meals }, { $gifts }, { $batches }.
recall-went-into = Was in { $what } hineinging: { $lots } hereingebracht, { $batches }.
recall-given-to = Etwas bekamen: { LIST($names, type: "commas") }.
recall-not-judged = Wie jedes Glas steht, wird bei so vielen nicht gesagt: `croftbook show shelf` sagt es.
recall-nobody-named = { $n ->
        [one] Bei 1 Geschenk steht nicht, wer es bekam.
       *[other] Bei { $n } Geschenken steht nicht, wer sie bekam.
    }
recall-no-test = Keine Prüfung eines Manometers ist eingetragen: jede Ladung mit Zeiger ist genannt.
recall-people = { $guests ->
        [none] { $n ->
            [one] 1 Person
           *[other] { $n } Personen
        }
       *[other] { $n ->
            [one] 1 Person, davon { $guests } zu Gast
           *[other] { $n } Personen, davon { $guests } Gäste
        }
    }
recall-start-lot = Posten { $id }
recall-start-batch = Ansatz { $id }
recall-start-meal = Mahlzeit { $id }
recall-start-entry = { $kind } { $id }
recall-start-gauge = { $name ->
        [none] dem Zeigermanometer
       *[other] dem Manometer von { $name }
    }
recall-start-schedule = der Vorschrift { $name }
