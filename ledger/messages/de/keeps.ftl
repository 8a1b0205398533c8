# How long food keeps, and who says so: said of every lot, so it stands apart from the labels of trees.
keeps-household = der Haushalt sagt, es hält sich { $span }
keeps-at-most = höchstens { $span }, da es nicht dicht wurde ({ $source })
keeps-no-canner = höchstens { $span } im Kühlschrank, da kein Einkochtopf es verschloss ({ $source })
keeps-under-oil = { $span } im Kühlschrank unter Öl ({ $source })
keeps-raw = roh: höchstens { $span } im Kühlschrank (Quelle: { $source })
keeps-published = { $text }: { $span } (Quelle: { $source })
keeps-published-from = { $text } (Quelle: { $source }): { $span }
