# Two answers set beside each other.

compare-harvest-worth = Worth of the harvest in the shop
compare-put-up-cost = Cost of all put up so far
compare-no-value = No value is known of { LIST($names, type: "commas") }, left out: a price would give one.
compare-nothing = There is nothing to compare on either side.
compare-of-that = Of that { LIST($list, type: "commas") }.
compare-price = price { $n }
compare-amount = amount { $n }
compare-mix = mix { $n }
compare-hardly = hardly any
compare-not-split = not split { $n }
compare-more = { $what }: { $n } ({ $when }) and { $n2 } ({ $when2 }), { $n3 } more.
compare-less = { $what }: { $n } ({ $when }) and { $n2 } ({ $when2 }), { $n3 } less.
compare-to = to { DAY($day, style: "iso") }
compare-on = { DAY($day, style: "iso") }
compare-net-per-hour = net per hour { $n }
compare-worth-net = Net of the season
compare-shelf-cost = Cost of what is on the shelf
compare-eaten-value = Shop value of what we ate
