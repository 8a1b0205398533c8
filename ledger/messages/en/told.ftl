# What tells an entry back. $lines: amounts with their items, as the household wrote them; $how, $why: fixed words.
told-on = { DAY($day, style: "iso") } { $line }
told-not-read = { $kind }: not read, as this program does not know it
told-and-more = { $lines } and { $n } more
told-made = { $amount } ({ $place })
told-jar = { $jar ->
        [half-pint] half-pint jar
        [pint] pint jar
        [pint-and-half] 1.5-pint jar
        [quart] quart jar
        [half-gallon] half-gallon jar
       *[jar] jar
    }
told-jar-metric = { $holds } jar
told-jar-named = { $jar }
told-jars = { $n ->
        [one] { $n } { $jar ->
            [half-pint] half-pint jar
            [pint] pint jar
            [pint-and-half] 1.5-pint jar
            [quart] quart jar
            [half-gallon] half-gallon jar
           *[jar] jar
        }
       *[other] { $n } { $jar ->
            [half-pint] half-pint jars
            [pint] pint jars
            [pint-and-half] 1.5-pint jars
            [quart] quart jars
            [half-gallon] half-gallon jars
           *[jar] jars
        }
    }
told-jars-metric = { $n ->
        [one] { $n } { $holds } jar
       *[other] { $n } { $holds } jars
    }
told-jars-named = { $n ->
        [one] { $n } { $jar }
       *[other] { $n } { $jar }s
    }
told-picked = picked { $lines }
told-bought = { $shop ->
        [none] bought { $lines } for { $paid }
       *[some] bought { $lines } at { $shop } for { $paid }
    }
told-received = { $source ->
        [none] received { $lines } ({ $how })
       *[some] received { $lines } ({ $how }) from { $source }
    }
told-gave-away = { $to ->
        [none] gave away { $lines } ({ $how })
       *[some] gave away { $lines } ({ $how }) to { $to }
    }
told-ate = { $n ->
        [none] ate { $lines }
       *[other] ate { $lines } for { $n }
    }
told-ate-dish = { $n ->
        [none] ate { $dish }: { $lines }
       *[other] ate { $dish }: { $lines } for { $n }
    }
told-put-up = { $used ->
        [none] put up { $made } of { $makes } ({ $method })
       *[some] put up { $made } of { $makes } ({ $method }) from { $used }
    }
told-counted = counted { $lines }
told-discarded = discarded { $lines } ({ $why })
told-practised = practised { $skill } ({ $people })
told-saw = { $shop ->
        [none] saw { $line } for { $price }
       *[some] saw { $line } for { $price } at { $shop }
    }
told-planted = { $bed ->
        [none] { $how ->
            [sown] sown { $crop }
            [set-out] set out { $crop }
           *[planted] planted { $crop }
        }
       *[some] { $how ->
            [sown] sown { $crop } in { $bed }
            [set-out] set out { $crop } in { $bed }
           *[planted] planted { $crop } in { $bed }
        }
    }
told-planted-plants = { $bed ->
        [none] { $how ->
            [sown] sown { $n ->
                    [one] 1 plant
                   *[other] { $n } plants
                } of { $crop }
            [set-out] set out { $n ->
                    [one] 1 plant
                   *[other] { $n } plants
                } of { $crop }
           *[planted] planted { $n ->
                   [one] 1 plant
                  *[other] { $n } plants
               } of { $crop }
        }
       *[some] { $how ->
            [sown] sown { $n ->
                    [one] 1 plant
                   *[other] { $n } plants
                } of { $crop } in { $bed }
            [set-out] set out { $n ->
                    [one] 1 plant
                   *[other] { $n } plants
                } of { $crop } in { $bed }
           *[planted] planted { $n ->
                   [one] 1 plant
                  *[other] { $n } plants
               } of { $crop } in { $bed }
        }
    }
told-recipe = recipe { $recipe }: { $uses } gives { $gives }
told-set = set { $name } to { $value }
told-beds-put = put { $n ->
        [one] 1 bed where it lies
       *[other] { $n } beds where they lie
    }
told-struck = struck { $id }: { $why }
told-target-skill = { $per ->
        [none] target: { $skill } { $n ->
                [one] 1 time
               *[other] { $n } times
            }
        [year] target: { $skill } { $n ->
                [one] 1 time
               *[other] { $n } times
            } per year
        [week] target: { $skill } { $n ->
                [one] 1 time
               *[other] { $n } times
            } per week
       *[person-year] target: { $skill } { $n ->
               [one] 1 time
              *[other] { $n } times
           } per person year
    }
told-target = { $per ->
        [none] target: { $line }
        [year] target: { $line } per year
        [week] target: { $line } per week
       *[person-year] target: { $line } per person year
    }
