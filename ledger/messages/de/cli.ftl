# Was die Befehle selbst ausgeben und fragen.

cli-version = croftbook, Version { $version }
cli-stopped = Abgebrochen; nichts ist halb eingetragen.
cli-should-not = Etwas ging schief, was nicht sollte ({ $error }). Nichts ist halb eingetragen. { $where }
cli-no-report = Mit CROFTBOOK_DEBUG=1 noch einmal versucht, zeigt sich, wo.
cli-report = Bitte schickt den Bericht in { $file } an die Leute, die das Programm pflegen.
cli-note = Hinweis: { $text }
cli-warning = Warnung: { $text }
cli-book-empty = Euer Buch ist leer. Tragt zuerst etwas ein, zum Beispiel: croftbook harvest "31 lb plum"
cli-entries-done = { $n ->
        [one] { $label }: 1 Eintrag
       *[other] { $label }: { $n } Einträge
    }
cli-reading = Das Buch wird gelesen
cli-and-more = und { $n ->
        [one] 1 weiteres
       *[other] { $n } weitere
    }

## Fragen am Terminal

cli-yes-no = { $default ->
        [yes] J/n
       *[no] j/N
    }
cli-yes = j ja y yes
cli-no = n nein no
cli-yes-or-no = Bitte j oder n.
cli-one-of = Möglich sind: { $known }
cli-for-example = { $label } (z. B. { $example })
cli-takes = { $text } ({ $by } nimmt: { $offered })

## Sagen und antworten

cli-what-happened = Was ist geschehen?
cli-what-happened-next = Was ist geschehen? (Eingabetaste: fertig)
cli-nothing-to-write = Es gibt nichts einzutragen.
cli-say-open = offen: { $question } (croftbook answer)
cli-did-not-happen = „{ $words }“ ist nicht geschehen: weglassen?
cli-no-place = „{ $words }“ fand keinen Platz:
cli-into-note = in die Notiz
cli-leave-out = weglassen
cli-none-open = Keine Frage ist offen.
cli-answer-how = Antworten mit: croftbook answer NUMMER "ANTWORT"   (- wenn es niemand weiß)
cli-answer-later = { $question } (Eingabetaste: später)
cli-taken-back = zurückgenommen: { $day }, { $what }
cli-undo-more = { $n ->
        [one] 1 Eintrag, der zugleich geschrieben wurde, steht noch; { $command } nimmt ihn zurück.
       *[other] { $n } Einträge, die zugleich geschrieben wurden, stehen noch; { $command } nimmt den nächsten zurück.
    }

## Was ansteht

cli-due-empty = Euer Buch ist leer.
cli-due-nothing = In eurem Buch ist noch nichts geschehen.
cli-first-say-once = Sagt einmal, was ihr wisst; jedes darf fehlen:
cli-first-people = wie viele an eurem Tisch essen
cli-first-measures = us, uk oder metric; us, wenn nichts gesagt ist
cli-first-language = Zahlen, Namen und Wörter werden deutsch gelesen
cli-first-currency = in welchem Geld ihr rechnet; USD, wenn nichts gesagt ist
cli-first-altitude = danach richten sich Minuten und Druck beim Einkochen
cli-first-gauge = am Druckeinkochtopf: dial (Zeiger) oder weighted (Gewicht)
cli-first-pantry = croftbook say "es sind 12 Quartgläser Tomatensauce, 10 kg Mehl, 36 Eier da"
cli-first-then = Dann tragt ein, was geschah, in euren Worten, und fragt:
cli-first-picked = croftbook say 14 kg Zwetschgen geerntet
cli-first-look-round = Oder seht euch erst um: `croftbook demo` öffnet einen erfundenen Haushalt; euer Buch bleibt, wie es ist.
cli-first-pages = Die Seiten, auf diesem Rechner: `croftbook serve`; alle Befehle: `croftbook --help`.
cli-due-undo = Den letzten Eintrag nimmt `croftbook undo` zurück; alle Befehle: `croftbook --help`.
cli-due-none = Diese Woche muss nichts weg.
cli-due-these = Diese Woche zu verbrauchen oder zuerst anzusehen:
cli-due-by = bis { $day }
cli-due-more = und { $n ->
        [one] 1 weiteres: croftbook show shelf
       *[other] { $n } weitere: croftbook show shelf
    }
