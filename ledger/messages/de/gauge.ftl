# Prüfungen von Manometern, und was daran abgelehnt wird.

gauge-reads-nothing = { $name } zeigt nichts, was falsch gehen könnte: ein Gewichtsventil wird so nicht geprüft
    .wanted = Nennt den Einkochtopf mit dem Zeigermanometer, oder dial; berichtigt die Ansätze, bei denen ein Gewicht falsch war
gauge-no-reading = { $text } ist keine Anzeige
    .wanted = Schreibt es wie "+2 psi", wo es zwei zu viel zeigt, "-1 psi", wo es eins zu wenig zeigt
gauge-other-unit = { $text } ist in { $unit }, verglichen wird in psi
    .wanted = Das sind { $sign }{ $psi } psi: schreibt "{ $sign2 }{ $psi2 } psi", wenn das gemeint ist
gauge-not-psi = { $text } ist nicht in psi
    .wanted = Schreibt es wie "+2 psi", wo es zwei zu viel zeigt, "-1 psi", wo es eins zu wenig zeigt
gauge-no-direction = { $text } sagt nicht, ob zu viel oder zu wenig
    .wanted = Schreibt es wie "+2 psi", wo es zwei zu viel zeigt, "-1 psi", wo es eins zu wenig zeigt
gauge-both-directions = { $text } sagt zu viel und zu wenig zugleich
    .wanted = Schreibt es wie "+2 psi", wo es zwei zu viel zeigt, "-1 psi", wo es eins zu wenig zeigt
gauge-beyond-dial = { $text } ist mehr, als ein Zeiger von 0 bis { $most } psi falsch gehen kann
    .wanted = Schreibt nur, was es zu viel oder zu wenig zeigt, in psi
gauge-no-equipment = { $name } ist kein Gerät in diesem Buch
gauge-other-sort = { $sort ->
        [none] { $name } ist kein Gerät
       *[other] { $name } ist { $sort }, kein Gerät
    }
gauge-name-canner = { $near ->
        [none] Nennt einen Einkochtopf, den Ansätze nennen, oder schreibt dial
       *[other] Ist { $near } gemeint? Nennt sonst einen Einkochtopf, den Ansätze nennen, oder schreibt dial
    }
gauge-reads = { $way ->
        [right] { $by ->
            [none] Manometer { $name } zeigt richtig
           *[other] Manometer { $name } zeigt richtig (geprüft von { $by })
        }
        [low] { $by ->
            [none] Manometer { $name } zeigt { $n } psi zu wenig
           *[other] Manometer { $name } zeigt { $n } psi zu wenig (geprüft von { $by })
        }
       *[high] { $by ->
            [none] Manometer { $name } zeigt { $n } psi zu viel
           *[other] Manometer { $name } zeigt { $n } psi zu viel (geprüft von { $by })
        }
    }
gauge-was-off = { $what ->
        [read] { $name ->
            [none] Das Zeigermanometer zeigte bei der Prüfung am { DAY($day) } { $high } psi zu viel: { $read } psi darauf waren { $true } psi ({ $source }). Vor der nächsten Ladung ersetzen.
           *[other] Das Manometer von { $name } zeigte bei der Prüfung am { DAY($day) } { $high } psi zu viel: { $read } psi darauf waren { $true } psi ({ $source }). Vor der nächsten Ladung ersetzen.
        }
        [short] { $name ->
            [none] Das Zeigermanometer zeigte bei der Prüfung am { DAY($day) } { $high } psi zu viel; über 2 psi hinaus blieb die ganze Ladung darunter ({ $source }). Vor der nächsten Ladung ersetzen.
           *[other] Das Manometer von { $name } zeigte bei der Prüfung am { DAY($day) } { $high } psi zu viel; über 2 psi hinaus blieb die ganze Ladung darunter ({ $source }). Vor der nächsten Ladung ersetzen.
        }
        [both] { $name ->
            [none] Das Zeigermanometer zeigte bei der Prüfung am { DAY($day) } { $high } psi zu viel: { $read } psi darauf waren { $true } psi; über 2 psi hinaus blieb die ganze Ladung darunter ({ $source }). Vor der nächsten Ladung ersetzen.
           *[other] Das Manometer von { $name } zeigte bei der Prüfung am { DAY($day) } { $high } psi zu viel: { $read } psi darauf waren { $true } psi; über 2 psi hinaus blieb die ganze Ladung darunter ({ $source }). Vor der nächsten Ladung ersetzen.
        }
       *[plain] { $name ->
            [none] Das Zeigermanometer zeigte bei der Prüfung am { DAY($day) } { $high } psi zu viel ({ $source }). Vor der nächsten Ladung ersetzen.
           *[other] Das Manometer von { $name } zeigte bei der Prüfung am { DAY($day) } { $high } psi zu viel ({ $source }). Vor der nächsten Ladung ersetzen.
        }
    }
gauge-read-too-high = zu viel angezeigt, nach der Prüfung
gauge-true-pressure = wahrer Druck
gauge-no-pressure = kein Druck
