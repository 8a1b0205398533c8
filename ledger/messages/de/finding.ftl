# Was sich findet, wenn ein Ansatz neben eine veröffentlichte Vorschrift gestellt wird. $source: ein Dokument, wie es im Satz steht, mit dem Leerzeichen davor; nichts, wo es wegbleibt. $item, $amount: wie der Haushalt sie schrieb. $done, $printed: was gemacht wurde, was gedruckt ist.
finding-in-field = { $field }: { $text }
finding-published = Veröffentlicht: { $printed }.
finding-published-in = Veröffentlicht: { $printed }{ $source }.
finding-done = Gemacht: { $done }.
finding-published-for = Veröffentlicht für { $what }.
finding-range = { $n } bis { $n2 }
finding-not-written = nicht eingetragen
finding-is-figure-right = Stimmt die Angabe?
finding-figure-not-confirmed = Die veröffentlichte Zahl ist hier nicht bestätigt: Schlagt sie in ihrem Dokument nach und vergleicht.

# Felder eines Befunds
finding-field-product = Erzeugnis
finding-field-ingredients = Zutaten
finding-field-form = Form
finding-field-method = Methode
finding-field-equipment = Gerät
finding-field-jar = Glas
finding-field-pack = Füllweise
finding-field-altitude = Höhe
finding-field-gauge = Manometer
finding-field-minutes = Minuten
finding-field-psi = Druck, psi
finding-field-headspace = Kopfraum
finding-field-acid = Säure
finding-field-load = Füllung
finding-field-schedule = Vorschrift
finding-field-note = Notiz
finding-field-storage = Aufbewahrung
finding-field-temperature = Temperatur
finding-field-conditioning = Ausgleichen
finding-field-time = Zeit
finding-field-salt = Salz
finding-field-sugar = Zucker
finding-field-freezer = Gefrierschrank
finding-field-process = Vorschrift

# Minuten, Druck, Kopfraum. $where: Glas, Füllweise, Manometer und Höhe
finding-of-pack = { $pack }
finding-of-gauge = { $gauge }
finding-of-option = Möglichkeit { $n }
finding-minutes = Veröffentlicht: { $n } Minuten ({ $where }).
finding-minutes-ask = Wie viele Minuten lief es, gezählt vom vollen Kochen oder vom vollen Druck an?
finding-minutes-short = { $n ->
        [one] Das ist { $n } Minute zu wenig.
       *[other] Das sind { $n } Minuten zu wenig.
    }
finding-minutes-longer = Länger als gedruckt: Das kostet Güte und ersetzt nichts anderes.
finding-psi = Veröffentlicht: { $n } psi ({ $where }).
finding-psi-ask = Was zeigte das Manometer zuunterst?
finding-psi-said = { $said } ({ $n } psi)
finding-psi-short = Das sind { $n } psi zu wenig; mehr Minuten ersetzen das nicht.
finding-was-it-bar = Waren es bar? Die Einheit dazuschreiben: 0.8 bar.
finding-was-it-kpa = War es ein Manometer in kPa? Die Einheit dazuschreiben: 76 kPa.
finding-gauges-run-to = Manometer von Einkochtöpfen gehen von 0 bis { $n } psi{ $source }.
finding-which-weight = Ein Gewicht zeigt 5, 10 oder 15 psi: Welches war es?
finding-psi-far-above = Das sind mehr als { $n } psi über der gedruckten Angabe: Stimmt das?
finding-headspace = Veröffentlichter Kopfraum: { $x }.
finding-headspace-ask = Wie viel wurde gelassen?
finding-headspace-short = Es kann überkochen und das Glas undicht bleiben.
finding-headspace-over = Es bleibt mehr Luft im Glas als geprüft.
finding-small-beans = Für kleine Bohnen sind { $x } gedruckt: Wie groß waren sie?
finding-minutes-of-jar = { $n } Minuten ist die veröffentlichte Zeit für das kleinere Glas ({ $sizes }).
finding-minutes-of-pack = { $n } Minuten ist die veröffentlichte Zeit für: { $pack }.
finding-minutes-of-altitude = { $n } Minuten sind für eine geringere Höhe gedruckt ({ $band }).
finding-not-above-1000-ft = { $n } Minuten bei { $n2 } psi sind nur für 0 bis 1.000 ft gedruckt: über 1.000 ft nicht empfohlen.
finding-psi-of-altitude = { $n } psi sind für eine geringere Höhe gedruckt ({ $band }).
finding-psi-of-gauge = { $n } psi sind für { $gauge } gedruckt.
finding-short-of-all = Veröffentlicht: { $printed }, je nachdem, { $list }. Gemacht: { $done }, weniger als jedes davon.
finding-reaches-all = Veröffentlicht: { $printed }, je nachdem, { $list }. Gemacht: { $done }, was alle erreicht.
finding-depends = Veröffentlicht: { $printed }. Gemacht: { $done }. Es hängt von dem ab, was nicht eingetragen oder nicht entschieden ist: { $list }.
finding-reaches-each = Der Ansatz erreicht jedes davon.
finding-open-product = welches Erzeugnis es war
finding-open-pack = ob heiß oder roh eingefüllt
finding-open-gauge = welches Manometer
finding-open-jar = welches Glas
finding-open-altitude = in welcher Höhe
finding-open-process = welche Vorschrift
finding-no-figure = { $said } ist nicht als Zahl zu lesen.

