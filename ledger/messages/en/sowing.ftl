sowing-no-last-spring-frost-written = No last spring frost is written down, so there are weeks and no days: `croftbook frost "last of spring" --seen 2026-05-10`.
sowing-left-out-spring-frost-not = Left out, as the spring frost is not before the fall's: { $list }. Correct the entry that is wrong.
sowing-table-does-not-say-when = The table does not say when { LIST($names, type: "commas") } are sown.
sowing-no-day-sow-table-has = No day to sow { LIST($names, type: "commas") }: the table has days to the harvest and no weeks by the frost.
sowing-seed-not-tested-lay-out = Seed of { LIST($names, type: "commas") } is not tested: lay out 20 and `croftbook seed CROP --sown 20 --sprouted N`.
sowing-no-crop-planted-yet-no = No crop was planted yet, and no plan has any.
sowing-weeks-soil-days-those-extension = Weeks, soil and days are those of extension tables, some of weak copies of them; the packet's days come before the table's.
sowing-last-sowing-days-harvest-shorter = Last sowing: days to the harvest, 14 for the shorter days, the picking, and 14 more for what frost kills (Virginia fall formula).
sowing-what-picked-again-again-picked = What is picked again and again is picked for three weeks, or a sowing is not worth it (common practice, no source).
sowing-sprouted = sprouted
sowing-germination = germination
sowing-plants-plan = plants of the plan
sowing-plants-germination = plants by germination
sowing-seeds-wanted = seeds wanted
sowing-order = to order
sowing-days-harvest-middle-table = days to the harvest (middle of the table's)
sowing-table-sowing = table of sowing
sowing-seeds-left = seeds left
sowing-end-per-cent-range-wilson = end of the 95 per cent range (Wilson)
sowing-laid-out = laid out
sowing-not-known = not known
sowing-nothing-order = nothing to order
sowing-frost = { $of ->
    [spring] Last spring frost
   *[fall] First fall frost
}: { DAY($day, style: "iso") } ({ $of ->
    [spring] { $share ->
        [none] latest seen
       *[other] later in { $share }% of years
    }
   *[fall] { $share ->
        [none] earliest seen
       *[other] earlier in { $share }% of years
    }
}; { $n ->
        [one] 1 year
       *[other] { $n } years
    } of your own).
sowing-no-fall-frost = No first fall frost is written down, so there is no last sowing: `croftbook frost "first of fall" --seen 2026-10-01`.
sowing-few-years = Fewer than ten years of { $of ->
    [spring] spring
    [fall] fall
   *[spring-fall] spring and fall
} frosts are known: the worst of them is taken.
sowing-risk = Frost days vary like a normal spread about their mean; the risk is { $n }% of years.
sowing-shorter-days = shorter days in fall (Virginia formula)
sowing-picking = picking (common practice, no source)
sowing-frost-kills = frost kills it
sowing-to-setting-out = from seed to setting out
sowing-last-before-frost = last sowing before the first fall frost
sowing-no-test = no test is written down
sowing-seeds-left-unknown = seeds left are not written down
sowing-days-of-packet = days to the harvest (packet)
sowing-days-unknown = days to the harvest are not known
sowing-table-low = table, low
sowing-table-high = table, high
sowing-days-before-harvest = { $n } to { $n2 } days before the harvest; the table says no weeks
sowing-indoors-then = indoors { $n } to { $n2 } weeks before the last frost, then { $out }
sowing-out-from = { $how ->
        [set-out] set out from { $when }
       *[sow] sow from { $when }
    }
sowing-frost-on = the last frost on
sowing-frost-weeks = { $side ->
        [before] { $n ->
            [one] { $n } week before the last frost on
           *[other] { $n } weeks before the last frost on
        }
       *[after] { $n ->
            [one] { $n } week after the last frost on
           *[other] { $n } weeks after the last frost on
        }
    }
sowing-seed-meets = meets the standard
sowing-seed-below = below the standard
sowing-seed-old = { $n ->
        [one] 1 year
       *[other] { $n } years
    } old, keeps { $span }: test 20
sowing-weeks-to-set-out = weeks from seed to setting out
sowing-not-in-table = the table does not say
sowing-not-planned = the plan has no plants of it
