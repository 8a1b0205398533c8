# What costs rest on: prices that are not known, and what nobody wrote down.
cost-unpriced = No price of { $name } is known, so it counts 0 and the cost is at least this much.
cost-unrecorded = { $name } was used that nobody wrote down as coming in; it counts at the shop's price of that day.
cost-found = More { $name } was counted than the book had; it counts at the shop's price of that day.
cost-unpaid = What { $name } cost was not written down; it counts at the shop's price of that day.
cost-price-later = The shop's price of { $name } was first seen only after the day it is compared with.
cost-provisional = A garden season is still running: what the harvest cost can still change.
cost-unrecorded-unpriced = { $name } was used that nobody wrote down as coming in, and no price of it is known: it counts 0.
cost-found-unpriced = More { $name } was counted than the book had, and no price of it is known: it counts 0.
cost-unpaid-unpriced = What { $name } cost was not written down, and no price of it is known: it counts 0.
cost-kept-otherwise = { $name } is kept by { $by }, { $item } by { $by2 }: `croftbook item "{ $lacks }" { $option }`, with its own figure, sets them beside each other.
cost-kept-otherwise-weigh = { $name } is kept by { $by }, { $item } by { $by2 }: its weight, with its own figure, sets them beside each other.
cost-by = { $measure ->
        [mass] weight
        [volume] volume
        [energy] energy
       *[count] the piece
    }
cost-no-shop-price = No shop's price is known of { LIST($names, type: "commas") }: `croftbook price "{ $one } { $first }" 4.50` takes one, `croftbook item "{ $first }" --shop-equivalent ITEM` says what you would buy instead.
