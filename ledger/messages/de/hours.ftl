hours-ways-beside-each-other-never = Die Wege stehen nebeneinander und werden nie addiert: Jeder beantwortet eine andere Frage.
hours-hours-x-wage = Stunden x Lohn
hours-no-hours-written-down-work = Keine Stunden sind eingetragen, so hat Arbeit hier keinen Wert: Gebt beim Ernten, Pflanzen und Einmachen `--work` an.
hours-what-helper-would-paid-not = Was eine Hilfe bekäme, ist nicht eingestellt: `croftbook setting helper_wage 15,00`. Ohne Lohn gibt es nur den eigenen Satz.
hours-helper-wage-what-us-household = Der Lohn einer Hilfe ist, was die US-Rechnung der Haushaltsproduktion nimmt (eine allgemeine Kraft); was es brachte, ist die Ergebnismethode (Fitzgerald und Wicks, 1990: 44 Prozent über Stunden x Lohn in Haushalten in Montana). Der Lohn eines Gewerbes überschätzt, wo man zu Hause langsamer ist.
hours-season = Saison { $year }: { $span }.
hours-worth = { $price } { $by ->
    [own-rate] nach eigenem Satz
    [helper] nach dem Lohn einer Hilfe
    [pay-given-up] nach entgangenem Lohn
   *[brought] nach dem, was sie brachten
}
hours-in-all = { $n ->
        [one] 1 Stunde
       *[other] { $n } Stunden
    } in allem: { $ways }{ $bound ->
    [most] { "" } höchstens
    [least] { "" } mindestens
    [either] , ungefähr, denn ein Preis fehlt
   *[exact] { "" }
}.
hours-no-wage = kein Lohn ist eingestellt
