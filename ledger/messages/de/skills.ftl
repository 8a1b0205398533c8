# Was von Fertigkeiten gesagt wird: wie sie stehen, was sich änderte und worauf ihre Zahlen beruhen.
skills-practice = Verteilte Übung hält am längsten, ein misslungener Versuch zählt nicht, und was nur einmal getan wurde, ist bald fort: Es sitzt, solange gute Übungen es erhalten, von { $n } Tagen nach der ersten bis zu einem Jahr; es rostet ein bis zum Vierfachen davon, danach ist man aus der Übung.
skills-practice-source = Selbst gewählt, nach dem, was über das Vergessen veröffentlicht ist ({ SAY($source, style: "plain") }).
skills-season = Nach den Saisons ohne Übung beurteilt (eine: rostet ein, zwei: aus der Übung) werden das Anbauen, Ansätze vor allem aus Geerntetem, und was in zwei Jahren oder mehr nur in der einen Jahreshälfte vorkam. Das haben wir selbst gewählt.
skills-minutes-for-one = Minuten je Stück: alle Arbeit eines Ansatzes durch das, was er ergab. Die Lernrate passt Minuten = erstes Mal x n^b daran an, jeder Eintrag eine Wiederholung, ab fünf Ansätzen, mit ihrer Spanne von 95 Prozent.
skills-unnamed = Einträge, die weder Arbeit noch Schreibende nennen, zählen nur für den Haushalt: Nennt Personen bei der Arbeit oder unter Wer schreibt.
skills-curve = Angepasst: Minuten je Stück = erstes Mal x n^b, nach kleinsten Quadraten der Logarithmen; jeder Eintrag, der die Fertigkeit übt, ist eine Wiederholung, mit Minuten oder ohne. Die Spanne ist die der Kurve, 95 Prozent nach Students t.
skills-one-in-hand = Sitzt.
skills-all-in-hand = Alles sitzt.
skills-in-danger = { $n ->
        [one] Hier zählt allein die Übung: Der einzige Ansatz ({ $skill }) steht in Gefahr ({ LIST($list, type: "commas") }).
       *[other] Hier zählt allein die Übung: Alle { $n } Ansätze ({ $skill }) stehen in Gefahr ({ LIST($list, type: "commas") }).
    }
skills-none = Noch ist nichts Geübtes eingetragen.
skills-never-tried = Nie versucht: { LIST($list, type: "commas") }.
skills-out-of-practice = Aus der Übung: { LIST($list, type: "commas") }.
skills-going-rusty = Rostet ein: { LIST($list, type: "commas") }.
skills-out-of-practice-in-it = Darin aus der Übung: { LIST($list, type: "commas") }.
skills-going-rusty-in-it = Darin rostet ein: { LIST($list, type: "commas") }.
skills-held-by-one = Nur in einer Hand: { LIST($list, type: "commas") }.
skills-not-practised = Nicht geübt in { SAY($n, style: "plain") }: { LIST($list, type: "commas") }.
skills-wanted = Gewünscht und noch nicht erreicht: { LIST($list, type: "commas") }.
skills-wanted-and-done = Gewünscht und getan: { LIST($list, type: "commas") }.
skills-done-of = { $per ->
        [year] { $skill } { $n } von { $n2 } in diesem Jahr
        [week] { $skill } { $n } von { $n2 } in dieser Woche
        [person-year] { $skill } { $n } von { $n2 } je Person in diesem Jahr
       *[once] { $skill } { $n } von { $n2 }
    }
skills-better = Ging zuletzt besser: { LIST($list, type: "commas") }.
skills-worse = Ging zuletzt schlechter: { LIST($list, type: "commas") }.
skills-went = { $skill } ({ $n } nach { $n2 } von 5)
skills-quicker = Schneller mit Übung (Minuten je Stück, mit jeder Verdopplung der Ansätze): { LIST($list, type: "commas") }.
skills-slower = Langsamer von Mal zu Mal (Minuten je Stück, mit jeder Verdopplung der Ansätze): { LIST($list, type: "commas") }.
skills-as-quick = Weder sicher schneller noch langsamer (Minuten je Stück, mit jeder Verdopplung der Ansätze): { $skill }.
skills-rate = { $skill } auf { $n } % ({ $n2 } bis { $n3 })
skills-seasons-missed = { $n ->
        [0] seine Saison verging nicht ohne
        [one] eine Saison verging ohne
       *[other] { $n } Saisons vergingen ohne
    }
skills-keeps = { $n ->
        [one] gelang einmal, was { $days ->
                [one] 1 Tag
               *[other] { $days } Tage
            } vorhält
       *[other] gelang { $n }-mal, was { $days ->
               [one] 1 Tag
              *[other] { $days } Tage
           } vorhält
    }
skills-last = { $n ->
        [0] zuletzt heute
        [one] zuletzt gestern
       *[other] zuletzt vor { $n } Tagen
    }
skills-failed-lately = { $n ->
        [one] der letzte Versuch misslang
       *[other] die letzten { $n } Versuche misslangen
    }
skills-none-well = { $n ->
        [one] einmal versucht, und es gelang nicht
       *[other] { $n }-mal versucht, keinmal gelang es
    }
skills-no-practice = keine Übung eingetragen
skills-twice-the-batches = Doppelt so viele Ansätze brauchen { $n } % der Minuten je { $unit } ({ $n2 } bis { $n3 } %), nach { $n4 } Ansätzen.
skills-next-one = Die nächste: { $n } Minuten je { $unit }, am ehesten zwischen { $n2 } und { $n3 } (19 von 20).
skills-too-few-batches = { $n } von mindestens { $n2 } Ansätzen von { $name } haben Arbeitsminuten und eine Menge: Tragt zu jedem Ansatz die Arbeit ein (`croftbook putup`)
skills-no-curve = { $name } hat keine Lernkurve: Nur Ansätze sagen, wie viel in der Zeit entstand
skills-several = { $name } hat keine Lernkurve, da Verschiedenes verschieden lange dauert: Fragt nach einem davon, etwa { $item }
skills-misnamed = { $name } wurde unter diesem Namen nie geübt, aber { $other }: Setzt das Ziel für diesen Namen, wenn es dasselbe ist
skills-growing = { $crop } anbauen
