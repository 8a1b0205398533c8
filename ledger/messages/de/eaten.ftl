# Unter den Anteilen am Tisch: worauf sie ruhen und was fehlt.
eaten-no-weight = Von { $name } ist kein Gewicht bekannt; es zählt mit 0. Was eines wiegt, nimmt `croftbook item`.
eaten-no-energy = Von { $name } ist kein Energiegehalt bekannt; es zählt mit 0 kcal. Die kcal je 100 g oder eine Zeile der Nährwerttabelle nimmt `croftbook item`.
eaten-no-price = Von { $name } ist kein Ladenpreis bekannt; es zählt mit dem Wert 0. Einen Preis nimmt `croftbook price`.
eaten-price-later = Der Ladenpreis von { $name } wurde erst nach dem Tag des Verbrauchs gesehen.
eaten-found = Von { $name } wurde mehr gezählt, als im Buch stand; es zählt als gefunden.
eaten-from-opening = { $name } war da, als das Buch begann; niemand hat gesagt, woher (`croftbook questions`).
eaten-unrecorded = Von { $name } wurde verbraucht, was niemand als Zugang eingetragen hat; seine Herkunft zählt als unbekannt.
eaten-feed-unknown = Nirgends steht, was die Tiere in der Saison { $name } bekamen; der Anteil mit Futter ist daher nicht bekannt.
eaten-days-written = An { $n } von { $n2 ->
        [one] 1 Tag
       *[other] { $n2 } Tagen
    } ist etwas Gegessenes eingetragen; was an den anderen gegessen wurde, steckt in keiner Zahl hier.
eaten-lacks-energy = Keine Energie ist bekannt von { LIST($names, type: "commas") }, was hereinkam: Was daheim nach Energie verbraucht wurde, enthält es nicht.
eaten-lacks-weight = Kein Gewicht ist bekannt von { LIST($names, type: "commas") }, was hereinkam: Was daheim nach Gewicht verbraucht wurde, enthält es nicht.
eaten-lacks-value = Kein Ladenpreis ist bekannt von { LIST($names, type: "commas") }, was hereinkam: Was daheim nach Wert verbraucht wurde, enthält es nicht.
eaten-unweighed-feed = Kein Gewicht ist bekannt von { LIST($names, type: "commas") }; es zählt nicht als Futter.
eaten-need-unknown = Was der Haushalt braucht, ist nicht bekannt, bis das gesagt ist: { LIST($list, type: "commas") }.
eaten-setting-command = `croftbook { $command }`
eaten-too-few-days = Anteile gibt es ab { $n } Tagen mit Mahlzeiten; bisher: { $n2 }.
eaten-rests-on = Die Anteile ruhen auf den { $n } von { $n2 } Tagen, an denen eine Mahlzeit eingetragen ist.
eaten-grown = Von dem, was wir aßen, war aus eigener Hand: { LIST($list, type: "commas") }.
eaten-grown-by-feed = Eier, Milch und Fleisch nur so weit gezählt, wie das Futter eigenes war: { LIST($list, type: "commas") }.
eaten-produced = Eigenes, von allem daheim Verbrauchten (geerntet + hereingekommen - weggegeben - Bestandsänderung): { LIST($list, type: "commas") }.
eaten-by-energy = { $share } nach Energie
eaten-by-weight = { $share } nach Gewicht
eaten-by-value = { $share } nach Ladenwert
eaten-of-need = Von der Energie, die am Tisch nötig ist, waren { $grown } aus eigener Hand, und { $eaten } sind als gegessen eingetragen.
eaten-balance = { $n } kg kamen vom { DAY($day) } bis { DAY($day2) } herein, neben { $n2 } kg, die da waren; die Wege halten { $n3 } kg.
eaten-balance-label = { $n } kg kamen in { $label } herein, neben { $n2 } kg, die da waren; die Wege halten { $n3 } kg.
eaten-from-to = Gegessen vom { DAY($day) } bis { DAY($day2) }.
eaten-in = Gegessen in { $period }.
eaten-day-ahead = { DAY($day) } liegt nach { DAY($day2) }, dem Tag dieser Antwort: Noch ist nichts geschehen.
eaten-nothing = Zwischen { DAY($day) } und { DAY($day2) } ist nichts Gegessenes eingetragen: `croftbook meal` nimmt, was auf dem Tisch stand.
