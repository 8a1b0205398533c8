# Wie oft eintraf, was das Buch sagte, und wie das ermittelt wird.
came-asked-again = Alle { $n } Wochen zurück, höchstens fünf Jahre, werden die Fragen noch einmal an das Buch gestellt, wie es damals war, mit dem, was bis zum Ende jenes Tages eingetragen war; was es sagte, steht neben dem, was heute bekannt ist.
came-past-its-end = Eine Spanne von Tagen zählt, sobald ihr letzter Tag vorbei ist, ein Verbrauch, sobald seine zwölf Wochen es sind; Verbrauch zählt nach den Tagen, an denen etwas da war.
came-base-rate = Die Abweichung ohne ist die des bloßen Mittels des Jahres davor mit den Fehlern, die es in diesem Haushalt machte, und bei Aussichten die der Häufigkeit im Ganzen: Beide kennen den Ausgang und sind daher schwer zu schlagen.
came-needs-as-said = Ob Pflanzen genug gebracht hätten, geht nach dem, was damals als wahrscheinlich nötig galt.
came-kept-or-spoiled = Gehalten: Bis zum genannten Tag wurde nichts davon als verdorben oder zu alt weggeworfen; niemand schreibt alles auf, was verdirbt. Es ist kein Wort über Sicherheit.
came-none-known = Noch ist nichts davon bekannt.
came-ranges-held = { $n } von { $n2 } früheren Spannen hielten.
came-seasons-brought = { $n } von { $n2 } Saisons brachten mindestens so viel.
came-kept = { $n } von { $n2 } hielten so lange wie gesagt.
came-times = Es traf { $n } von { $n2 } Malen ein.
came-nothing-yet = Noch lässt sich nichts noch einmal fragen: Was das Buch sagte, wird neben das gestellt, was kam, sobald vor einigen Wochen vier Wochen Verbrauch eingetragen waren.
came-ranges-in-all = { $n } von { $n2 } früheren Spannen hielten; bei Spannen von 80 % sollten es 8 von 10 sein.
came-widened = Von den letzten hielten zu wenige ({ $n } von { $n2 }); die Spannen sind daher { $n3 }-mal so breit, wie das Verfahren sie gibt.
came-not-widened = Von den letzten hielten { $n } von { $n2 }: Keine Spanne ist verbreitert.
