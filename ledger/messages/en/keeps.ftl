# How long food keeps, and who says so: said of every lot, so it stands apart from the labels of trees.
keeps-household = the household says it keeps { $span }
keeps-at-most = { $span } at the most, as it did not seal ({ $source })
keeps-no-canner = { $span } at the most in the fridge, as no canner closed it ({ $source })
keeps-under-oil = { $span } in the fridge under oil ({ $source })
keeps-raw = raw: { $span } in the fridge at the most ({ $source })
keeps-published = { $text }: { $span } ({ $source })
keeps-published-from = { $text } ({ $source }): { $span }
