# Zwei Antworten nebeneinander.

compare-harvest-worth = Wert der Ernte im Laden
compare-put-up-cost = Kosten von allem bisher Eingemachten
compare-no-value = Kein Wert ist bekannt von { LIST($names, type: "commas") }; es bleibt weg. Ein Preis gäbe einen.
compare-nothing = Auf keiner Seite gibt es etwas zu vergleichen.
compare-of-that = Davon { LIST($list, type: "commas") }.
compare-price = Preis { $n }
compare-amount = Menge { $n }
compare-mix = Mischung { $n }
compare-hardly = fast nichts
compare-not-split = nicht aufgeteilt { $n }
compare-more = { $what }: { $n } ({ $when }) und { $n2 } ({ $when2 }), { $n3 } mehr.
compare-less = { $what }: { $n } ({ $when }) und { $n2 } ({ $when2 }), { $n3 } weniger.
compare-to = bis { DAY($day) }
compare-on = { DAY($day) }
compare-net-per-hour = Überschuss je Stunde { $n }
compare-worth-net = Überschuss der Saison
compare-shelf-cost = Kosten von allem im Vorrat
compare-eaten-value = Ladenwert von dem, was wir aßen