# Säure im Glas
finding-acid-each-jar = Veröffentlicht: in jedem Glas { $acids }, eines davon.
finding-acid-ask = Keine Säure ist eingetragen: Kam welche dazu?
finding-acid-none = Nach dem Eingetragenen kam keine dazu.
finding-acid-done = { $per ->
        [batch] { $amount } { $acid } je Ansatz
       *[jar] { $amount } { $acid } je Glas
    }
finding-acid-short = Keine der Säuren erreicht ihre eigene veröffentlichte Menge; Teile von zweien ergeben nicht eine.
finding-acid-in-spoons = Gebt die Menge in Löffeln je Glas: So ist sie gedruckt.
finding-acid-bottled-ask = War der Saft aus der Flasche, der Essig von 5 %, und ist es für ein Glas dieser Größe gedruckt?

# Erzeugnis, Zutaten, Form
finding-published-as = Veröffentlicht als: { $product }.
finding-several = Mehrere veröffentlichte Erzeugnisse heißen so: { $products }. Sagt, welches.
finding-compared-with = Verglichen mit: { $product }.
finding-none-for = Die Tabellen hier enthalten keine Vorschrift für { $product }.
finding-none-with = Die Tabellen hier enthalten keine Vorschrift für { $product } mit { $method }.
finding-only-as = Nur veröffentlicht als { $products }, nach jenem Rezept: Keine Angabe davon gilt für { $food } selbst.
finding-not-at-home = Nicht zum Einkochen zu Hause: Für { $foods } als { $form } gibt es in keinem Einkochtopf eine Vorschrift.
finding-freeze-or-fridge = Einfrieren, oder im Kühlschrank aufbewahren{ $source }.
finding-schedule-unknown = Die Vorschrift { $schedule } ist nicht unter den Tabellen hier: Vergleicht mit dem Dokument, aus dem sie stammt.
finding-schedule-not-held = Die Vorschrift { $schedule } ist nicht unter den Tabellen hier: mit ihrem Dokument vergleichen.
finding-schedule-set-aside = Die Vorschrift { $schedule } passt nicht zu dem, was hineinkam: Sie bleibt beiseite.
finding-nearest-named = Am nächsten, nur zum Vergleich: { $products }.
finding-nearest = Nur zum Vergleich: { $products }.
finding-nearest-one = { $product } ({ $methods })
finding-none-for-recipe = Für dieses Rezept ist keine Vorschrift mit { $method } veröffentlicht, wie auch immer es heißt.
finding-words-not-known = { $names }: hier in keiner Tabelle. Ändert das, was gemacht wurde?
finding-name-says = { $item } sagt { $names }, und das veröffentlichte Erzeugnis ({ $product }) enthält nichts davon.
finding-other-method = Nur veröffentlicht für { $methods }: Für { $product } ist keine Vorschrift mit { $method } gedruckt.
finding-not-by-method = Dafür ist keine Vorschrift mit { $method } gedruckt: nur veröffentlicht für { $methods }.
finding-not-hot-enough = Es hat wenig Säure, und kochendes Wasser wird dafür nicht heiß genug.
finding-ingredients-ask = Was hineinkam, ist nicht eingetragen: Die Zutaten entscheiden, was es ist.
finding-is-water = { $item } ({ $amount }) ist Wasser: Kam es in die Gläser?
finding-not-certain = { $item } ({ $amount }) ist nicht sicher gelesen: Heißt es so?
finding-no-salt = { $item } ({ $amount }) ist kein Salz: mit dem Rezept vergleichen.
finding-not-part = { $item } ({ $amount }) gehört nicht zum veröffentlichten Erzeugnis ({ $product }).
finding-not-named = { $item } ({ $amount }) ist im veröffentlichten Erzeugnis ({ $product }) nicht genannt: nachschlagen.
finding-may-it-be-added = { $item } ({ $amount }) ist im veröffentlichten Erzeugnis ({ $product }) nicht genannt: Darf es dazu?
finding-is-thickening = { $item } ({ $amount }) dickt an, und das veröffentlichte Erzeugnis ({ $product }) enthält nichts davon.
finding-in-no-table = { $item } ({ $amount }) steht hier in keiner Tabelle: Was ist es, und darf es hinein?
finding-does-not-belong = { $item } ({ $amount }) gehört nicht in das veröffentlichte Erzeugnis ({ $product }).
finding-which-beans = { $item } ({ $amount }) können grüne oder trockene Bohnen sein: Welche waren es?
finding-is-low-acid = { $item } ({ $amount }) ist ein Lebensmittel mit wenig Säure, und das veröffentlichte Erzeugnis ({ $product }) enthält nichts davon.
finding-is-borderline = { $item } ({ $amount }) liegt an der Grenze zu wenig Säure, und das veröffentlichte Erzeugnis ({ $product }) enthält nichts davon.
finding-is-another-food = { $item } ({ $amount }) ist ein anderes Lebensmittel, und das veröffentlichte Erzeugnis ({ $product }) enthält nichts davon.
finding-thickens = { $item } ({ $amount }) dickt an, und das veröffentlichte Erzeugnis ({ $product }) enthält nichts davon.
finding-is-fat = { $item } ({ $amount }) ist Fett, und das veröffentlichte Erzeugnis ({ $product }) enthält nichts davon.
finding-is-dairy = { $item } ({ $amount }) ist aus Milch, und das veröffentlichte Erzeugnis ({ $product }) enthält nichts davon.
finding-needs = Das veröffentlichte Erzeugnis ({ $product }) enthält { $names }; unter dem Verwendeten ist nichts davon eingetragen.
finding-nothing-of-it = Nichts von dem, woraus das veröffentlichte Erzeugnis ({ $product }) besteht, ist eingetragen.
finding-none-of-its-parts = Woraus { $product } besteht, davon ist unter dem Verwendeten nichts eingetragen.
finding-form-not-published = { $form }: In dieser Form ist { $product } nicht veröffentlicht.
finding-form-compare = { $form }: vergleicht mit dem, was für { $product } gedruckt ist.
finding-not-published-for = { $item }: { $product } ist nicht für { $name } veröffentlicht{ $source }.
finding-not-strained-out = { $item } ({ $amount }) wurde nicht abgeseiht: Was in einer Brühe bleibt, macht sie zur Suppe.
finding-berries-hot-only = Heidelbeeren, Johannisbeeren und Stachelbeeren sind nur heiß gefüllt gedruckt.
finding-pieces-ask = { $product }: in Stücken oder als Mus? Veröffentlicht ist es nur in Stücken.
finding-another-thing = { $item }: { $product } ist etwas anderes.
finding-soaked-ask = { $item }: gedruckt ist: erst eingeweicht und gekocht. War es so?
finding-soaked = eingeweicht und gekocht
finding-part-of-soup = { $item }: In einer Suppe braucht jeder Teil eine eigene veröffentlichte Vorschrift, und dafür ist hier keine.
finding-one-cube-of-pork = { $item } ({ $amount }): gedruckt ist ein kleiner Würfel Schweinefleisch je Glas. Vergleichen.
finding-made-of = Gemacht aus { $item } vom { DAY($day) }, und so steht dieser Ansatz: { $standing }.

