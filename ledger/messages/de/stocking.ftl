# Unter dem Plan für Vorräte: Einkäufe, Risiken, worauf er beruht und was fehlt.
stocking-likely-use = Der Verbrauch je Woche ist derselbe wie im Vorrat: wahrscheinlich in den kommenden { $n } Wochen, nach den eigenen Wochen, in denen etwas da war; er gilt als gleichmäßig.
stocking-target-weeks = Wo kein Ziel gesetzt ist, sollen { $n } Wochen im Haus sein; eine andere Zahl nehmen die Wochen oben oder `croftbook target`.
stocking-keeps = Nirgends steht, wie lange sich halten: { LIST($names, type: "commas") }. Sie gelten als lange genug haltbar.
stocking-few-weeks = Von { LIST($names, type: "commas") } sind weniger als vier Wochen bekannt, der Verbrauch daher nicht: Er zeigt sich, sobald sie eingetragen sind.
stocking-no-use = Kein Verbrauch ist eingetragen von { LIST($names, type: "commas") }; die Wochen sind daher nicht bekannt: Tragt Mahlzeiten und Ansätze ein oder zählt nach, mit Fehlendem als gegessen.
stocking-no-price = Noch nie ein Preis gesehen von { LIST($names, type: "commas") }: Einen nimmt `croftbook price`.
stocking-people-unknown = Wie viele mitessen, ist nicht eingestellt; das Ziel für { LIST($names, type: "commas") } ist daher nicht bekannt: `croftbook setting people 6` sagt es.
stocking-no-staples = Noch kein Grundvorrat: etwas, das zweimal gekauft und verbraucht wurde oder gekauft und mit einem Ziel versehen.
stocking-nothing-extra = Bei keinem Einkauf kommt etwas dazu.
stocking-in-all = Im Ganzen: { $n }.
stocking-extra = Zusätzliche Packungen, neben dem, was die Wochen zwischen den Einkäufen brauchen:
stocking-trip = Einkauf { $n }: { LIST($packs, type: "commas") }: { $cost }
stocking-still-wanted = Nach { $n ->
        [one] 1 Einkauf
       *[other] { $n } Einkäufen
    } noch gewünscht: { LIST($packs, type: "commas") }.
stocking-to-the-target = Bis zum Ziel im Ganzen: { $cost }. `--budget 20` verteilt es auf Einkäufe.
stocking-kept-out = Nicht gekauft, weil es über sein Datum käme: { LIST($packs, type: "commas") }.
stocking-price-rise = Ein Preisanstieg von { $n } Prozent würde in { $weeks } Wochen { $cost } kosten.
stocking-with-plan = Mit dem Geplanten im Haus: { $cost }.
stocking-uncovered = Reicht nicht für { $n } Wochen ohne Laden: { LIST($names, type: "commas") }.
stocking-uncovered-with-plan = Reicht mit dem Geplanten im Haus nicht für { $n } Wochen ohne Laden: { LIST($names, type: "commas") }.
stocking-nothing-bare = nichts
