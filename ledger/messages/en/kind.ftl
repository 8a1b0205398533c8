# What was done, by kind of entry: the kind's title, in small letters.

kind-item-described = describe an item
kind-planted = planted
kind-harvested = picked
kind-bought = bought
kind-received = received
kind-recipe-written = recipe
kind-put-up = put up
kind-eaten = ate
kind-given-away = gave away
kind-discarded = threw out
kind-counted = counted
kind-gauge-tested = gauge tested
kind-checked = looked up
kind-price-seen = price seen
kind-practised = practised
kind-target-set = target
kind-person-described = person
kind-seed-checked = seed
kind-frost-seen = frost
kind-flock-counted = flock
kind-meter-read = meter read
kind-setting-changed = setting
kind-struck = strike