# Mengen eines geprüften Rezepts. $what, $part, $basis: wie das Rezept sie druckt
finding-at-most = höchstens { $n } { $what } auf { $n2 } { $basis }
finding-at-least = mindestens { $n } { $what } auf { $n2 } { $basis }
finding-beside = { $n } { $what }; für diese Menge sind { $n2 } gedruckt
finding-no-most = { $item } ({ $amount }): hat wenig Säure, und das Rezept druckt hier keine Höchstmenge: vergleichen.
finding-main-part-ask = Das Rezept ist für { $part } gedruckt: Wie viel davon kam hinein?
finding-part-of-process = Gedruckt: { $part } gehört zur Vorschrift; eine andere ändert sie{ $source }. Vergleichen.
finding-how-much-ask = Wie viel { LIST($names, type: "commas") } war es, nach Gewicht oder in Tassen?
finding-more-than-tested = Das ist mehr, als das geprüfte Rezept enthält.
finding-less-than-tested = { $what ->
        [acid] Das ist weniger Säure, als das geprüfte Rezept hat.
        [sugar] Das ist weniger Zucker, als das geprüfte Rezept hat.
        [salt] Das ist weniger Salz, als das geprüfte Rezept hat.
       *[other] Das ist weniger, als das geprüfte Rezept hat.
    }
