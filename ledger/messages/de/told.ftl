# Was einen Eintrag zurückgibt. $lines: Mengen mit dem, wovon, wie der Haushalt sie schrieb; $how, $why: feste Wörter.
told-on = { DAY($day) } { $line }
told-not-read = { $kind }: nicht gelesen, weil dieses Programm es nicht kennt
told-and-more = { $lines } und { $n } weitere
told-made = { $amount } ({ $place })
told-jar = { $jar ->
        [half-pint] Halbpint-Glas
        [pint] Pint-Glas
        [pint-and-half] 1,5-Pint-Glas
        [quart] Quart-Glas
        [half-gallon] ½-Gallonen-Glas
       *[jar] Glas
    }
told-jar-metric = Glas zu { $holds }
told-jar-named = { $jar }
told-jars = { $n ->
        [one] { $n } { $jar ->
            [half-pint] Halbpint-Glas
            [pint] Pint-Glas
            [pint-and-half] 1,5-Pint-Glas
            [quart] Quart-Glas
            [half-gallon] ½-Gallonen-Glas
           *[jar] Glas
        }
       *[other] { $n } { $jar ->
            [half-pint] Halbpint-Gläser
            [pint] Pint-Gläser
            [pint-and-half] 1,5-Pint-Gläser
            [quart] Quart-Gläser
            [half-gallon] ½-Gallonen-Gläser
           *[jar] Gläser
        }
    }
told-jars-metric = { $n ->
        [one] { $n } Glas zu { $holds }
       *[other] { $n } Gläser zu { $holds }
    }
told-jars-named = { $n ->
        [one] { $n } { $jar }
       *[other] { $n } × { $jar }
    }
told-picked = geerntet: { $lines }
told-bought = { $shop ->
        [none] gekauft: { $lines } für { $paid }
       *[some] gekauft: { $lines } bei { $shop } für { $paid }
    }
told-received = { $source ->
        [none] bekommen: { $lines } ({ $how })
       *[some] bekommen: { $lines } ({ $how }) von { $source }
    }
told-gave-away = { $to ->
        [none] weggegeben: { $lines } ({ $how })
       *[some] weggegeben: { $lines } ({ $how }) an { $to }
    }
told-ate = { $n ->
        [none] gegessen: { $lines }
       *[other] gegessen: { $lines }, zu { $n }
    }
told-ate-dish = { $n ->
        [none] gegessen: { $dish }, aus { $lines }
       *[other] gegessen: { $dish }, aus { $lines }, zu { $n }
    }
told-put-up = { $used ->
        [none] eingemacht: { $made } { $makes } ({ $method })
       *[some] eingemacht: { $made } { $makes } ({ $method }) aus { $used }
    }
told-counted = gezählt: { $lines }
told-discarded = weggeworfen: { $lines } ({ $why })
told-practised = geübt: { $skill } ({ $people })
told-saw = { $shop ->
        [none] Preis gesehen: { $line } für { $price }
       *[some] Preis gesehen: { $line } für { $price } bei { $shop }
    }
told-planted = { $bed ->
        [none] { $how ->
            [sown] gesät: { $crop }
            [set-out] ausgepflanzt: { $crop }
           *[planted] gepflanzt: { $crop }
        }
       *[some] { $how ->
            [sown] gesät: { $crop }, { $bed }
            [set-out] ausgepflanzt: { $crop }, { $bed }
           *[planted] gepflanzt: { $crop }, { $bed }
        }
    }
told-planted-plants = { $bed ->
        [none] { $how ->
            [sown] gesät: { $n ->
                    [one] 1 Pflanze
                   *[other] { $n } Pflanzen
                } { $crop }
            [set-out] ausgepflanzt: { $n ->
                    [one] 1 Pflanze
                   *[other] { $n } Pflanzen
                } { $crop }
           *[planted] gepflanzt: { $n ->
                   [one] 1 Pflanze
                  *[other] { $n } Pflanzen
               } { $crop }
        }
       *[some] { $how ->
            [sown] gesät: { $n ->
                    [one] 1 Pflanze
                   *[other] { $n } Pflanzen
                } { $crop }, { $bed }
            [set-out] ausgepflanzt: { $n ->
                    [one] 1 Pflanze
                   *[other] { $n } Pflanzen
                } { $crop }, { $bed }
           *[planted] gepflanzt: { $n ->
                   [one] 1 Pflanze
                  *[other] { $n } Pflanzen
               } { $crop }, { $bed }
        }
    }
told-recipe = Rezept { $recipe }: { $uses } ergibt { $gives }
told-set = eingestellt: { $name } auf { $value }
told-beds-put = { $n ->
        [one] 1 Beet dahin gelegt, wo es liegt
       *[other] { $n } Beete dahin gelegt, wo sie liegen
    }
told-struck = zurückgenommen { $id }: { $why }
told-target-skill = { $per ->
        [none] Ziel: { $skill } { $n }-mal
        [year] Ziel: { $skill } { $n }-mal je Jahr
        [week] Ziel: { $skill } { $n }-mal je Woche
       *[person-year] Ziel: { $skill } { $n }-mal je Person und Jahr
    }
told-target = { $per ->
        [none] Ziel: { $line }
        [year] Ziel: { $line } je Jahr
        [week] Ziel: { $line } je Woche
       *[person-year] Ziel: { $line } je Person und Jahr
    }
