sowing-no-last-spring-frost-written = Kein letzter Frost im Frühling ist eingetragen, so gibt es Wochen und keine Tage: `croftbook frost "last of spring" --seen 2026-05-10`.
sowing-left-out-spring-frost-not = Weggelassen, weil der Frühlingsfrost nicht vor dem im Herbst liegt: { $list }. Berichtigt den falschen Eintrag.
sowing-table-does-not-say-when = Die Tabelle sagt nicht, wann { LIST($names, type: "commas") } gesät werden.
sowing-no-day-sow-table-has = Kein Tag zum Säen für { LIST($names, type: "commas") }: Die Tabelle hat Tage bis zur Ernte und keine Wochen nach dem Frost.
sowing-seed-not-tested-lay-out = Saatgut von { LIST($names, type: "commas") } ist nicht geprüft: Legt 20 Samen aus und tragt ein, wie viele keimten: `croftbook seed CROP --sown 20 --sprouted N`.
sowing-no-crop-planted-yet-no = Noch wurde keine Kultur gepflanzt, und kein Plan hat eine.
sowing-weeks-soil-days-those-extension = Wochen, Boden und Tage sind die von Tabellen der Beratungsdienste, einige aus schwachen Abschriften; die Tage der Tüte gehen vor.
sowing-last-sowing-days-harvest-shorter = Letzte Saat: Tage bis zur Ernte, 14 für die kürzeren Tage, das Ernten, und 14 mehr für Frostempfindliches (Herbstformel aus Virginia).
sowing-what-picked-again-again-picked = Was immer wieder gepflückt wird, wird drei Wochen gepflückt, sonst lohnt die Saat nicht (übliche Praxis, ohne Quelle).
sowing-sprouted = gekeimt
sowing-germination = Keimung
sowing-plants-plan = Pflanzen des Plans
sowing-plants-germination = Pflanzen durch Keimung
sowing-seeds-wanted = nötige Samen
sowing-order = zu bestellen
sowing-days-harvest-middle-table = Tage bis zur Ernte (die Mitte der Angaben der Tabelle)
sowing-table-sowing = Saattabelle
sowing-seeds-left = Samen übrig
sowing-end-per-cent-range-wilson = Ende der Spanne von 95 Prozent (Wilson)
sowing-laid-out = ausgelegt
sowing-not-known = nicht bekannt
sowing-nothing-order = nichts zu bestellen
sowing-frost = { $of ->
    [spring] Letzter Frost im Frühling
   *[fall] Erster Frost im Herbst
}: { DAY($day) } ({ $of ->
    [spring] { $share ->
        [none] der späteste
       *[other] in { $share } % der Jahre später
    }
   *[fall] { $share ->
        [none] der früheste
       *[other] in { $share } % der Jahre früher
    }
}; { $n } eigene Jahre).
sowing-no-fall-frost = Kein erster Frost im Herbst ist eingetragen, so gibt es keine letzte Saat: `croftbook frost "first of fall" --seen 2026-10-01`.
sowing-few-years = Weniger als zehn Jahre { $of ->
    [spring] Frühlingsfröste
    [fall] Herbstfröste
   *[spring-fall] Frühlings- und Herbstfröste
} sind bekannt: Der schlimmste wird genommen.
sowing-risk = Frosttage streuen normal um ihr Mittel; das Risiko sind { $n } % der Jahre.
sowing-shorter-days = kürzere Tage im Herbst (Formel aus Virginia)
sowing-picking = das Ernten (übliche Praxis, ohne Quelle)
sowing-frost-kills = frostempfindlich
sowing-to-setting-out = von der Saat bis zum Auspflanzen
sowing-last-before-frost = letzte Saat vor dem ersten Frost im Herbst
sowing-no-test = keine Probe ist eingetragen
sowing-seeds-left-unknown = übrige Samen sind nicht eingetragen
sowing-days-of-packet = Tage bis zur Ernte (Tüte)
sowing-days-unknown = Tage bis zur Ernte sind nicht bekannt
sowing-table-low = Tabelle, unten
sowing-table-high = Tabelle, oben
sowing-days-before-harvest = { $n } bis { $n2 } Tage vor der Ernte; die Tabelle nennt keine Wochen
sowing-indoors-then = drinnen { $n } bis { $n2 } Wochen vor dem letzten Frost, dann { $out }
sowing-out-from = { $how ->
        [set-out] auspflanzen { $when }
       *[sow] säen { $when }
    }
sowing-frost-on = ab dem letzten Frost
sowing-frost-weeks = { $side ->
        [before] { $n ->
            [one] ab { $n } Woche vor dem letzten Frost
           *[other] ab { $n } Wochen vor dem letzten Frost
        }
       *[after] { $n ->
            [one] ab { $n } Woche nach dem letzten Frost
           *[other] ab { $n } Wochen nach dem letzten Frost
        }
    }
sowing-seed-meets = erreicht die Norm
sowing-seed-below = unter der Norm
sowing-seed-old = { $n ->
        [one] 1 Jahr
       *[other] { $n } Jahre
    } alt, hält { $span }: 20 Samen keimen lassen
sowing-weeks-to-set-out = Wochen von der Saat bis zum Auspflanzen
sowing-not-in-table = die Tabelle nennt es nicht
sowing-not-planned = der Plan hat keine Pflanzen davon