finding-bound-not-confirmed = Die gedruckte Angabe ist hier nicht bestätigt.
finding-none-written = Unter dem Verwendeten ist nichts davon eingetragen.
finding-pectin-leaflet = Für Pektin mit wenig Zucker gilt der eigene Zettel: damit vergleichen.
finding-vinegar-of-5 = Essig von 5 %
finding-strength-done = Gemacht: { $item }, { $n } %.
finding-strength-unsaid = Gemacht: { $item }, seine Stärke ist nicht eingetragen.
finding-strength-home-made = Gemacht: { $item }, selbst gemacht oder verdünnt: Seine Stärke ist nicht bekannt.
finding-strength-essence = Gemacht: { $item }, eine Essenz wird vor dem Gebrauch verdünnt: Wie stark war sie dann?
finding-vinegar-not-tested = Mit selbst gemachtem Essig und mit Essig unter 5 % wurde das Rezept nicht geprüft.
finding-bottled = aus der Flasche
finding-juice-bottled-ask = { $item } ({ $amount }): War er aus der Flasche? Frischer Saft ist verschieden sauer.
finding-no-water = kein Wasser in der Flüssigkeit
finding-most-water = höchstens { $n } Tassen Wasser
finding-most-water-to-acid = höchstens { $n } Tassen Wasser auf { $n2 } { $acid }
finding-water-to-acid = { $n } Tassen Wasser auf { $n2 } { $acid }
finding-acid-to-water = { $n } Tassen { $item } auf { $n2 } Wasser
finding-cups-ask = Wie viele Tassen von jedem kamen in die Gläser?
finding-thins-acid = Das verdünnt die Säure.
finding-soak-counts-nothing = Einweichwasser, das weggegossen wurde, zählt nicht: als Einweichwasser eintragen.

# Geräte. $tool: wie der Haushalt es nennt, oder eines von unseren
finding-untested-tool = { $tool }: Damit ist für kein Lebensmittel eine Vorschrift veröffentlicht{ $source }.
finding-oven = ein Backofen
finding-microwave = eine Mikrowelle
finding-dishwasher = eine Spülmaschine
finding-slow-cooker = ein Schongarer
finding-open-kettle = ein offener Topf
finding-turned-over = umgedrehte Gläser
finding-sun = die Sonne
finding-dry-canning = trockenes Einkochen
finding-vacuum = Vakuum
finding-wax = Wachs
finding-in-steam = Dampf
finding-in-oil = Öl
finding-canner = Einkochtopf
finding-pressure-canner = Druckeinkochtopf
finding-boiling-water-canner = Einkochtopf
finding-steam-canner = Dampfeinkocher
finding-multi-cooker = Für einen elektrischen Multikocher und für einen Drucktopf, der weniger als vier Quartgläser fasst, ist keine Vorschrift veröffentlicht{ $source }.
finding-pressure-canner-holds = Ein Druckeinkochtopf fasst mindestens vier Quartgläser{ $source }.
finding-pressure-canner-ask = Wie viele fasst dieser?
finding-no-pressure = { $tool } hält keinen Druck{ $source }.
finding-electric-canner = Elektrischer Einkocher: in seiner Anleitung nachschlagen, für welche veröffentlichten Vorschriften er geprüft wurde.
finding-tool-not-known = { LIST($names, type: "commas") }: hier nicht bekannt. Wurde das Glas darin erhitzt?
finding-steam = Für saure Lebensmittel zu ihrer Zeit im Wasserbad veröffentlicht, höchstens { $n } Minuten{ $source }.
finding-steam-acid-only = Ein Dampfeinkocher ist nur für saure Lebensmittel veröffentlicht{ $source }.
finding-steam-too-long = Ein Dampfeinkocher ist für Vorschriften von höchstens { $n } Minuten veröffentlicht{ $source }. Gemacht: { $done }.
finding-at-most-minutes = höchstens { $n } Minuten
finding-note = Die Notiz sagt { $note }: Gelten die Angaben trotzdem?
finding-pasteurization-ask = Pasteurisieren bei niedriger Temperatur: 30 Minuten bei 180 bis 185 Grad F, die ganze Zeit gemessen. War es so?
finding-pasteurization-only = Pasteurisieren bei niedriger Temperatur ist nur für schnelle Dillgurken und schnelle süße Gurken gedruckt.
finding-pasteurization-heat = 180 bis 185 F

