hens-feed-lasts-about-days = The feed lasts about { $n ->
        [one] 1 day
       *[other] { $n } days
    }.
hens-hens-over-days = hens over { $n ->
        [one] 1 day
       *[other] { $n } days
    }
hens-eggs = eggs
hens-feed-bought = feed bought
hens-feed-bedding = feed and bedding
hens-dozens = dozens
hens-left-last-purchase = left of the last purchase
hens-feed-lasts = the feed lasts
hens-how-many-hens-there-not = How many hens there are is not written down: `croftbook flock 6`.
hens-no-feed-written-down-then = No feed is written down: `croftbook item "layer feed" --sort "garden input" --feeds egg`, then buy it.
hens-lay-eggs-hen-days-usual = Lay is eggs by hen-days. Usual, as published: 75 to 80 eggs by 100 hens and day in the first two years, about 50 in winter without light.
hens-dozen = a dozen
hens-day = a day
hens-lay = lay
hens-hens = hens
hens-dozen-eats = a dozen eats
hens-dozen-costs = a dozen costs
hens-feed-hand-what-last-purchase = Feed on hand is what the last purchase should have left; `--feed "50 lb"` says what is really there.
hens-days = days
hens-a-hen-eats = A hen eats { $amount } a day ({ $how ->
    [memory] the usual quarter pound, from memory
   *[bought] by feed bought between the first and the last purchase
}).
hens-why-eats = a hen eats a day{ $how ->
    [memory] { "" } (from memory)
   *[bought] { "" }
}
hens-feed-on-hand = feed on hand, as asked
hens-hen-days = hen-days
hens-from = from { DAY($day, style: "iso") }
hens-until = until { DAY($day, style: "iso") }
hens-eaten = eaten since
hens-used-up = used up
hens-no-hens = no hens
hens-no-eggs = no eggs
hens-no-feed = no feed known
