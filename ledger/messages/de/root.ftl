# Die Hilfe des Programms selbst.

root-about = Croftbook: was ein Haushalt anbaut, einmacht, lagert und isst, und was das kostet.
root-own-words = Eintragen, was geschieht, in eigenen Worten:
root-by-field = Oder Feld für Feld:
root-ask = Fragen, was es bedeutet:
root-example-say = croftbook say 14 kg Zwetschgen gepflückt und zwei Dutzend Eier
root-end = Das Buch ist eine Datei in eurem Datenordner, oder --book, oder die Variable CROFTBOOK. `croftbook BEFEHL --help` zeigt jeden Befehl mit Beispielen.

root-own-words-past = Eintragen, was geschehen ist, in eigenen Worten:
root-example-say-mill = croftbook say gestern 5 kg Zucker gekauft 7,90 in der Mühle
root-example-say-quoted = croftbook say "14 kg Zwetschgen gepflückt und zwei Dutzend Eier"
root-example-say-bought = croftbook say "gestern 5 kg Zucker gekauft 7,90 in der Mühle"
root-example-say-ate = croftbook say "ein Glas Tomatensauce gegessen, 4 Personen" --dry-run
