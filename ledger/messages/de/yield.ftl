# What a published yield rests on: said with every season, so it stands apart from the labels of trees.

yield-per-row = je Meter Reihe
yield-per-square = je Quadratmeter
yield-of-fields = vom Feld: mittel bis sehr gut
yield-shelled = enthülst
yield-from-memory = eine Zahl oder mehr aus dem Gedächtnis
yield-published-in = { $source } ({ $note })
