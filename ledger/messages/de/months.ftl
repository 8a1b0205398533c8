months-things-months-writes-them-calendar = { $n ->
        [one] 1 Ding
       *[other] { $n } Dinge
    } in { $n2 ->
            [one] 1 Monat
           *[other] { $n2 } Monaten
        }. `croftbook calendar FILE.ics` schreibt sie für einen Kalender.
months-no-day-put-up-set = Für { LIST($names, type: "commas") } ist kein Tag zum Einmachen gesetzt: Kein eigener Ansatz steht wie veröffentlicht da.
months-nothing-planned-plantings-frost-days = Nichts ist geplant: Pflanzungen, Frosttage, Ansätze und Fristen bringen es.
months-how-long-how-hot-how = Wie lange, wie heiß und wie viel Säure, steht hier nicht: Haltet euch an die veröffentlichte, geprüfte Vorschrift für Glas und Höhe (`croftbook show as-published`).
months-eat-first-what-passes-date = Zuerst essen: was binnen { $n } Tagen seine Frist erreicht, je Ding; Gläser mit Zeichen bleiben weg.
months-dial-gauge-tested-each-year = Ein Zeigermanometer wird jedes Jahr vor der Saison geprüft (Rat der Beratungsdienste); der Tag liegt ein Jahr nach der letzten Prüfung.
months-eat-last-day = { $name } essen: letzter Tag
months-have-gauge-tested = das Manometer von { $name } prüfen lassen
months-start-indoors = { $crop } drinnen vorziehen
months-practise-before-goes-rusty = { $skill } üben, ehe es einrostet
months-sow-again = { $crop } wieder säen
months-outdoors = { $crop } ab jetzt { $how ->
    [out] auspflanzen
   *[sow] draußen säen
}{ $soil ->
    [none] { "" }
   *[other] , Boden mindestens { $soil } °F
}
months-last = letzte Saat { $crop }{ $where ->
    [in] , drinnen
   *[out] { "" }
}
months-put-up = { $name } einmachen: { $makes } aus { $takes }{ $loads ->
    [none] { "" }
    [one] , { $loads } Topffüllung
   *[other] , { $loads } Topffüllungen
}
