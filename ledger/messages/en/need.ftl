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
