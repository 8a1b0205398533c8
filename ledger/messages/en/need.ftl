# Needs of a person, and the groups of the published tables.
need-rda = RDA
need-ai = AI
need-ages = { $who } { $n }-{ $n2 }
need-over = { $who } over { $n }
need-males = males
need-females = females
need-children = children
need-pregnancy = pregnancy
need-lactation = lactation
need-by-size = by weight and height
need-by-reference = by the reference weight of 12 kg
need-by-table = by the calorie table
