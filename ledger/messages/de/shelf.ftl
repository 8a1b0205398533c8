# Wie lange etwas im Vorrat reicht: worauf es beruht und was fehlt.
shelf-own-weeks = Verbrauch je Woche und Reichweite kommen aus den eigenen Wochen: Sie sagen, wie gleichmäßig der Verbrauch ist und wie sicher die übliche Menge. Die Spannen lassen das früheste und das späteste Zehntel weg. Der Verbrauch je Woche gilt für die kommenden { $n } Wochen; es zählt, was gegessen, verarbeitet, gesät oder weggegeben wird; was verdirbt, kommt dazu.
shelf-own-seasons = Wo die Wochen zeigen, dass der Verbrauch zur selben Jahreszeit wiederkehrt, wird dem gefolgt.
shelf-none-there = Tage, an denen nichts davon da war, zählen weder als Verbrauch von nichts noch als anderer Verbrauch.
shelf-even-pauses = Was in gleichmäßigen Abständen geöffnet wird, wird nach seinen Abständen gerechnet.
shelf-people-changed = Was vor einer Änderung der Personenzahl verbraucht wurde, zählt nach ihr.
shelf-few-weeks = Wenige Wochen (unter { $n }): eine weite Spanne.
shelf-season-unknown = Weniger als ein Jahr: Eine Jahreszeit ist noch nicht bekannt.
shelf-sure-few-weeks = wenige Wochen: eine weite Spanne
shelf-sure-season-unknown = weniger als ein Jahr: eine Jahreszeit ist noch nicht bekannt
shelf-earlier-ranges = Frühere Spannen zählen die der letzten acht Zeitpunkte, deren zwölf Wochen vorbei sind, wie sie vor jedem Verbreitern standen: `croftbook show came-true` prüft alles, was das Buch sagte.
shelf-widened = Die Spannen sind verbreitert, da in diesem Haushalt zu wenige der letzten hielten.
shelf-next-by-season = Der nächste Nachschub wird wie in früheren Jahren erwartet; die Wahrscheinlichkeit zählt auch frühere und spätere Tage.
shelf-next-by-rhythm = Der nächste Nachschub wird nach der üblichen Pause erwartet; die Wahrscheinlichkeit zählt auch kürzere und längere.
shelf-best-as-published = Wo der Haushalt nicht sagt, wie lange etwas hält, endet die beste Zeit mit dem frühen Ende der veröffentlichten Spanne. Das sagt etwas über die Güte und verspricht keine Sicherheit.
shelf-fresh-unknown = Für { LIST($names, type: "commas") } ist keine Haltbarkeit bekannt: Frisches geht dem Übrigen vor, nach dem Tag, an dem es kam. Wie lange es hält, schreibt ihr mit `croftbook item NAME --keeps "fridge 4 days"` auf.
shelf-fresh-published = Wo der Haushalt nicht sagt, wie lange Frisches hält, steht es nach dem frühen Ende der veröffentlichten Lagerdauer bei bester Temperatur und Feuchte; anders gelagert muss es früher gegessen werden: { LIST($names, type: "commas") } (USDA Agriculture Handbook 66).
shelf-target-until-supply = Von einem Jahresziel sollte so viel da sein, wie bis zum nächsten Nachschub nötig ist.
shelf-beyond-five-years = Was länger als etwa fünf Jahre reicht, hat keinen Tag.
shelf-ahead-own-weeks = Was voraus liegt, kommt aus den eigenen Wochen, wenn nichts mehr dazukommt; die Spanne lässt das unterste und das oberste Zehntel weg.
shelf-goes-on = Wie es mit { $item } weitergeht, zeigt sich, sobald vier Wochen Verbrauch eingetragen sind.
shelf-no-use = Von { $item } ist kein Verbrauch eingetragen.
shelf-use-unknown = Vom Verbrauch ist zu wenig bekannt bei { LIST($names, type: "commas") }: Wie lange es reicht, zeigt sich nach vier eingetragenen Wochen.
shelf-supply-unknown = Wann Nachschub kommt, ist nicht bekannt bei { LIST($names, type: "commas") }: Ein dritter Kauf oder eine Ernte oder ein Ansatz in einem weiteren Jahr zeigt es.
shelf-target-per-person = Das Ziel für { LIST($names, type: "commas") } gilt je Person: Wie viele ihr seid, sagt `croftbook setting people 4`.
shelf-gone-before = Eher aus, als dass Nachschub kommt: { LIST($names, type: "commas") }.
shelf-short = Unter dem Ziel: { LIST($names, type: "commas") }.
shelf-nothing-left = Nichts mehr da, und in den letzten { $n } Wochen verbraucht: { LIST($names, type: "commas") }.
shelf-held = { $n } von { $n2 }
shelf-none-in-weeks = { $n ->
        [one] nichts in { $n } Woche
       *[other] nichts in { $n } Wochen
    }
shelf-up-to = bis { $amount }
shelf-to-years = { $weeks } bis zu Jahren
shelf-chance-under = unter 1 %
shelf-chance-over = über 99 %