# Glas, Füllweise, Manometer, Höhe, Füllung des Topfs
finding-which-jars = Welche Gläser waren es?
finding-jar-holds-ask = Wie viel fasst ein { $jar }?
finding-next-larger = Für ein { $jar } gilt die nächstgrößere gedruckte Größe, { $size }{ $source }.
finding-jar-too-large = Veröffentlicht für { $sizes }, nicht für ein { $jar }: Für ein größeres Glas als das größte ist nichts gedruckt.
finding-metric-jar = Ein Hersteller druckt 500 ml als Pint und 1 l als Quart{ $source }: selbst zu prüfen.
finding-no-style-of-pack = Die Tabelle druckt nicht, wie gefüllt wird.
finding-published-pack = Veröffentlicht: { $pack }.
finding-pack-ask = Wurde heiß oder roh eingefüllt?
finding-other-pack = Nur veröffentlicht: { $pack }, nicht { $pack2 }.
finding-not-for-pack = Dafür ist es nicht veröffentlicht: { $pack }.
finding-gauge-ask = Zeigermanometer und Gewichtsventil haben eigene Tabellen. Welches hat der Topf?
finding-gauge-table = { $gauge ->
        [weighted] Es gilt die Tabelle für das Gewichtsventil.
       *[dial] Es gilt die Tabelle für das Zeigermanometer.
    }
finding-dial-or-weighted = Zeigermanometer oder Gewichtsventil
finding-no-gauge = Für dieses Manometer ist nichts gedruckt: { $gauge }.
finding-altitude-ask = Die Höhe der Küche ist nicht eingestellt, und die Vorschrift hängt davon ab.
finding-at-what-altitude = In welcher Höhe liegt die Küche? Die Vorschrift hängt davon ab.
finding-in-band = { $n } ft fallen in die gedruckte Stufe { $band }.
finding-above-last-band = Für { $n } ft ist keine Vorschrift gedruckt: Die letzte gedruckte Stufe endet bei { $n2 } ft.
finding-below-sea = Für { $n } ft, unter dem Meer, ist keine Vorschrift gedruckt.
finding-ask-adviser = Fragt eine Beratungsstelle.
finding-not-recommended = Bei { $n } ft als nicht empfohlen gedruckt.
finding-option-left-out = Eine gedruckte Möglichkeit ist hier nicht empfohlen und weggelassen.
finding-last-foot = { $n } ft ist der letzte Fuß seiner Stufe. Höhen aus Karten schwanken: Liegt eure vielleicht höher, so beginnt die nächste Stufe bei { $n2 } ft.
finding-between-bands = { $n } ft liegt zwischen den gedruckten { $n2 } und { $n3 } ft: Es gilt die nächsthöhere Stufe.
finding-loads-of = Die Mengen sind für Füllungen von { $n } gedruckt{ $source }.
finding-loads-ask = { $n ->
        [one] 1 Glas
       *[other] { $n } Gläser
    }: in wie vielen Füllungen?
finding-loads-done = { $n2 ->
        [one] Gemacht: { $n } Gläser, { $n2 } Füllung: mindestens { $n3 } in einer davon.
       *[other] Gemacht: { $n } Gläser, { $n2 } Füllungen: mindestens { $n3 } in einer davon.
    }
finding-loads-manual = Vergleicht mit der Anleitung des Topfs, wie viele er fasst.
finding-jars-a-load = { $jars } je Füllung
finding-a-load = { $n } je Füllung

