# Was getan wurde, je Art des Eintrags.

kind-item-described = Ding beschrieben:
kind-planted = gepflanzt
kind-harvested = geerntet
kind-bought = gekauft
kind-received = bekommen
kind-recipe-written = Rezept
kind-put-up = eingemacht
kind-eaten = gegessen
kind-given-away = weggegeben
kind-discarded = weggeworfen
kind-counted = gezählt
kind-gauge-tested = Manometer geprüft
kind-checked = nachgesehen
kind-price-seen = Preis gesehen
kind-practised = geübt
kind-target-set = Ziel
kind-person-described = Person
kind-seed-checked = Saatgut
kind-frost-seen = Frost
kind-flock-counted = Schar
kind-meter-read = Zähler abgelesen
kind-setting-changed = Einstellung
kind-struck = zurückgenommen
