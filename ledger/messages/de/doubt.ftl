# Was gefragt wird, bevor etwas Zweifelhaftes eingetragen wird, und die angebotenen Antworten.

doubt-done-so = so wurde es gemacht
doubt-right = es stimmt
doubt-where-kept = Wo stehen die Gläser mit { $item }? Es wurde kein Ort genannt, und für Gläser vom Kochen gibt es keine veröffentlichte Einkochvorschrift: Angenommen wird, dass sie im Kühlschrank stehen. Die nächste gedruckte Zahl sind { $n } bis { $n2 } Tage, für geöffnetes Eingekochtes{ $source }. Stehen sie auf dem Regal oder im Keller, schreibt diesen Ort zu den Gläsern.
doubt-in-fridge = im Kühlschrank
doubt-closed-on-shelf = Für die Gläser mit { $item } wurde kein Ort genannt: So verschlossen ({ $tool }), werden sie beurteilt wie Gläser auf dem Regal.
doubt-name-near = { $name } steht noch nicht im Buch; ist { $near } gemeint?
doubt-oldest = das älteste nehmen
doubt-newest = { $text }, die neuesten
doubt-in-pieces = { $item }, in Stück gezählt
doubt-clock = die Uhr dieses Rechners sagt { DAY($today) }, und zuletzt wurde am { DAY($last) } etwas eingetragen; geht die Uhr richtig?
doubt-future = { DAY($day) } kommt erst noch; stimmt der Tag?
doubt-cans = { $name } in Dosen würde wie frische Ware datiert und gegessen. Steht das getrennt als { $ware }?
doubt-close-to = { $item } ist ähnlich wie { $near }; ist es etwas anderes?
doubt-yes-right = ja, es stimmt
doubt-sourced = { $question } ({ $source })
doubt-not-known = es ist nicht bekannt
doubt-another-item = es ist etwas anderes
doubt-means-one = heißt { $text } { $jars }?
doubt-means-either = heißt { $text } { $apart }, oder { $together }?
doubt-thousands = ist { $text } { $plain } oder { $part }?
doubt-count-contradicted = { $amount } { $name } ist weniger, als spätere Einträge aus benannten Posten nahmen; stimmt die Zählung?
doubt-which-jars = { $amount } { $name }: welche Gläser, { LIST($jars, type: "or") }?
doubt-great-deal = { $amount } { $name } ist sehr viel; stimmt das?
doubt-lot-instead = { $lot }: { $problem }; stattdessen das älteste { $item } nehmen?
doubt-lot-made-up = ein gefundener oder nie eingetragener Posten lässt sich nicht nennen
doubt-lot-none = einen solchen Posten gibt es nicht
doubt-lot-struck = der Eintrag ist zurückgenommen
doubt-lot-of-other = der Posten ist { $item }
doubt-lot-late = der Posten kam später
doubt-lot-no-label = das ist weder ein Posten noch das Etikett eines Glases
doubt-lot-label-of-none = kein Glas { $item } hat dieses Etikett
doubt-lot-jar-late = das Glas kam später
doubt-which-unsealed = Welche Gläser { $item } wurden nicht dicht: { LIST($jars, type: "commas") }?
doubt-jars-of-day = { $jars } vom { DAY($day) }
doubt-unit-or-item = { $near ->
        [none] { $text } ist keine bekannte Einheit; heißt etwas { $item }?
       *[other] { $text } ist keine bekannte Einheit (ist { $near } gemeint?); heißt etwas { $item }?
    }
doubt-water-added = { $out } kamen aus { $into }; kam Wasser dazu?
doubt-not-there = { $other ->
        [none] { $there ->
            [none] { $amount } { $name } werden genommen, und das Buch hat an dem Tag nichts mehr davon; stimmt die Menge?
           *[other] { $amount } { $name } werden genommen, und das Buch hat an dem Tag noch { $there }; stimmt die Menge?
        }
       *[other] { $there ->
            [none] { $amount } { $name } werden genommen, und das Buch hat an dem Tag nichts mehr davon { $other }; stimmt die Menge?
           *[other] { $amount } { $name } werden genommen, und das Buch hat an dem Tag noch { $there } { $other }; stimmt die Menge?
        }
    }
doubt-apart-from = { $unit ->
        [none] (abgesehen von { $amount } davon)
       *[other] (abgesehen von { $amount } davon, bis croftbook item "{ $name }" --g-per "{ $unit } ..." sagt, was eines wiegt)
    }
doubt-out-of-jars = { $amount } { $name } kämen aus Gläsern, die am { $day } haltbar gemacht wurden ({ $method }): Sie tragen den Namen des Frischen, und das Älteste geht zuerst. Waren es diese Gläser? War es frisch, so tragt zuerst ein, woher es kam, oder nennt seinen Posten ("5 lb bean from lot 1a2b3c4d"); ein eigener Name für das Haltbare hält beides auseinander.
doubt-from-jars = es waren diese Gläser
doubt-quart-or-jar = { $amount } { $name }: Sind das { $jars } vom Haltbaren, wie sie im Regal stehen? War es frisch, so sagt sein Gewicht oder nennt seinen Posten.
doubt-count-from-jars = Die Zählung gilt allem, was den Namen { $name } trägt, und nähme { $jars } aus dem Regal, haltbar gemacht am { $day } ({ $method }){ $mark ->
        [none] {""}
       *[other] {", "}mit dem Zeichen: { $mark }
    }. Sind diese Gläser weg? Wurde nur das Frische gezählt, so zählt die Gläser daneben, in Gläsern. Wurden sie weggeworfen, so tragt das statt dessen ein (croftbook discard).
doubt-jars-gone = diese Gläser sind weg
doubt-unrecorded = es stimmt, und { $amount } zählt als unbekannt
doubt-far-more = { $amount } { $name } auf einmal; bisher höchstens eingetragen: { $most }. Stimmt die Menge?
doubt-dear = { $paid } für { $amount } { $name }: zum zuletzt gesehenen Preis wären es { $expected }; stimmt das?
doubt-taken = { $field }: { $question } Genommen: { $answer }
doubt-noted = { $field }: { $question }
doubt-on-line = Zeile { SAY($n, style: "plain") }: { $text }
doubt-adopted = { $piece ->
        [none] { $name } gilt als { $row } der Nährwerttabelle, geführt nach { $measure }; das ändert man mit: croftbook item "{ $name }" --food "anderer Name" --measure mass
       *[other] { $name } gilt als { $row } der Nährwerttabelle, geführt nach { $measure }, eines wiegt { $piece }; das ändert man mit: croftbook item "{ $name }" --food "anderer Name" --measure mass
    }
doubt-still-to-come = recorded_at: { $at } liegt noch in der Zukunft und bleibt so stehen: die Uhr, nach der es geschrieben wurde, ging vor, oder die dieses Rechners geht nach
doubt-no-head-beside = neben der Datei steht kein Prüfkopf (.head), deshalb weiß niemand, ob ihr Ende ganz ist
doubt-taken-as-jars = { $amount } { $name } gelten als { $jars }
doubt-kept-as-said = { $amount } { $name } bleibt, wie es gesagt wurde: Was 1 { $unit } davon wiegt, ist nicht bekannt; sagt es in Gramm mit: { $command }
doubt-measures-unset = Mengen stehen hier in Pfund (lb), Unzen und Quarts, bis es anders gesagt ist; auf Kilo und Liter stellt: { $command }
