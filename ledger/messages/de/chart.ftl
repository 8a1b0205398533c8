# Die Tabelle für einen Gefrierschrank, der aus war: ihre Sorten und Bemerkungen, nach ihren Namen dort.
chart-off-for = { $n ->
        [one] 1 Stunde
       *[other] { $n } Stunden
    } aus: { $when }. Die Stunden allein entscheiden nichts: Seht jedes Paket an oder ein Thermometer im Gefrierschrank. Nie kosten, um zu prüfen.
chart-half-full-holds = so lange hält ein geschlossener Gefrierschrank, der mindestens halb voll war, die Kälte
chart-full-holds = ein voller hält, geschlossen, die Kälte { $n } Stunden, ein halb voller { $n2 }
chart-longer-than-full = das ist länger als die { $n } Stunden, die selbst ein voller, geschlossener die Kälte hält
chart-no-such-kind = { $item ->
        [none] Die Tabelle nennt diese Sorte nicht. Behandelt es wie Fleisch: mit Eiskristallen wieder einfrieren, sonst wegwerfen.
       *[some] { $item }: Die Tabelle nennt diese Sorte nicht. Behandelt es wie Fleisch: mit Eiskristallen wieder einfrieren, sonst wegwerfen.
    }
chart-thawed-hours = { $item ->
        [none] ({ $kind })
       *[some] { $item } ({ $kind })
    }: solange es Eiskristalle hat und so kalt ist wie im Kühlschrank, { $do }; aufgetaut, sobald länger als { $n2 } Stunden über { $n } Grad F, { $do2 }.
chart-thawed = { $item ->
        [none] ({ $kind })
       *[some] { $item } ({ $kind })
    }: solange es Eiskristalle hat und so kalt ist wie im Kühlschrank, { $do }; aufgetaut, { $do2 }.
chart-do = { $do ->
        [refreeze] wieder einfrieren
       *[discard] wegwerfen
    }
chart-take-as-warm = Nach { $n } Stunden gilt es als warm, außer es ist noch hart gefroren.
chart-meat-poultry-fish-and-seafood = Fleisch, Geflügel, Fisch und Meeresfrüchte
chart-stews-soups-stock-and-casseroles = Eintöpfe, Suppen, Brühe und Aufläufe
chart-milk = Milch
chart-eggs-out-of-the-shell = Eier ohne Schale
chart-ice-cream-frozen-yogurt = Eis, gefrorener Joghurt
chart-cheese-soft-and-semi-soft = Käse, weich und halbweich
chart-hard-cheese = Hartkäse
chart-fruit-juice = Fruchtsaft
chart-fruit-home-or-shop-packed = Obst, selbst oder im Laden verpackt
chart-vegetable-juice = Gemüsesaft
chart-vegetables-home-or-shop-packed-or-blanched = Gemüse, selbst oder im Laden verpackt, oder blanchiert
chart-bread-rolls-cakes-without-custard = Brot, Brötchen, Kuchen ohne Creme
chart-cakes-and-pies-with-custard-or-cheese-filling = Kuchen mit Creme oder Käsefüllung
chart-pie-crust-and-bread-dough = Teig
chart-flour-meal-and-nuts = Mehl und Nüsse
chart-ready-meals-filled-and-mixed-dishes = Fertiges, gefüllte und gemischte Gerichte
chart-fish-and-shellfish-lose-some-texture-and-flavour = Fisch und Muscheln verlieren etwas Biss und Geschmack.
chart-some-loss-of-texture = Etwas Biss geht verloren.
chart-discard-where-mould-a-yeasty-smell-or-slime-develops = Wegwerfen, wo Schimmel, Hefegeruch oder Schleim entsteht.
chart-texture-and-flavour-change-discard-where-mould-a-yeasty-smell-or-slime-develops = Biss und Geschmack ändern sich; wegwerfen, wo Schimmel, Hefegeruch oder Schleim entsteht.
chart-texture-and-flavour-may-suffer = Biss und Geschmack können leiden.
chart-considerable-loss-of-quality-once-thawed = Aufgetaut deutlich schlechter.