told-target-by = { $target } bis { DAY($day) }
told-item = { $sort ->
        [jar] { $item } ist: Glas
        [lid] { $item } ist: Deckel
        [equipment] { $item } ist ein Gerät
        [garden-input] { $item } ist: Gartenbedarf
        [fuel] { $item } ist Energie
        [supply] { $item } ist: Hilfsmittel
       *[food] { $item } ist ein Lebensmittel
    }
told-item-with = { $sort ->
        [jar] { $item } ist: Glas ({ $more })
        [lid] { $item } ist: Deckel ({ $more })
        [equipment] { $item } ist ein Gerät ({ $more })
        [garden-input] { $item } ist: Gartenbedarf ({ $more })
        [fuel] { $item } ist Energie ({ $more })
        [supply] { $item } ist: Hilfsmittel ({ $more })
       *[food] { $item } ist ein Lebensmittel ({ $more })
    }
told-kept-by = { $measure ->
        [mass] nach Gewicht geführt
        [volume] nach Rauminhalt geführt
        [energy] nach Energie geführt
       *[count] nach Stück geführt
    }
told-food-table = Nährwerttabelle: { $row }
told-kcal = { $x } kcal je 100 g
told-grams-of-ml = ein ml { $x } g
told-grams-each = { $unit }: { $x } g
told-pieces-each = { $unit }: { $x } Stück
told-holds = fasst { $x }
told-in-the-shop = im Laden { $item }
told-uses = { $x }-mal zu gebrauchen
told-lasts-years = { $x } Jahre
told-goes-into = geht in { $item }
told-keeps = hält sich { $spans }
told-keeps-at = { $place ->
        [fridge] { $span } im Kühlschrank
        [freezer] { $span } im Gefrierschrank
        [cellar] { $span } im Keller
       *[shelf] { $span } im Regal
    }
told-span = { $n ->
        [one] { $unit ->
            [day] { $n } Tag
            [week] { $n } Woche
            [year] { $n } Jahr
           *[month] { $n } Monat
        }
       *[other] { $unit ->
            [day] { $n } Tage
            [week] { $n } Wochen
            [year] { $n } Jahre
           *[month] { $n } Monate
        }
    }
told-span-range = { $unit ->
        [day] { $n } bis { $n2 } Tage
        [week] { $n } bis { $n2 } Wochen
        [year] { $n } bis { $n2 } Jahre
       *[month] { $n } bis { $n2 } Monate
    }
told-also = auch { $names }
told-person = { $person } am Tisch ({ $more })
told-years = { $n ->
        [one] 1 Jahr
       *[other] { $n } Jahre
    }
told-born = geboren { DAY($day) }
told-work = { $work ->
        [light] leichte Arbeit
        [hard] schwere Arbeit
       *[moderate] mäßige Arbeit
    }
told-away = nicht am Tisch
told-frost = { $frost ->
        [first-of-fall] erster Frost im Herbst am { DAY($day) }
       *[last-of-spring] letzter Frost im Frühling am { DAY($day) }
    }
told-hens = { $day ->
        [none] { $n ->
                [one] 1 Henne
               *[other] { $n } Hennen
            }
       *[some] { $n ->
               [one] 1 Henne
              *[other] { $n } Hennen
           }, geschlüpft { DAY($day) }
    }
told-hens-in = { $day ->
        [none] { $n ->
                [one] 1 Henne
               *[other] { $n } Hennen
            }: { $flock }
       *[some] { $n ->
               [one] 1 Henne
              *[other] { $n } Hennen
           }: { $flock }, geschlüpft { DAY($day) }
    }
told-seed = Saatgut { $crop } ({ $more })
told-seed-of = von { SAY($n, style: "plain") }
told-seeds-left = { $n ->
        [one] 1 Same
       *[other] { $n } Samen
    } übrig
told-days-to-harvest = { $n ->
        [one] 1 Tag
       *[other] { $n } Tage
    } bis zur Ernte
told-sprouted = { $n } von { $n2 } keimten
told-meter = { $before ->
        [none] Zähler { $meter } zeigt { $reads }
       *[some] Zähler { $meter } zeigt { $reads }, vorher { $before }
    }
told-meter-batch = { $before ->
        [none] Zähler { $meter } zeigt { $reads }, für Ansatz { $batch }
       *[some] Zähler { $meter } zeigt { $reads }, vorher { $before }, für Ansatz { $batch }
    }
told-gauge = { $reads ->
        [right] Manometer { $gauge } zeigt richtig
        [low] Manometer { $gauge } zeigt { $n } psi zu wenig
       *[high] Manometer { $gauge } zeigt { $n } psi zu viel
    }
told-gauge-by = { $reads ->
        [right] Manometer { $gauge } zeigt richtig (geprüft von { $by })
        [low] Manometer { $gauge } zeigt { $n } psi zu wenig (geprüft von { $by })
       *[high] Manometer { $gauge } zeigt { $n } psi zu viel (geprüft von { $by })
    }
told-looked-up = { $says ->
        [none] Ansatz { $batch } nachgesehen in { $publication }
       *[some] Ansatz { $batch } nachgesehen in { $publication }: { $says }
    }
told-day-of-year = { DAY($day, style: "short") }
