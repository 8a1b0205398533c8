# Needs of a person, and the groups of the published tables.
need-rda = empfohlene Zufuhr
need-ai = angemessene Zufuhr
need-ages = { $who } { $n }–{ $n2 }
need-over = { $who } über { $n }
need-males = männlich
need-females = weiblich
need-children = Kinder
need-pregnancy = schwanger
need-lactation = stillend
need-by-size = nach Gewicht und Größe
need-by-reference = nach dem Bezugsgewicht von 12 kg
need-by-table = nach der Kalorientabelle
