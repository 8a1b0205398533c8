hens-feed-lasts-about-days = Das Futter reicht etwa { $n ->
        [one] 1 Tag
       *[other] { $n } Tage
    }.
hens-hens-over-days = Hennen über { $n ->
        [one] 1 Tag
       *[other] { $n } Tage
    }
hens-eggs = Eier
hens-feed-bought = gekauftes Futter
hens-feed-bedding = Futter und Streu
hens-dozens = Dutzend
hens-left-last-purchase = vom letzten Kauf übrig
hens-feed-lasts = das Futter reicht
hens-how-many-hens-there-not = Wie viele Hennen da sind, steht nicht im Buch: `croftbook flock 6`.
hens-no-feed-written-down-then = Kein Futter ist eingetragen: `croftbook item "layer feed" --sort "garden input" --feeds egg`; danach tragt den Kauf ein.
hens-lay-eggs-hen-days-usual = Die Legeleistung ist Eier je Hennentag. Üblich, wie veröffentlicht: 75 bis 80 Eier je 100 Hennen und Tag in den ersten zwei Jahren, etwa 50 im Winter ohne Licht.
hens-dozen = ein Dutzend
hens-day = ein Tag
hens-lay = Legeleistung
hens-hens = Hennen
hens-dozen-eats = ein Dutzend frisst
hens-dozen-costs = ein Dutzend kostet
hens-feed-hand-what-last-purchase = Vorhandenes Futter ist, was der letzte Kauf übrig lassen sollte; `--feed "50 lb"` sagt, was wirklich da ist.
hens-days = Tage
hens-a-hen-eats = Eine Henne frisst { $amount } am Tag ({ $how ->
    [memory] das übliche Viertelpfund, aus dem Gedächtnis
   *[bought] nach dem Futter, das zwischen dem ersten und dem letzten Kauf gekauft wurde
}).
hens-why-eats = eine Henne frisst am Tag{ $how ->
    [memory] { "" } (aus dem Gedächtnis)
   *[bought] { "" }
}
hens-feed-on-hand = vorhandenes Futter, wie gefragt
hens-hen-days = Hennentage
hens-from = ab { DAY($day) }
hens-until = bis { DAY($day) }
hens-eaten = seither gefressen
hens-used-up = aufgebraucht
hens-no-hens = keine Hennen
hens-no-eggs = keine Eier
hens-no-feed = kein Futter bekannt