# Lebensmittel mit wenig Säure, und Gläser, die kein Einkochen verschloss
finding-under-oil = { LIST($foods, type: "commas") }: ein feuchtes Lebensmittel unter Öl. Im Kühlschrank höchstens 4 Tage, oder einfrieren.
finding-pressure-only = { LIST($foods, type: "commas") }: ein Lebensmittel mit wenig Säure. Gemacht: { $done }. Jede Vorschrift, die dafür veröffentlicht ist, gilt für den Druckeinkochtopf.
finding-oil-warm = { LIST($foods, type: "commas") }: unter Öl oder Fett und nicht gekühlt. Für ein Glas in Öl auf dem Regal ist dafür keine Vorschrift veröffentlicht.
finding-acid-in-each = { LIST($foods, type: "commas") }: an der Grenze zu wenig Säure. Gemacht: { $done }. Jede Vorschrift, die dafür veröffentlicht ist, verlangt Säure in jedem Glas (Zitronensaft aus der Flasche, Zitronensäure oder Essig von 5 %), und keine, die zählt, ist eingetragen.
finding-none-so = { LIST($foods, type: "commas") }: ein Lebensmittel mit zu wenig Säure. Gemacht: { $done }. So ist dafür keine Vorschrift veröffentlicht.
finding-closed-jars = Verschlossene Gläser ({ $place }), und keine veröffentlichte Einkochvorschrift: So ({ $method }) schließt ein Glas nicht besser als im offenen Topf{ $source }.

# Einfrieren, Trocknen, Fermentieren, kaltes Einlegen, Konfitüre
finding-freezing-room = { $x } (weite Öffnung) oder { $x2 } (enge), in Flüssigkeit, { $sizes }
finding-freezing-room-ask = Wie viel Platz wurde gelassen? Gefrierendes dehnt sich aus, und Glas bricht.
finding-glass-may-break = Gemacht: { $x }: Glas kann brechen.
finding-mouth-ask = War die Öffnung weit oder eng?
finding-freezer-load = { $n } bis { $n2 } lb auf einmal je Kubikfuß Gefrierschrank
finding-freezer-load-ask = Wie groß ist der Gefrierschrank, und wie viel kam binnen 24 Stunden hinein?
finding-drying-heat = { $n } bis { $n2 } Grad F im Dörrgerät oder Backofen
finding-drying-heat-ask = Bei welcher Temperatur trocknete es?
finding-jerky-heat = { $kind ->
        [red-meat] { $n } Grad F innen, vor dem Trocknen (rotes Fleisch)
       *[poultry] { $n } Grad F innen, vor dem Trocknen (Geflügel)
    }
finding-jerky-heat-ask = Wurde es vorher erhitzt, und wie heiß wurde es?
finding-conditioning = Obst: etwa { $n } Tage locker gefüllt und täglich gerührt vor dem Lagern
finding-conditioning-ask = Wie viele Tage wurde ausgeglichen?
finding-no-fermenting = Die Tabellen enthalten keine Zahlen zum Fermentieren von { $item }. Fragt eine Beratungsstelle nach einem geprüften Rezept.
finding-weeks-at = { $n } bis { $n2 } Wochen bei { $temperature } Grad F
finding-weeks-cooler = { $n } bis { $n2 } bei { $temperature }
finding-weeks-ask = Wie lange stand es, und wie warm?
finding-kraut-salt = 3 tbsp Einmachsalz auf 5 lb Kohl (3/4 cup auf 25 lb)
finding-salt-by-weight = Gemacht: { $n } Gewichtsprozent; oft heißt es { $n2 } bis { $n3 } Prozent, hier nicht bestätigt: Schlagt es nach.
finding-salt-ask = Wie viel Salz, in Löffeln oder nach Gewicht, auf wie viel Kohl nach Gewicht?
finding-salt-done = { $n } tbsp auf { $n2 } lb
finding-salt-short = Zu wenig Salz lässt es verderben.
finding-salt-substitute = Salzersatz
finding-no-salt-for-it = Salzersatz und natriumarmes Salz sind dafür kein Salz.
finding-vinegar-of = Essig von { $n } Prozent
finding-vinegar-ask = Welcher Essig, und wie viel? Seine Stärke in den Namen schreiben: vinegar 5%.
finding-as-much-as-water = Veröffentlicht: { $printed }, und davon so viel wie Wasser.
finding-cups-of-each-ask = Wie viele Tassen von jedem?
finding-cold-pickle-kept = Gemacht: aufbewahrt im { $place }. Für Eingelegtes, das dort steht, drucken die Tabellen eine Vorschrift im Wasserbad; ohne ist nichts veröffentlicht. Hebt es im Kühlschrank auf.
finding-refrigerator = Kühlschrank
finding-cold-pickle-compare = Für kalt gehaltenes Eingelegtes ist hier kein Rezept geprüft: vergleichen und im Kühlschrank aufheben.
finding-jam-weeks = { $n } Wochen im Kühlschrank, sonst der Gefrierschrank
finding-jam-kept = Gemacht: aufbewahrt im { $place }, wo kalt gerührte Konfitüre verdirbt.
finding-jam-not-shelf = Kalt gerührte Konfitüre gehört nicht ins Regal.
