# Was jeder Befehl tut: eine Zeile für die Liste, und unter .long die ganze Hilfe.

## Eintragen

command-item = sagt, was ein Ding ist, wiegt, fasst oder wie es heißt
command-plant = trägt ein, was gesät oder gesetzt wurde
command-harvest = trägt ein, was gepflückt, gegraben oder gesammelt wurde
command-buy = trägt einen Einkauf ein und was er gekostet hat
command-receive = trägt Geschenktes, Getauschtes oder wild Gesammeltes ein
command-recipe = trägt ein Rezept einmal ein, für putup
command-putup = trägt einen Ansatz ein: was hineinging und was herauskam
command-meal = trägt eine Mahlzeit ein
command-give = trägt ein, was verschenkt, getauscht oder verkauft wurde
command-discard = trägt ein, was weggeworfen wurde und warum
command-count = trägt ein, was wirklich da ist
command-gauge = trägt ein, was ein Manometer bei der Prüfung zeigte
command-settle = klärt einen Ansatz, der selbst zu prüfen ist: welche Veröffentlichung ihn abdeckt
command-price = trägt einen Preis ein, ohne Kauf
command-practise = trägt ein, dass eine Fertigkeit geübt wurde
command-target = sagt, wie viel von etwas oder von einer Fertigkeit gewünscht ist
command-person = sagt, wer isst: Alter, Geschlecht und was den Bedarf ändert
command-seed = sieht Saatgut durch: sein Jahr, was übrig ist und wie es keimte
command-frost = trägt den letzten Frost im Frühling oder den ersten im Herbst ein
command-flock = sagt, wie viele Hennen da sind
command-meter = trägt ein, was ein Zähler für Strom oder Wasser zeigt
command-setting = ändert eine Einstellung des Haushalts
command-strike = nimmt einen Eintrag zurück; lesbar bleibt er

## Fragen und aufbewahren

command-say = trägt ein, was geschah, in eigenen Worten
    .long = Trägt ein, was geschah, so wie ihr es sagen würdet: eine Zeile oder viele, eine Liste, ein Kassenzettel.
command-questions = zeigt, was noch offen ist: Preise, Gewichte, Zutaten
    .long = Zeigt, was eingetragen ist, obwohl etwas nicht bekannt war: ein Preis, was ein Eimer wiegt, was hineinging.
command-answer = beantwortet eine offene Frage
    .long = Beantwortet eine offene Frage nach ihrer Nummer; ohne Nummer wird eine nach der anderen gestellt.
command-undo = nimmt zurück, was zuletzt eingetragen wurde
    .long = Nimmt in einem Schritt zurück, was zuletzt eingetragen wurde; im Verlauf bleibt es lesbar. Eine Berichtigung wird zu dem, was vorher da stand.
command-same = sagt, dass zwei Namen dasselbe meinen
    .long = Sagt, dass zwei Namen dasselbe meinen; von nun an gilt der zweite. So bekommt ein Ding einen anderen Namen, oder zwei werden eines.
command-spent = sagt, was ausgegeben wurde: wo, wofür, wann
    .long = Sagt, was ausgegeben wurde: in welchem Laden, wofür oder in welchem Monat; auch andere Zeilen der Kassenzettel.
command-between = sagt, wie es mit einem Nachbarn steht
    .long = Sagt, wie es mit einem Nachbarn steht: was dorthin ging, was herkam und was ein Laden dafür verlangte.
command-show = stellt eine Frage: jar-cost, shelf, ...
    .long = Stellt eine Frage. Jede Antwort ist eine Tabelle, mit --json oder --csv auch eine Datei.
command-touched = verfolgt Vorrat, Ding, Manometer oder Ansatz bis zu allen, die davon hatten
command-why = öffnet eine Zahl bis zu ihrer Rechnung und ihren Einträgen
    .long = Öffnet eine Zahl bis zu ihrer Rechnung und den Einträgen, aus denen sie kommt: nach der Nummer einer Zeile in der zuletzt gezeigten Tabelle oder nach ihrer Adresse.
command-history = zeigt alle Einträge, die neuesten zuerst
    .long = Zeigt alle Einträge, die neuesten zuerst, auch was berichtigt oder zurückgenommen wurde.
command-import = liest eine Datei mit Einträgen, JSON Lines oder CSV
    .long = Liest eine Datei mit Einträgen: JSON Lines oder CSV mit Kopfzeile; oder eine alte Tabelle, wie sie ist (.csv, .xlsx, .ods). Alles oder nichts.
