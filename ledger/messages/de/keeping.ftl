keeping-nothing-discarded-takes-what-lost = Nichts wurde weggeworfen: `croftbook discard` nimmt auf, was verloren ging und warum.
keeping-money-hours-what-had-gone = Geld und Stunden sind, was hineingegangen war; verfütterter Überfluss ist hier ein Verlust an Essen, was er auch an Futter sparte.
keeping-losses-written-down-from-ten = { $n ->
        [one] 1 Verlust ist
       *[other] { $n } Verluste sind
    } eingetragen; ab zehn von einem Ding und Ort zählt die eigene Kurve.
keeping-still-good = nicht verdorben
keeping-failed = verdorben
keeping-reckon = zu rechnen
keeping-no-food-came-yet = Noch kam kein Essen herein.
keeping-survival-product-limit-estimate-error = Haltbarkeit nach der Produkt-Grenzwert-Schätzung, ihr Fehler nach Greenwood; was gegessen, weggegeben, kompostiert, verfüttert wurde oder noch da ist, zählt in seinem Alter als nicht verdorben; über Sicherheit sagt das nichts.
keeping-published-life-never-lengthened-jar = Eine veröffentlichte Haltbarkeit wird nie verlängert: Die Frist des Glases, die Monate der Tabelle und der Rat gehen vor, was auch immer hier länger hielt.
keeping-what-kept-weight-volume-each = Von dem, was nach Gewicht oder Rauminhalt geführt wird, zählt jede Entnahme als eine.
keeping-nothing-failed = nichts verdarb
keeping-good-this-age = in diesem Alter nicht verdorben
keeping-published = veröffentlicht
keeping-seen = gesehen
keeping-greenwood-standard-error = Standardfehler nach Greenwood
keeping-area-under-curve = Fläche unter der Kurve
keeping-there = vorhanden
keeping-too-few = zu wenige, um etwas zu sagen
keeping-half-failed = Alter, in dem die Hälfte verdorben war
keeping-first-hint = { $n } verdorben: ein erster Hinweis
keeping-more-than-half = mehr als die Hälfte bis zuletzt nicht verdorben: mindestens { $n ->
        [one] 1 Tag
       *[other] { $n } Tage
    }
keeping-published-stands = hielt hier länger; die veröffentlichte Haltbarkeit gilt
keeping-half-good = die Hälfte war { $n ->
        [one] 1 Tag
       *[other] { $n } Tage
    } lang nicht verdorben
keeping-good = nicht verdorben
keeping-day = Tag { $n }
keeping-nothing-seen-good = es gab nichts, das nicht verdorben war
keeping-still-there = noch da
keeping-nothing-published = nichts ist veröffentlicht
keeping-neither-known = keines ist bekannt
keeping-nothing-left = nichts ist übrig
keeping-no-batch = nicht in einem Ansatz gemacht
keeping-lost = { $item }, { $cause }
