# Kleine Wörter, die andere Sätze mitbekommen.

# $n: wie viele mehr es sind als genannt
word-and-more = { $case ->
        [dative] { $n ->
            [one] 1 weiterem
           *[other] { $n } weiteren
        }
       *[nominative] { $n ->
            [one] 1 weiteres
           *[other] { $n } weitere
        }
    }
# $text: was getippt wurde; $marks: ob ein Strich darin vorkommt
word-typed = { $marks ->
        [double] „{ $text }“
       *[single] „{ $text }“
    }

## Feste Wörter der Antworten, nach dem Wort, das im Buch steht
word-female = weiblich
word-male = männlich
word-pregnant = schwanger
word-nursing = stillend
word-light = leicht
word-moderate = mäßig
word-hard = schwer
word-here = hier
word-away = fort
word-last-of-spring = letzter im Frühling
word-first-of-fall = erster im Herbst
word-covered = gedeckt
word-may-be-short = vielleicht knapp
word-likely-short = wohl knapp
word-below-the-level = unter der Grenze
word-above-the-level = über der Grenze
word-protein = Eiweiß
word-fibre = Ballaststoffe
word-vitamin-a = Vitamin A
word-vitamin-c = Vitamin C
word-folate = Folat
word-calcium = Kalzium
word-iron = Eisen
word-potassium = Kalium
word-sodium = Natrium
word-all = alle
word-sow = säen
word-sowing = Säen
word-putting-up = Einmachen
word-eat-first = zuerst essen
word-not-said = nicht gesagt
word-meter = Zähler
word-metered = gemessen
word-estimate = Schätzung
word-can = einkochen
word-eat-fresh = frisch essen
word-give-away = weggeben
word-plant = pflanzen
word-buy = kaufen
word-eat-put-up = Eingemachtes essen
word-from-the-pantry = aus dem Vorrat
word-missing = fehlt
word-shelf = Regal
word-fridge = Kühlschrank
word-freezer = Gefrierschrank
word-cellar = Keller
word-boiling-water = Wasserbad
word-pressure = Druck
word-freeze = Einfrieren
word-dry = Trocknen
word-ferment = Fermentieren
word-pickle-cold = Kalt einlegen
word-jam-uncooked = Kalt gerührte Konfitüre
word-cook = Kochen
word-hot = heiß eingefüllt
word-raw = roh eingefüllt
word-dial = Zeigermanometer
word-weighted = Gewichtsventil
word-grown = angebaut
word-foraged = gesammelt
word-given = geschenkt
word-found = gefunden
word-unrecorded = unbekannt
word-bought = gekauft
word-fresh = frisch
word-energy = Energie
word-weight = Gewicht
word-value = Ladenwert
word-mass = Gewicht
word-volume = Rauminhalt
word-count = Stückzahl
word-against-every-published-process = gegen jede veröffentlichte Vorschrift
word-looked-up = nachgesehen
word-short-of-it = darunter geblieben
word-not-recorded = nicht alles eingetragen
word-no-published-process = keine veröffentlichte Vorschrift
word-to-check-yourself = selbst nachzusehen
word-beyond-it = darüber hinaus
word-as-published = wie veröffentlicht
word-in-hand = sitzt
word-going-rusty = rostet ein
word-out-of-practice = aus der Übung
word-never-tried = nie versucht
word-garden = Garten
word-animals = Tiere
word-received = Bekommenes
word-preserving = Einmachen
word-cooking = Kochen
word-sold = verkauft
word-given-away = weggegeben
word-lost = verloren
word-kept-too-long = zu lange gelegen
word-total = zusammen
word-eaten = gegessen
word-eaten-fresh = frisch gegessen
word-put-up = eingemacht
word-sown = gesät
word-on-hand = vorrätig
word-set-out = gepflanzt
word-gift = Geschenk
word-barter = Tausch
word-forage = wild gesammelt
word-spoiled = verdorben
word-seal-failed = nicht dicht geworden
word-broken = zerbrochen
word-too-old = zu alt
word-pests = Schädlinge
word-fed-to-animals = an Tiere verfüttert
word-composted = kompostiert
word-other = anderes
word-food = Lebensmittel
word-jar = Glas
word-lid = Deckel
word-equipment = Gerät
word-garden-input = Gartenbedarf
word-fuel = Energie
word-supply = Hilfsmittel
word-half-pint-jar = Halbpint-Glas
word-half-pint-jars = Halbpint-Gläser
word-pint-jar = Pint-Glas
word-pint-jars = Pint-Gläser
word-quart-jar = Quart-Glas
word-quart-jars = Quart-Gläser
word-half-gallon-jar = ½-Gallonen-Glas
word-half-gallon-jars = ½-Gallonen-Gläser
word-had = gehabt
word-full = voll
word-empty = leer
word-never-written-down = nie eingetragen
word-piece = Stück
word-pieces = Stück
word-pound = lb
word-quart = Quart
word-litre = Liter
word-kilogram = Kilogramm
word-dozen = Dutzend
word-year = Jahr
word-week = Woche
word-person-year = Jahr und Person
word-batch = Ansatz
word-start = Anfang des Tages
word-end = Ende des Tages
word-past = war
word-ahead = voraus
word-none = keine
word-item-described = beschrieben
word-planted = gepflanzt
word-harvested = geerntet
word-recipe-written = ein Rezept
word-discarded = weggeworfen
word-counted = gezählt
word-gauge-tested = eine Manometerprüfung
word-checked = nachgesehen
word-price-seen = ein gesehener Preis
word-practised = geübt
word-target-set = ein Ziel
word-person-described = eine Person
word-seed-checked = Saatgut
word-frost-seen = ein Frost
word-flock-counted = eine gezählte Schar
word-meter-read = ein Zählerstand
word-setting-changed = eine Einstellung
word-struck = zurückgenommen
word-electricity = Strom
word-gas = Gas
word-shop = Laden
word-even = halb und halb
word-in-the-pantry = im Vorrat
