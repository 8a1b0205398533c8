# Was ein Haushalt über seinen Kreis erfährt: Zahlen eines Bogens und einer Auswertung, und wozu er ja sagt.

circle-people = Personen
circle-people-means = Personen am Tisch, wie eingestellt
circle-batches = Ansätze
circle-batches-means = Ansätze, die in der Saison eingemacht wurden
circle-skills = Sichere Fertigkeiten
circle-skills-means = Fertigkeiten des Haushalts, die sicher sind
circle-judged = Verglichene Ansätze
circle-judged-means = Ansätze der Saison, die neben eine veröffentlichte Vorschrift gestellt wurden
circle-short = Kürzer als veröffentlicht
circle-short-means = davon kürzer als die veröffentlichte Vorschrift oder gegen jede
circle-no-process = Keine geprüfte Vorschrift
circle-no-process-means = davon ohne veröffentlichte Vorschrift, die vorliegt
circle-not-recorded = Nicht eingetragen
circle-not-recorded-means = davon mit etwas, das entscheidet und nicht eingetragen ist
circle-canned = Eingekochte Gläser
circle-canned-means = Gläser, die in der Saison im Wasserbad oder unter Druck eingekocht wurden
circle-unsealed = Nicht dichte Gläser
circle-unsealed-means = davon Gläser, die nicht dicht wurden
circle-kept = Gläser im Regal
circle-kept-means = Gläser, die am letzten Tag der Saison übrig sind
circle-kept-over-year = Gläser über ein Jahr
circle-kept-over-year-means = davon vor mehr als zwölf Monaten eingemacht
circle-own-energy = Eigener Anteil nach Energie
circle-own-energy-means = was in der Saison gegessen wurde und selbst angebaut war, nach Energie
circle-own-weight = Eigener Anteil nach Gewicht
circle-own-weight-means = dasselbe nach Gewicht
circle-own-value = Eigener Anteil nach Wert
circle-own-value-means = dasselbe zum Ladenpreis
circle-waste = Verloren
circle-waste-means = Teil aller Lebensmittel der Saison, nach Gewicht, der verloren ging
circle-hours = Stunden
circle-hours-means = eingetragene Stunden für Garten und Ansätze
circle-spent = Für Ansätze bezahlt
circle-spent-means = Geld, das für die Ansätze der Saison ausgegeben wurde
circle-saved = Mit Ansätzen gespart
circle-saved-means = Ladenpreis der Ansätze der Saison, weniger alle Kosten
circle-change-short = Änderung: kürzer als veröffentlicht
circle-change-short-means = Anteil der Ansätze kürzer als veröffentlicht, diese Saison weniger die davor
circle-change-unsealed = Änderung: nicht dicht
circle-change-unsealed-means = Anteil der Gläser, die nicht dicht wurden, diese Saison weniger die davor
circle-change-waste = Änderung: verloren
circle-change-waste-means = Anteil, der verloren ging, diese Saison weniger die davor
circle-change-own-energy = Änderung: eigener Anteil
circle-change-own-energy-means = eigener Anteil nach Energie, diese Saison weniger die davor
circle-change-minutes = Änderung: Minuten je Quart
circle-change-minutes-means = Arbeitsminuten je Quart aller gefragten Erzeugnisse, diese Saison weniger die davor
circle-jars = Gläser
circle-jars-means = Gläser davon, auf diese Weise eingemacht
circle-cost = Kosten je Quart
circle-cost-means = alle Kosten je US-Quart; nicht bekannt, sobald etwas darin keinen Preis hat
circle-minutes = Minuten je Quart
circle-minutes-means = Arbeitsminuten je US-Quart; nicht bekannt, wo keine Arbeit eingetragen ist
circle-learning = Lernrate
circle-learning-means = was eine Verdopplung der Ansätze von den Minuten übrig lässt; nicht bekannt bei weniger als fünf Ansätzen
circle-yield = Ertrag
circle-yield-means = Gewicht, das je Quadratmeter dieses Bodens geerntet wurde
circle-area = Boden
circle-area-means = Boden, der damit bepflanzt ist; nicht bekannt, wo eine Pflanzung es nicht sagt
circle-told-short-share = Ansätze kürzer als veröffentlicht
circle-told-unsealed-share = Gläser, die nicht dicht wurden
circle-told-waste = Verlorene Lebensmittel, nach Gewicht
circle-told-own-energy = Eigener Anteil am Gegessenen, nach Energie
circle-told-old-share = Gläser älter als ein Jahr
circle-told-own-weight = Eigener Anteil, nach Gewicht
circle-told-own-value = Eigener Anteil, zum Ladenpreis
circle-told-change-short = Änderung: Ansätze kürzer als veröffentlicht
circle-told-change-unsealed = Änderung: nicht dichte Gläser
circle-told-change-waste = Änderung: verlorene Lebensmittel
circle-told-change-own-energy = Änderung: eigener Anteil nach Energie
circle-told-hours = Stunden für Garten und Ansätze
circle-told-saved = Gegen den Laden gespart
circle-told-batches = Eingemachte Ansätze
circle-told-short = Ansätze kürzer als veröffentlicht, gezählt
circle-told-unsealed = Nicht dichte Gläser, gezählt
circle-told-kept = Gläser am Ende der Saison
circle-told-minutes = Arbeitsminuten je Quart
circle-told-jars = Eingemachte Gläser
circle-asks = { $who } fragt nach der Saison { SAY($year, style: "plain") }, { DAY($day) } bis { DAY($day2) }.
circle-zones = Zonen: { LIST($names, type: "commas") }. Geld in { $currency }.
circle-products = Eingemacht: { LIST($names, type: "commas") }.
circle-crops = Angebaut: { LIST($names, type: "commas") }.
circle-compared = Verglichen mit der Saison { DAY($day) } bis { DAY($day2) }, zu Hause.
circle-zone = Zone
circle-zone-means = wie ihr sie angebt
circle-not-known = nicht bekannt
circle-rate-said = { $n } % der Minuten
circle-change-said = { $n ->
        [one] 1 Punkt
       *[other] { $n } Punkte
    }