cli-due-open = Offene Fragen: { $n } (croftbook questions), die erste: { $first }
cli-spent-unknown = ({ $n } ohne Preis)
cli-spent-all = zusammen, { $currency }, { $first } bis { $last }
cli-between-gave = An { $person } gegeben:
cli-between-got = Von { $person } bekommen:
cli-between-all = zu Ladenpreisen: { $total } { $currency }, Geld: { $money }
cli-no-price = kein Preis bekannt

## Nach einem Eintrag

cli-last-time = beim letzten Mal ({ $day }): { $note }
cli-more-lines = und { $n ->
        [one] 1 weitere Zeile
       *[other] { $n } weitere Zeilen
    }
cli-new-item = { $name } ist neu. In der Nährwerttabelle könnte das sein: { $command }
cli-own-weight = { $amount } nach eigenem Gewicht
cli-out-of-lot = aus Posten { $lot }
cli-lot = Posten { $lot }
cli-unsealed = { $n } nicht dicht, { $lot }

## Ein Ansatz

cli-putup-ask = Diesen Ansatz eintragen?
cli-putup-ask-danger = Eintragen, dass es so gemacht wurde?
cli-putup-marked = Was haltbar gemacht wurde, trägt ein Zeichen: { $mark }.
cli-putup-schedule = Veröffentlichte Vorschrift: { $standing }
cli-plan-takes = { $item }, das { $times }-Fache des Rezepts braucht:
cli-plan-there = { $there ->
        [none] nichts da
       *[other] { $there } da
    }
cli-plan-jars = { $jars } ({ $empty } leer), { $n } × { $lid } ({ $lids } da)
cli-plan-loads = { $n ->
        [one] 1 Füllung des Topfs zu je { $each }
       *[other] { $n } Füllungen des Topfs zu je { $each }
    }
cli-cost = { $bound ->
        [least] { $each ->
            [none] { $what }: mindestens { $whole } { $currency } im Ganzen, davon { $pocket } bar bezahlt
           *[other] { $what }: mindestens { $each } je Glas, { $whole } { $currency } im Ganzen, davon { $pocket } bar bezahlt
        }
       *[exact] { $each ->
            [none] { $what }: { $whole } { $currency } im Ganzen, davon { $pocket } bar bezahlt
           *[other] { $what }: { $each } je Glas, { $whole } { $currency } im Ganzen, davon { $pocket } bar bezahlt
        }
    }
cli-cost-no-jars = nicht in Gläsern
cli-cost-quart = ; ein Quart { $own }, im Laden { $shop }
cli-cost-litre = ; ein Liter { $own }, im Laden { $shop }
cli-cost-unpriced = kein Preis ist bekannt von { LIST($names, type: "commas") }
cli-before-head = { $altitude ->
        [none] { $gauge ->
            [none] { $item }, wie veröffentlicht (Höhe nicht eingestellt, Manometer nicht eingestellt):
            [dial] { $item }, wie veröffentlicht (Höhe nicht eingestellt, Zeigermanometer):
           *[weighted] { $item }, wie veröffentlicht (Höhe nicht eingestellt, Gewichtsventil):
        }
       *[other] { $gauge ->
            [none] { $item }, wie veröffentlicht (Höhe { $altitude }, Manometer nicht eingestellt):
            [dial] { $item }, wie veröffentlicht (Höhe { $altitude }, Zeigermanometer):
           *[weighted] { $item }, wie veröffentlicht (Höhe { $altitude }, Gewichtsventil):
        }
    }
