# A reading in plain words, so that a misreading is seen: what was understood, a line each.

echo-nothing = Nothing to write down.
# $options: likely answers
echo-asked = asked: { $text }
echo-open = open: { $text }
echo-options = [{ $options }]
echo-left-over = left over: { $text }

## An entry: its day, what was done, and more of it
echo-entry = { DAY($day, style: "iso") }  { $what }

## Lines of an entry
echo-line-made = made { $line }
echo-line-from = from { $line }
echo-line-left = left { $line }
echo-line-seed = seed { $line }
echo-line-other = other: { $words } { $paid }
# $size: quart, pint and so on; $jar: the size of any other jar, 500 ml
echo-jars = { $size ->
        [half-gallon] { $n ->
            [one] 1 half-gallon jar
           *[other] { $n } half-gallon jars
        }
        [quart] { $n ->
            [one] 1 quart jar
           *[other] { $n } quart jars
        }
        [pint] { $n ->
            [one] 1 pint jar
           *[other] { $n } pint jars
        }
        [half-pint] { $n ->
            [one] 1 half-pint jar
           *[other] { $n } half-pint jars
        }
        [jar] { $n ->
            [one] 1 jar
           *[other] { $n } jars
        }
       *[other] { $n ->
            [one] 1 { $jar } jar
           *[other] { $n } { $jar } jars
        }
    }

## What else is said of an entry or a line
echo-at = at { $what }
echo-of = from { $what }
echo-to = to { $what }
echo-in = in { $what }
echo-for = for { $what }
echo-out-of = out of { $what }
echo-kept = { $place ->
        [fridge] in the fridge
        [freezer] in the freezer
        [cellar] in the cellar
       *[shelf] in the shelf
    }
echo-aside = ({ $what })
echo-people = { $n ->
        [one] 1 person
       *[other] { $n } people
    }
echo-guests = { $n } of them guests
echo-minutes = { $n ->
        [one] 1 minute
       *[other] { $n } minutes
    }
echo-note = note: { $what }
echo-worth = worth { $what }
echo-unsealed = { $n } unsealed
echo-row = row of { $what }
echo-plants = { $n ->
        [one] 1 plant
       *[other] { $n } plants
    }
echo-picked-here = what is picked here
echo-work = { $person } { $n ->
        [one] 1 minute
       *[other] { $n } minutes
    }
echo-acid = { $amount } { $acid } per { $each }
