eaters-how-many-eat-not-said = Wie viele essen, ist nicht gesagt: Die Antwort gilt für eine Person. `croftbook setting people 6` sagt es.
eaters-need-household = Bedarf des Haushalts
eaters-no-verdict-given-infants-not = Für Säuglinge gibt es kein Urteil: { LIST($names, type: "commas") } zählt nicht mit.
eaters-energy-from-calorie-table-remembered = Die Energie von { LIST($names, type: "commas") } stammt aus der Kalorientabelle, wie sie erinnert, nicht gelesen wurde: höchstens 132 kcal neben der veröffentlichten Gleichung. Gewicht und Größe geben sie nach dieser Gleichung.
eaters-people-no-known-age = Personen ohne bekanntes Alter
eaters-one-adult-assumed = eine erwachsene Person, angenommen
eaters-needs-one-day-table = Bedarf eines Tages, für { $n } am Tisch.
eaters-nobody-described-says-who-eats = Niemand ist beschrieben: `croftbook person Ada --sex female --age 39` sagt, wer isst.
eaters-full-years = volle Jahre
eaters-doctor = Das stellt vorhandenes Essen neben Tabellen für gesunde Menschen. Schwangerschaft, Krankheit, Diäten und Säuglinge sind Sache einer Ärztin oder eines Arztes.
eaters-by-reference-weight = nach dem Bezugsgewicht von 12 kg
eaters-by-calorie-table = nach der Kalorientabelle
eaters-by-weight-and-height = nach Gewicht und Größe
eaters-need-of = { $name } ({ $by })
eaters-group = { $who ->
    [males] männlich { $low }–{ $high }
    [females] weiblich { $low }–{ $high }
    [pregnancy] schwanger { $low }–{ $high }
    [lactation] stillend { $low }–{ $high }
   *[children] Kinder { $low }–{ $high }
}
eaters-group-of = { $who ->
    [males] männlich { $ages }
    [females] weiblich { $ages }
    [pregnancy] schwanger { $ages }
    [lactation] stillend { $ages }
   *[children] Kinder { $ages }
}
eaters-group-over = { $who ->
    [males] männlich über { $ages }
   *[females] weiblich über { $ages }
}
eaters-kind-of-need = { $kind ->
    [RDA] empfohlene Zufuhr
   *[AI] angemessene Zufuhr
}, { $group }
eaters-no-ages = Von { $n } am Tisch ist kein Alter bekannt: Jede Person zählt { $kcal } kcal und den Bedarf von 19 bis 50 Jahren, im Mittel beider Geschlechter. `croftbook person` sagt, wer isst.
eaters-since-when = Seit wann { $name } { $state ->
    [pregnant] schwanger ist, ist nicht gesagt: Die mittleren drei Monate werden genommen.
   *[nursing] stillt, ist nicht gesagt: Das erste halbe Jahr wird genommen.
}
eaters-down-as = { $name } steht seit { $n ->
        [one] 1 Tag
       *[other] { $n } Tagen
    } als { $state ->
    [pregnant] schwanger
   *[nursing] stillend
} im Buch: Sagt neu, wie es ist.
eaters-of-table = { $by }
eaters-people = Personen
eaters-people-set = Personen am Tisch, wie eingestellt
eaters-people-described = beschriebene Personen
eaters-age = Alter
eaters-age-said = wie beschrieben
eaters-weight = Gewicht
eaters-height = Größe