cli-before-nothing = Nichts wurde eingetragen.

## Dateien

cli-importing = Einlesen
cli-exporting = Ausgeben
cli-checking = Prüfen
cli-import-bad = { $file }, Zeile { $n }: { $problem }
cli-import-more-bad = und { $n ->
        [one] 1 weitere schlechte Zeile
       *[other] { $n } weitere schlechte Zeilen
    }
cli-import-more-notes = und { $n ->
        [one] 1 weiterer Hinweis
       *[other] { $n } weitere Hinweise
    }
cli-import-nothing = Nichts wurde eingetragen: { $bad } schlechte Zeilen, { $good } gute. Bringt die genannten Zeilen in Ordnung und lest noch einmal ein, oder nehmt --keep-good.
cli-import-done = { $doing ->
        [would] { $n } Einträge würden eingetragen, { $items } neue Dinge beschrieben, { $known } schon bekannt, { $bad } schlechte Zeilen.
       *[did] { $n } Einträge eingetragen, { $items } neue Dinge beschrieben, { $known } schon bekannt, { $bad } schlechte Zeilen.
    }
cli-exported = { $n } Einträge nach { $file } geschrieben; der Prüfkopf steht in { $file }.head
cli-export-fault = Warnung: Das Buch ist nicht heil und der Export daher auch nicht. { $fault }
cli-calendar-done = { $file }: { $new } neu, { $changed } geändert, { $cancelled } abgesagt, { $same } wie sie waren.
cli-sheet-written = { $n } Einträge aus { $rows } Zeilen eingetragen.
cli-sheet-rest = Was nicht übernommen wurde, steht in { $file }: Bringt es dort in Ordnung und lest diese Datei ein.
cli-sheet-name = Blatt „{ $name }“
cli-sheet-one = Ein Blatt allein: --sheet NAME
cli-sheet-understood = Verstanden: { $n }
cli-sheet-asked = Gefragt: { $n }
cli-sheet-open = Offen: { $n }
cli-sheet-not-taken = Nicht übernommen: { $n }
cli-sheet-skipped = Übergangen (Titel, Überschriften, Summen): { $n }
cli-sheet-row = Zeile { $n }: { $text }

## Ein Buch verwahren

cli-check-next = Was nun: Setzt die neueste Sicherung mit `croftbook restore DATEI` an die Stelle des Buchs (das alte wird beiseitegelegt und geht nicht verloren; --dry-run zeigt vorher, was geschähe).
cli-check-hold = { $n ->
        [one] 1 Eintrag hält.
       *[other] { $n } Einträge halten zusammen.
    }
cli-check-hold-from-first = { $n ->
        [one] 1 Eintrag hält, vom ersten an.
       *[other] { $n } Einträge halten zusammen, vom ersten an.
    }
cli-check-end-known = Am Ende fehlt nichts: Es ist das, das hier bekannt ist.
cli-check-end-unknown = Ob am Ende Einträge fehlen, lässt sich nicht sagen: Kein Prüfkopf dieses Buchs liegt hier. Ist einer notiert, vergleicht ihn: croftbook check --head "NUMMER ZIFFERN". Soll dieses Ende von nun an als das richtige gelten: croftbook check --accept
cli-check-note = Hinweis: { $text }.
cli-check-unread = Nicht gelesen, weil dieses Programm es nicht kennt: { $what }. Ein neueres Croftbook liest es.
cli-check-balanced = Jede Menge, die hereinkam, ist da oder ging hinaus.
cli-check-head = Prüfkopf zum Notieren: { $head }
cli-backup-done = { $n ->
        [one] 1 Eintrag nach { $file } kopiert und zurückgelesen; der Prüfkopf steht in { $file }.head
       *[other] { $n } Einträge nach { $file } kopiert und zurückgelesen; der Prüfkopf steht in { $file }.head
    }
