# What a published yield rests on: said with every season, so it stands apart from the labels of trees.

yield-per-row = per metre of row
yield-per-square = per square metre
yield-of-fields = of fields: average to excellent
yield-shelled = shelled
yield-from-memory = one figure or more from memory
yield-published-in = { $source } ({ $note })