command-export = schreibt alle Einträge in eine Datei
    .long = Schreibt alle Einträge als JSON Lines in eine Datei; ihr Prüfkopf liegt daneben.
command-calendar = schreibt Aussaat, Einmachtage und Termine in eine Kalenderdatei
    .long = Schreibt in eine Kalenderdatei, was zu tun ist: Aussaat, Einmachtage, was zuerst zu essen ist, Manometerprüfungen, Fertigkeiten.

        Eine Datei, die schon da ist, wird an Ort und Stelle nachgeführt; was andere hineingeschrieben haben, bleibt.
command-check = prüft das Buch, vom ersten Eintrag bis zum letzten
    .long = Prüft das Buch: seine Einträge, seine Datei, dass an seinem Ende nichts fehlt und dass jede Menge verbucht ist. Alle Haushalte, wenn keiner genannt ist.

        Der Prüfkopf, den es zeigt, ist es wert, auf Papier notiert zu werden: Mit ihm lässt sich nach Jahren und an einem anderen Rechner sagen, dass nichts fehlt.
command-backup = kopiert das Buch, auch während es benutzt wird
    .long = Kopiert das Buch mit allen Haushalten, auch während es benutzt wird, und liest die Kopie zurück.
command-restore = setzt eine Sicherung oder einen Export an die Stelle des Buchs
    .long = Setzt eine Sicherung oder einen Export an die Stelle des Buchs.

        Die Kopie wird zuerst geprüft, vom ersten Eintrag bis zum letzten. Das alte Buch wird unter einem Namen mit Datum beiseitegelegt, und getauscht wird ganz oder gar nicht; offene Seiten merken es.
command-demo = baut den Beispielhaushalt und öffnet ihn
    .long = Baut den Beispielhaushalt, zeigt, was seine Tomatensauce kostet und was im Vorrat ist, und öffnet ihn.
command-serve = öffnet die Seiten zu einem Buch
command-circle = vergleicht eine Klasse oder Gruppe von Haushalten, ohne einen bloßzulegen
    .long = Vergleicht eine Klasse oder Gruppe von Haushalten, ohne einen bloßzulegen.

        Daheim: `sheet` zeigt, was eine Gruppe wissen möchte, und schreibt es nach eurem Ja; `withdraw` nimmt es zurück; `beside` stellt euch neben die Gruppe. Die anderen Befehle sind für die Person, die die Bögen sammelt. Jeder endet mit einer Zeile JSON; ein --json gibt es dafür nicht.
command-completion = gibt die Vervollständigung für bash, zsh oder fish aus
    .long = Gibt aus, womit die Shell Befehle vervollständigt.

## Unter circle

command-circle-beside = Stellt diesen Haushalt neben seine Gruppe: die Zahlen einer Veröffentlichung und die eigenen, allein auf diesem Rechner.
command-circle-withdraw = Nimmt einen Bogen zurück: schreibt eine Datei, die ihn dort löscht, wo gesammelt wird.
command-circle-sheet = Macht den Bogen dieses Haushalts für eine Saison: zeigt jede Zahl, fragt, und schreibt die Datei nach einem Ja.
command-circle-work = Wo ihr die Bücher der Mitglieder verwahrt: macht die Bögen derer, die zugestimmt haben und in deren Buch sich etwas bewegt hat. Es darf jederzeit noch einmal laufen und macht, was übrig ist.

    Die Liste hat die Spalten book, household, card, zone und consent; book ist eine Datei daneben oder die Adresse einer Datenbank ohne Kennwort.
command-circle-demo = Baut eine Klasse erfundener Haushalte mit je zwei Saisons, macht ihre Bögen, sammelt und erzählt: von nichts bis zur Seite.
command-circle-page = Schreibt die Seite einer Veröffentlichung: eine Datei für den Bildschirm oder fürs Papier.
command-circle-tell = Sagt der Klasse, mit --private der Öffentlichkeit, was die Bögen sagen; die Zahlen eines Aufrufs gehen nur einen der beiden Wege.
command-circle-budget = Zeigt, wie viel Epsilon für die Öffentlichkeit verbraucht und noch übrig ist.
command-circle-sheets = Zeigt die Bögen, die da sind, einen je Zeile.
command-circle-gather = Nimmt Bögen und Rücknahmen entgegen; ein schlechter wird genannt, die anderen bleiben.
command-circle-cards = Macht Karten, eine je Zeile: auseinanderschneiden, und jeder Haushalt zieht eine aus einem Hut. Gezeigt werden sie nur einmal.
command-circle-begin = Beginnt eine Gruppe: legt einen Ordner mit ihrem Aufruf an, der an alle Haushalte geht.
