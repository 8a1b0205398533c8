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
