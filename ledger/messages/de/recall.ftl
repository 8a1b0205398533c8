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
