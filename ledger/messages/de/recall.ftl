# Was aus einem Posten oder Eintrag wurde, und was hineinging.

recall-nothing-came-in = { $id } ist { $kind }: dadurch kam nichts herein
    .wanted = Nenne, was gekauft, bekommen oder geerntet wurde; bei einem Ansatz --batch
recall-from-published = Nimm eine aus `croftbook show as-published`
recall-no-meal-no-gift = { $id } ist { $kind }, weder Mahlzeit noch Geschenk
    .wanted = Nimm eine aus `croftbook history --kind meal`
recall-no-gauge = { $text } ist kein Manometer in diesem Buch
    .wanted = Nenne den Einkocher wie die Ansätze, oder schreib dial
recall-no-schedule = es gibt keine Vorschrift { $text }, und kein Ansatz nennt sie
recall-name-one = Nenne eines von --item, --lot, --batch, --purchase, --gauge, --schedule oder --meal
recall-ids-begin = { $n } Kennungen von Einträgen beginnen mit { $text }
recall-lots-called = { $n ->
        [none] { $text }: einen solchen Posten oder ein solches Etikett gibt es nicht
       *[other] { $text }: { $n } Posten heißen so
    }
recall-name-lot = Nenne eines von { LIST($names, type: "commas") }
recall-lot-from-shelf = Nimm einen Posten aus `croftbook show shelf --json`
recall-may-be = Vielleicht ist es eines von: { LIST($names, type: "commas") }
recall-schedule-from = Nimm eine aus `croftbook show as-published --json`
recall-names-nothing = nennt nichts, dem zu folgen wäre
recall-stands-beside = steht neben { LIST($names, type: "commas") }
