glut-household = der Haushalt
glut-no-batch-your-own-stands = { $name }: kein eigener Ansatz steht wie veröffentlicht da
glut-no-empty-jar-book-can = { $name }: kein leeres Glas steht im Buch, um es einzukochen
glut-if-nothing-done-kg-lost = Wird nichts getan, gehen in diesen { $n2 } Tagen { $n } kg verloren; mit diesem Plan { $n3 } kg.
glut-put-up-kg-hours-eaten = Eingemacht { $n } kg in { $n2 ->
        [one] 1 Stunde
       *[other] { $n2 } Stunden
    }, gegessen { $n3 } kg, weggegeben { $n4 } kg.
glut-printed = Gedruckt für { $name }: { $name2 }.
glut-nothing-garden-here-due-these = Nichts aus dem Garten ist da oder kommt in diesen zehn Tagen, was sich nicht hielte.
glut-only-printed-processes-planned-looked = Geplant werden nur gedruckte Vorschriften, nachgeschlagen für Höhe { $amount } und Manometer { $gauge }; eine Zeile ist eine Erinnerung und nicht das Ganze: Lest zuerst das aktuelle Dokument und die Anleitung des Topfs (`croftbook show as-published`).
glut-what-comes-mean-same-days = Was kommt, ist das Mittel derselben Tage früherer Jahre, gleichmäßig verteilt; das Wetter ist nicht bekannt.
glut-each-day-hours-hands-stove = Jeden Tag { $n } Stunden Hände und { $n2 } Stunden Herd (`--hours`, `--stove`); { $n3 } Deckel, { $n4 } lb Raum im Gefrierschrank und { $n5 } lb Neues am Tag hinein (2 lb je Kubikfuß); Anheizen und Abkühlen 30 und 45 Minuten (übliche Praxis, aus dem Gedächtnis).
glut-eating-comes-before-putting-up = Essen geht vor Einmachen, das vor Weggeben, das vor Verlieren; mehr als das Jahr noch braucht, wird nicht eingemacht.
glut-fresh = frisch
glut-hours = Stunden
glut-plan-choice = { DAY($day) }, Wahl des Plans
glut-no-batch-your-own-stands-2 = { LIST($names, type: "commas") }: kein eigener Ansatz steht wie veröffentlicht da, so sind sie geplant, wie die Tabellen es drucken; Pfund je Glas nach deren Topffüllungen, nicht mehr als der Plan des ersten Jahres will (`croftbook show first-year`), wo er sie nennt.
glut-fresh-keeps = Frisch hält es: { $list }.
glut-nobody-three-days = niemand: drei Tage werden genommen
glut-not-planned-for-canning = Nicht zum Einkochen geplant, weil nur veröffentlichte Vorschriften zählen: { $list }. Es bleiben Einfrieren, Trocknen, Essen und Weggeben.
glut-no-better-plan = In zehn Sekunden fand sich kein besserer Plan; es mag einen geben.
glut-keeps-days = { $name } { $n ->
        [one] 1 Tag
       *[other] { $n } Tage
    } ({ $by })
glut-not-set = nicht eingestellt
glut-hours-are-a-guess = Stunden, die nicht aus dem eigenen Buch sind, sind eine Schätzung ohne Quelle.
glut-units-of-plan = { $counted ->
    [jar] Gläser des Plans
   *[kg] kg des Plans
}
glut-loads-of-plan = Topffüllungen des Plans
glut-still-wanted = vom Jahr gebraucht, ohne was da ist
glut-fresh-by-loads = frisch für eines, nach veröffentlichten Topffüllungen ({ $source })
glut-freeze-keeps = einfrieren, hält { $life }; blanchieren oder packen wie veröffentlicht
glut-no-loads = kein Einkochtopf nötig
glut-hands-a-day = Stunden aller Hände am Tag, wie gefragt
glut-stove-a-day = Stunden des Herds am Tag, wie gefragt
glut-picked-earlier = an denselben Tagen eines früheren Jahres geerntet
glut-not-wanted = kein eigener Ansatz sagt, was das Jahr braucht
glut-no-hours = braucht keine Stunden