circle-grams-said = { $n } g je m²
circle-or-more = { $amount } oder mehr
circle-or-less = { $amount } oder weniger
circle-minutes-said = { $n ->
        [one] 1 Minute
       *[other] { $n } Minuten
    }
circle-hours-said = { $n ->
        [one] 1 Stunde
       *[other] { $n } Stunden
    }
circle-jars-said = { $n ->
        [one] 1 Glas
       *[other] { $n } Gläser
    }
circle-batches-said = { $n ->
        [one] 1 Ansatz
       *[other] { $n } Ansätze
    }
circle-unpriced = von { LIST($names, type: "commas") } ist kein Preis bekannt: `croftbook price` trägt einen ein
circle-consent-figures = Diese Zahlen und nichts anderes verlassen diesen Haushalt: kein Eintrag, kein Name, kein Ort, keine Zahl der Einträge.
circle-consent-cards = Wer die Bögen sammelt, sieht jeden unter der Nummer, die eure Karte ergibt, und nicht, wessen Karte es ist.
circle-consent-class = Die Klasse erfährt nichts, was weniger als 10 Haushalte teilen; die Öffentlichkeit erfährt nur verrauschte Zahlen.
circle-consent-withdrawal = `croftbook circle withdraw` nimmt den Bogen zurück und löscht ihn; was bis dahin gesagt wurde, lässt sich nicht zurückholen.
circle-head-figure = Zahl
circle-head-yours = Eures
circle-head-low = Unten
circle-head-middle = Mitte
circle-head-high = Oben
circle-head-households = Haushalte
circle-at-least = { $n } oder mehr
circle-about = etwa { $n }
circle-few = weniger als 10
circle-no-quartiles = weniger als 20: keine Viertel
circle-few-have-any = weniger als 10 haben welche
circle-dominated = ein Haushalt ist mehr als die Hälfte
circle-more-minutes-said = { $n ->
        [one] 1 Minute
       *[other] { $n } Minuten
    }
circle-product = { $item } ({ $method })
circle-leftover = was daneben bleibt, würde mitgesagt
