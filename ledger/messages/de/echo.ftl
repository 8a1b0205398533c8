# Was verstanden wurde, mit einfachen Worten, damit ein Missverständnis auffällt: je eine Zeile.

echo-nothing = Nichts einzutragen.
# $options: wahrscheinliche Antworten
echo-asked = gefragt: { $text }
echo-open = offen: { $text }
echo-options = [{ $options }]
echo-left-over = übrig geblieben: { $text }

## Ein Eintrag: sein Tag, was getan wurde, und mehr dazu
echo-entry = { DAY($day) }  { $what }

## Zeilen eines Eintrags
echo-line-made = ergab { $line }
echo-line-from = aus { $line }
echo-line-left = Reste { $line }
echo-line-seed = Samen { $line }
echo-line-other = anderes: { $words } { $paid }
# $size: quart, pint und so weiter; $jar: die Größe jedes anderen Glases, 500 ml
echo-jars = { $size ->
        [half-gallon] { $n ->
            [one] 1 ½-Gallonen-Glas
           *[other] { $n } ½-Gallonen-Gläser
        }
        [quart] { $n ->
            [one] 1 Quart-Glas
           *[other] { $n } Quart-Gläser
        }
        [pint] { $n ->
            [one] 1 Pint-Glas
           *[other] { $n } Pint-Gläser
        }
        [half-pint] { $n ->
            [one] 1 Halbpint-Glas
           *[other] { $n } Halbpint-Gläser
        }
        [jar] { $n ->
            [one] 1 Glas
           *[other] { $n } Gläser
        }
       *[other] { $n ->
            [one] 1 Glas zu { $jar }
           *[other] { $n } Gläser zu { $jar }
        }
    }

## Was sonst zu einem Eintrag oder einer Zeile gesagt ist
echo-at = bei { $what }
echo-of = von { $what }
echo-to = an { $what }
echo-in = in { $what }
echo-for = für { $what }
echo-out-of = aus { $what }
echo-kept = { $place ->
        [fridge] im Kühlschrank
        [freezer] im Gefrierschrank
        [cellar] im Keller
       *[shelf] im Regal
    }
echo-aside = ({ $what })
echo-people = { $n ->
        [one] 1 Person
       *[other] { $n } Personen
    }
echo-guests = { $n ->
        [one] davon 1 Gast
       *[other] davon { $n } Gäste
    }
echo-minutes = { $n ->
        [one] 1 Minute
       *[other] { $n } Minuten
    }
echo-note = Notiz: { $what }
echo-worth = { $what } wert
echo-unsealed = { $n } nicht dicht
echo-row = Reihe von { $what }
echo-plants = { $n ->
        [one] 1 Pflanze
       *[other] { $n } Pflanzen
    }
echo-picked-here = was hier geerntet wird
echo-work = { $person } { $n ->
        [one] 1 Minute
       *[other] { $n } Minuten
    }
echo-acid = { $amount } { $acid } je { $each }