cli-restore-ask = An die Stelle des Buchs setzen?
cli-restore-hold = { $doing ->
        [would] { $of ->
            [none] { $n } Einträge halten zusammen und wären im Buch.
           *[other] { $n } Einträge von { $of } halten zusammen und wären im Buch.
        }
       *[did] { $of ->
            [none] { $n } Einträge halten zusammen und sind im Buch.
           *[other] { $n } Einträge von { $of } halten zusammen und sind im Buch.
        }
    }
cli-restore-lost = { $doing ->
        [would] { $of ->
            [none] { $n ->
                [one] 1 Eintrag, den die Kopie nicht enthält, stünde nur noch im beiseitegelegten Buch.
               *[other] { $n } Einträge, die die Kopie nicht enthält, stünden nur noch im beiseitegelegten Buch.
            }
           *[other] { $n ->
                [one] 1 Eintrag von { $of }, den die Kopie nicht enthält, stünde nur noch im beiseitegelegten Buch.
               *[other] { $n } Einträge von { $of }, die die Kopie nicht enthält, stünden nur noch im beiseitegelegten Buch.
            }
        }
       *[did] { $of ->
            [none] { $n ->
                [one] 1 Eintrag, den die Kopie nicht enthält, steht nur noch im beiseitegelegten Buch.
               *[other] { $n } Einträge, die die Kopie nicht enthält, stehen nur noch im beiseitegelegten Buch.
            }
           *[other] { $n ->
                [one] 1 Eintrag von { $of }, den die Kopie nicht enthält, steht nur noch im beiseitegelegten Buch.
               *[other] { $n } Einträge von { $of }, die die Kopie nicht enthält, stehen nur noch im beiseitegelegten Buch.
            }
        }
    }
cli-restore-nothing = Nichts wurde angerührt.
cli-restore-aside = Das alte Buch liegt beiseite als { $file }

## Der Beispielhaushalt, und eine Zeile der Tabelle

cli-building-demo = Der Beispielhaushalt wird gebaut
cli-demo-there = In { $where } ist schon ein Buch; es wird gezeigt, wie es ist.
cli-demo-book = Das Beispielbuch ist { $where }. Mehr fragen: croftbook show shelf --book { $where }
cli-demo-sauce = Was { $item }, selbst gemacht, gekostet hat, Ansatz für Ansatz, und was der Laden für dasselbe verlangte
cli-demo-shelf = Was im Vorrat ist
cli-row = Zeile { $n } von { $question }, Stand { $day }

## Eine Gruppe von Haushalten

cli-circle-ask = Diese Zahlen nach { $file } schreiben?
cli-circle-hand-over = Gebt das der Person, die die Bögen sammelt: Dann wird eurer gelöscht.
cli-circle-begun = Gebt { $file } jedem Haushalt, mit je einer Karte: { $command }
cli-circle-refused = abgelehnt: { $text }
cli-circle-gathered = { $n ->
        [one] 1 Bogen gesammelt; kein Eintrag eines Buchs ging mit
       *[other] { $n } Bögen gesammelt; kein Eintrag eines Buchs ging mit
    }
cli-circle-page = Die Seite: { $file } (im Browser öffnen oder drucken). Ein Haushalt neben der Klasse: { $command }
cli-circle-left-out = ausgelassen: { $text }
cli-circle-failed = misslungen: { $text }
cli-steps = { $label }: { $done } von { $of }
cli-steps-building = Bücher werden gebaut und Bögen gemacht
cli-steps-making = Bögen werden gemacht
cli-drawn = { $name }, das Älteste zuerst: { LIST($lots, type: "commas") }. Soll es das vom { DAY($day) } sein: undo, und dann „heutige“ dazusagen
cli-drawn-lot = { $amount } vom { DAY($day) }
cli-beside-line = { $said ->
        [none] Zeile { $n }
       *[other] Zeile { $n }, { $said }
    }
