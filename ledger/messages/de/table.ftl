# Was um eine Tabelle, einen Rechenbaum und den Verlauf herum steht.

table-empty = Für { $question } ist noch nichts zu zeigen.
table-why = `croftbook why 1` öffnet Zeile 1: woher ihre Zahlen kommen.
table-more = Und { $n } weitere, mit --all
table-earlier = Ab { $day }; frühere: { $n }, mit --all
table-as-of = { $known ->
        [none] { $currency ->
            [none] Stand { $day }.
           *[other] Stand { $day }. Geld in { $currency }.
        }
       *[other] { $currency ->
            [none] Stand { $day }, nach dem Wissen vom { $known }.
           *[other] Stand { $day }, nach dem Wissen vom { $known }. Geld in { $currency }.
        }
    }
table-more-notes = { $n ->
        [one] und eine weitere: --notes zeigt alle
       *[other] und { $n } weitere: --notes zeigt alle
    }
table-total = Summe, { $name }: { $value }
table-yes = ja
table-not-known = nicht bekannt
table-published = veröffentlicht: { $source }
table-assumed = angenommen: { $assumption }
table-how-sum = die Summe aus
table-how-product = das Produkt aus
table-how-quotient = das erste geteilt durch das zweite
table-how-difference = das erste weniger das zweite
table-how-power = das erste hoch das zweite
table-how-lowest = das kleinste von
table-how-middle = das mittlere von
table-how-highest = das größte von
table-how-mean = das Mittel aus
table-how-rounded-down = abgerundet aus
table-how-rounded-up = aufgerundet aus
table-how-method = errechnet aus
table-id = Id
table-day = Tag
table-by = Wer
table-state = Stand
table-what = Was geschah
table-limit = { $n } von { $of }; --limit 0 zeigt alle.
table-past = vorbei
table-more-parts = und { SAY($n, style: "plain") } weitere: --json hat alle
