# The chart of a freezer that was off: its kinds and remarks, by what they are called there.
chart-off-for = Off for { $n ->
        [one] 1 hour
       *[other] { $n } hours
    }: { $when }. The hours decide nothing by themselves: look at each package, or at a thermometer in the freezer. Never taste to find out.
chart-half-full-holds = a shut freezer that was half full or more holds its cold that long
chart-full-holds = a full freezer holds its cold { $n } hours if it stayed shut, a half-full one { $n2 }
chart-longer-than-full = that is longer than the { $n } hours that even a full, shut freezer holds its cold
chart-no-such-kind = { $item ->
        [none] the chart names no such kind. Take it like meat: with ice crystals refreeze, else discard.
       *[some] { $item }: the chart names no such kind. Take it like meat: with ice crystals refreeze, else discard.
    }
chart-thawed-hours = { $item ->
        [none] ({ $kind })
       *[some] { $item } ({ $kind })
    }: while it holds ice crystals and feels as cold as in a refrigerator, { $do }; thawed, once above { $n } degrees F for more than { $n2 } hours, { $do2 }.
chart-thawed = { $item ->
        [none] ({ $kind })
       *[some] { $item } ({ $kind })
    }: while it holds ice crystals and feels as cold as in a refrigerator, { $do }; thawed, { $do2 }.
chart-do = { $do ->
        [refreeze] refreeze
       *[discard] discard
    }
chart-take-as-warm = After { $n } hours take it as warm unless you find it still hard frozen.
chart-meat-poultry-fish-and-seafood = meat, poultry, fish and seafood
chart-stews-soups-stock-and-casseroles = stews, soups, stock and casseroles
chart-milk = milk
chart-eggs-out-of-the-shell = eggs out of the shell
chart-ice-cream-frozen-yogurt = ice cream, frozen yogurt
chart-cheese-soft-and-semi-soft = cheese, soft and semi-soft
chart-hard-cheese = hard cheese
chart-fruit-juice = fruit juice
chart-fruit-home-or-shop-packed = fruit, home or shop packed
chart-vegetable-juice = vegetable juice
chart-vegetables-home-or-shop-packed-or-blanched = vegetables, home or shop packed, or blanched
chart-bread-rolls-cakes-without-custard = bread, rolls, cakes without custard
chart-cakes-and-pies-with-custard-or-cheese-filling = cakes and pies with custard or cheese filling
chart-pie-crust-and-bread-dough = pie crust and bread dough
chart-flour-meal-and-nuts = flour, meal and nuts
chart-ready-meals-filled-and-mixed-dishes = ready meals, filled and mixed dishes
chart-fish-and-shellfish-lose-some-texture-and-flavour = Fish and shellfish lose some texture and flavour.
chart-some-loss-of-texture = Some loss of texture.
chart-discard-where-mould-a-yeasty-smell-or-slime-develops = Discard where mould, a yeasty smell or slime develops.
chart-texture-and-flavour-change-discard-where-mould-a-yeasty-smell-or-slime-develops = Texture and flavour change; discard where mould, a yeasty smell or slime develops.
chart-texture-and-flavour-may-suffer = Texture and flavour may suffer.
chart-considerable-loss-of-quality-once-thawed = Considerable loss of quality once thawed.