told-target-by = { $target } by { DAY($day, style: "iso") }
told-item = { $sort ->
        [jar] { $item } is a jar
        [lid] { $item } is a lid
        [equipment] { $item } is equipment
        [garden-input] { $item } is a garden input
        [fuel] { $item } is fuel
        [supply] { $item } is a supply
       *[food] { $item } is food
    }
told-item-with = { $sort ->
        [jar] { $item } is a jar ({ $more })
        [lid] { $item } is a lid ({ $more })
        [equipment] { $item } is equipment ({ $more })
        [garden-input] { $item } is a garden input ({ $more })
        [fuel] { $item } is fuel ({ $more })
        [supply] { $item } is a supply ({ $more })
       *[food] { $item } is food ({ $more })
    }
told-kept-by = { $measure ->
        [mass] kept by mass
        [volume] kept by volume
        [energy] kept by energy
       *[count] kept by count
    }
told-food-table = food table: { $row }
told-kcal = { $x } kcal per 100 g
told-grams-of-ml = one ml { $x } g
told-grams-each = one { $unit } { $x } g
told-pieces-each = one { $unit } { $x } pieces
told-holds = holds { $x }
told-in-the-shop = in the shop { $item }
told-uses = { $x } uses
told-lasts-years = { $x } years
told-goes-into = goes into { $item }
told-keeps = keeps { $spans }
told-keeps-at = { $place ->
        [fridge] { $span } in the fridge
        [freezer] { $span } in the freezer
        [cellar] { $span } in the cellar
       *[shelf] { $span } on the shelf
    }
told-span = { $n ->
        [one] { $unit ->
            [day] { $n } day
            [week] { $n } week
            [year] { $n } year
           *[month] { $n } month
        }
       *[other] { $unit ->
            [day] { $n } days
            [week] { $n } weeks
            [year] { $n } years
           *[month] { $n } months
        }
    }
told-span-range = { $unit ->
        [day] { $n } to { $n2 } days
        [week] { $n } to { $n2 } weeks
        [year] { $n } to { $n2 } years
       *[month] { $n } to { $n2 } months
    }
told-also = also { $names }
told-person = { $person } at the table ({ $more })
told-years = { $n ->
        [one] 1 year
       *[other] { $n } years
    }
told-born = born { DAY($day, style: "iso") }
told-work = { $work ->
        [light] light work
        [hard] hard work
       *[moderate] moderate work
    }
told-away = away from the table
told-frost = { $frost ->
        [first-of-fall] first frost of fall on { DAY($day, style: "iso") }
       *[last-of-spring] last frost of spring on { DAY($day, style: "iso") }
    }
told-hens = { $day ->
        [none] { $n ->
                [one] 1 hen
               *[other] { $n } hens
            }
       *[some] { $n ->
               [one] 1 hen
              *[other] { $n } hens
           }, hatched { DAY($day, style: "iso") }
    }
told-hens-in = { $day ->
        [none] { $n ->
                [one] 1 hen
               *[other] { $n } hens
            } in { $flock }
       *[some] { $n ->
               [one] 1 hen
              *[other] { $n } hens
           } in { $flock }, hatched { DAY($day, style: "iso") }
    }
told-seed = seed of { $crop } ({ $more })
told-seed-of = of { SAY($n, style: "plain") }
told-seeds-left = { $n ->
        [one] 1 seed
       *[other] { $n } seeds
    } left
told-days-to-harvest = { $n ->
        [one] 1 day
       *[other] { $n } days
    } to the harvest
told-sprouted = { $n } of { $n2 } sprouted
told-meter = { $before ->
        [none] meter { $meter } reads { $reads }
       *[some] meter { $meter } reads { $reads }, { $before } before
    }
told-meter-batch = { $before ->
        [none] meter { $meter } reads { $reads } for batch { $batch }
       *[some] meter { $meter } reads { $reads }, { $before } before for batch { $batch }
    }
told-gauge = { $reads ->
        [right] gauge { $gauge } reads right
        [low] gauge { $gauge } reads { $n } psi too low
       *[high] gauge { $gauge } reads { $n } psi too high
    }
told-gauge-by = { $reads ->
        [right] gauge { $gauge } reads right (tested by { $by })
        [low] gauge { $gauge } reads { $n } psi too low (tested by { $by })
       *[high] gauge { $gauge } reads { $n } psi too high (tested by { $by })
    }
told-looked-up = { $says ->
        [none] looked up batch { $batch } in { $publication }
       *[some] looked up batch { $batch } in { $publication }: { $says }
    }
told-day-of-year = { DAY($day, style: "short") }
