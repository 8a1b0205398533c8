# Was veröffentlichte Tabellen drucken und was dazugehört: Vorsicht, Schritte, Vorschriften. $source: ein Dokument, wie es im Satz steht, „ (Titel; Herausgeber, Jahr)“, mit dem Leerzeichen davor; nichts, wo es wegbleibt.

# Zahlen und Namen
published-inches = { $x } Zoll
published-band = { $n } bis { $n2 } ft
published-band-above = über { $n } ft
published-quoted = „{ $name }“
published-source = ({ $text })
published-with-source = { $text } ({ $source })
published-any-of = { LIST($names, type: "or") }
published-all-of = { LIST($names) }
published-acid-or = { $one } oder { $other }
published-acid-lemon = { $x } Zitronensaft aus der Flasche
published-acid-citric = { $x } Zitronensäure
published-acid-vinegar = { $x } Essig von 5 %
published-acid-name = { $acid ->
        [lemon] Zitronensaft
        [citric] Zitronensäure
       *[vinegar] Essig 5 %
    }
published-pack = { $pack ->
        [hot] heiß eingefüllt
        [raw] roh eingefüllt
       *[unstated] Füllweise nicht gedruckt
    }
published-packs = { $packs ->
        [hot] heiß eingefüllt
        [raw] roh eingefüllt
       *[both] heiß und roh eingefüllt
    }
published-size = { $size ->
        [half-pint] ½ Pint
        [pint] Pint
        [pint-and-half] 1,5 Pint
        [half-gallon] ½ Gallone
       *[quart] Quart
    }
published-sizes = { $size ->
        [half-pint] Halbpint-Gläser
        [pint] Pint-Gläser
        [pint-and-half] 1,5-Pint-Gläser
        [half-gallon] ½-Gallonen-Gläser
       *[quart] Quart-Gläser
    }
published-sizes-before = { $size ->
        [half-pint] Halbpint-
        [pint] Pint-
        [pint-and-half] 1,5-Pint-
        [half-gallon] ½-Gallonen-
       *[quart] Quart-
    }
published-sizes-counted = { $n ->
        [one] { $n } { $size ->
            [half-pint] Halbpint-Glas
            [pint] Pint-Glas
            [pint-and-half] 1,5-Pint-Glas
            [half-gallon] ½-Gallonen-Glas
           *[quart] Quart-Glas
        }
       *[other] { $n } { $size ->
            [half-pint] Halbpint-Gläser
            [pint] Pint-Gläser
            [pint-and-half] 1,5-Pint-Gläser
            [half-gallon] ½-Gallonen-Gläser
           *[quart] Quart-Gläser
        }
    }

# Die üblichen Vorsichten, in unseren Worten
published-caution = Hier werden Zahlen mit veröffentlichten Tabellen verglichen; für kein Lebensmittel wird gebürgt. Nie kosten, was verdorben sein könnte. Haltet euch an die neueste Schrift und die Anleitung eures Einkochtopfs; fragt eine Beratungsstelle.
published-caution-first = Beim Einkochen drohen Botulismus, Verbrennungen und splitterndes Glas. Croftbook prüft nichts: Es vergleicht nur Zahlen mit veröffentlichten Tabellen. Haltet euch an die neueste Schrift und die Anleitung eures Einkochtopfs, lasst Zeigermanometer jedes Jahr prüfen, und kostet nie von etwas, das verdorben sein könnte. Ganz: docs/cautions.md.
published-botulism = Botulismus
published-botulism-whole = Bakterien aus der Erde bilden in feuchten Lebensmitteln mit wenig Säure, ohne Luft, zwischen 40 und 120 Grad F (4 und 49 °C), ein tödliches Gift. Drei oder vier Tage genügen. Man muss es weder riechen noch schmecken noch sehen. Kochendes Wasser tötet ihre Sporen nicht: Gemüse, Fleisch, Fisch, Brühe, Suppe und Mischungen daraus sind nur für Druck veröffentlicht. Doppelbilder, hängende Lider, verwaschene Sprache oder Schwäche nach dem Essen: den Notruf wählen und sagen, was gegessen wurde.
published-never-taste = Nie kosten
published-never-taste-whole = Nie kosten, um zu prüfen. Ein Glas, das leckt, sich wölbt, zischt, spritzt, schäumt, nicht mehr dicht ist, falsch riecht, trüb oder schimmlig ist oder nicht wie veröffentlicht eingekocht wurde: wegwerfen, wo weder Mensch noch Tier herankommt. Noch zu: ungeöffnet in einem festen, verschlossenen Beutel in den Müll. Offen oder undicht: mit dem Deckel in einen Topf, 3 cm Wasser darüber, zugedeckt 30 Minuten kochen, dann in den Müll; gründlich reinigen, was es berührt hat, auch die Hände (Missouri Extension, 2009, und Clemson Extension, nach der Schrift des USDA). Wer davon gegessen hat: einen Arzt oder die Giftnotrufzentrale fragen.
# $words: Anzeichen, wie gesagt
published-signs = VORSICHT: „{ LIST($words, type: "commas") }“ kann ein Zeichen sein, dass verdorben ist, was im Glas steht; verdorben sein kann auch ein Glas ohne Zeichen.
published-tested-process = Eine geprüfte Vorschrift, ganz
published-tested-process-whole = Nehmt eine veröffentlichte Vorschrift für genau dieses Erzeugnis, diese Füllweise, dieses Glas, dieses Manometer und diese Höhe. Mischt nicht zwei Möglichkeiten, nehmt nicht die Zeit eines kleineren Glases, kürzt nicht, ersetzt Druck nicht durch Minuten. Öl, Mehl, Reis, Nudeln, Fleisch oder säurearmes Gemüse dazu ergeben ein anderes Erzeugnis, für das vielleicht nichts veröffentlicht ist.
published-acid = Säure
published-acid-whole = Tomaten brauchen Zitronensaft aus der Flasche, Zitronensäure oder Essig von 5 % in jedem Glas, auch im Druckeinkochtopf. Haltet euch bei Eingelegtem an den Essig des Rezepts und seine Stärke.
published-altitude = Höhe
published-altitude-whole = Je höher ein Ort liegt, desto kühler kocht Wasser. Stellt eure eigene Höhe ein, von einer Karte oder vom Vermessungsamt, und nehmt die Stufe, in die sie fällt; fragt nahe einer Grenze nach.
published-gauges = Manometer
published-gauges-whole = Lasst ein Zeigermanometer jedes Jahr vor der Saison prüfen, und nach einem Stoß; ersetzt eines, das falsch zeigt. Ein Gewichtsventil lässt sich zwischen seinen Gewichten nicht ablesen. Wechselt Dichtungen, wie der Hersteller es sagt.
published-steam = Dampf und Verbrennungen
published-steam-whole = Lasst den Topf abdampfen, bevor ihr ihn schließt. Bleibt dabei. Lasst den Druck von selbst auf null fallen; öffnet den Deckel nie mit Gewalt und kühlt nie mit Wasser. Hebt den Deckel vom Gesicht weg. Haltet Kinder fern.
published-glass = Glas unter Druck
published-glass-whole = Nehmt Gläser, die zum Einkochen gemacht sind, ohne Scharten und Sprünge; Heißes in heiße Gläser; danach kein kalter Zug und keine kalte Platte. Gläser zum Einfrieren brauchen Platz nach oben und gerade Wände.
published-lids = Deckel
published-lids-whole = Jedes Mal neue Deckel. Prüft nach 12 bis 24 Stunden, ob jedes dicht ist, nehmt die Ringe ab, und seht vor dem Öffnen noch einmal hin.
published-whom-to-ask = Wen ihr fragen könnt
published-whom-to-ask-whole = Die neueste Schrift (USDA Complete Guide to Home Canning), das National Center for Home Food Preservation, eure Beratungsstelle, die Anleitung eures Topfs und, für alles, was ihr verschenkt oder verkauft, die Vorschriften eures Orts gehen allem vor, was hier steht.

# Lebensmittel mit wenig Säure. $foods: wie eingetragen; $n: Stunden
published-danger = VORSICHT: { LIST($foods, type: "commas") }: ein Lebensmittel mit wenig Säure. Sporen des Botulismus überleben kochendes Wasser, Dampf, offenen Topf und Backofen und wachsen in einem solchen Glas; es muss weder riechen noch anders aussehen. Wo für säurearme Lebensmittel eine Vorschrift veröffentlicht ist, gilt sie nur für den Druckeinkochtopf.
published-danger-no-canner = VORSICHT: { LIST($foods, type: "commas") }: ein Lebensmittel mit wenig Säure in einer Form, die für keinen Einkochtopf veröffentlicht ist. Sporen des Botulismus überleben kochendes Wasser, Dampf, offenen Topf und Backofen und wachsen in einem solchen Glas; es muss weder riechen noch anders aussehen. Auch ein Druckeinkochtopf ist kein Ausweg: Für diese Form ist keine Vorschrift veröffentlicht.
published-danger-short = VORSICHT: { LIST($foods, type: "commas") }: ein Lebensmittel mit wenig Säure, und keine veröffentlichte Vorschrift unter Druck. Nicht kosten, wegwerfen, wo weder Mensch noch Tier herankommt.
published-danger-pressure = KEINE VERÖFFENTLICHTE VORSCHRIFT: { LIST($foods, type: "commas") }: ein Lebensmittel mit wenig Säure, und in dieser Form ist dafür für keinen Einkochtopf etwas veröffentlicht, auch nicht unter Druck. Weder Minuten noch Druck einer anderen Form gelten dafür.
published-danger-pressure-other = KEINE VERÖFFENTLICHTE VORSCHRIFT: { LIST($foods, type: "commas") }: ein Lebensmittel mit wenig Säure, unter Druck eingekocht, aber nicht so, wie eine veröffentlichte Vorschrift es hat. Eine Vorschrift gilt ganz, mit ihrer Form, ihrer Füllweise, ihrem Glas und ihrem Einkochtopf, oder gar nicht.
published-danger-pressure-short = KEINE VERÖFFENTLICHTE VORSCHRIFT: { LIST($foods, type: "commas") }: ein Lebensmittel mit wenig Säure, unter Druck eingekocht, wie keine veröffentlichte Vorschrift es hat. Nicht kosten, wegwerfen, wo weder Mensch noch Tier herankommt.
published-danger-acid = VORSICHT: { LIST($foods, type: "commas") }: ein Lebensmittel mit wenig Säure, das für kochendes Wasser nur so veröffentlicht ist, wie das geprüfte Rezept es hat: mit all seiner Säure, und nicht mehr solchem Lebensmittel als gedruckt. Mit weniger Säure, im Backofen oder im offenen Topf überleben die Sporen des Botulismus und wachsen in einem solchen Glas; es muss weder riechen noch anders aussehen.
published-danger-acid-short = VORSICHT: { LIST($foods, type: "commas") }: ein Lebensmittel mit wenig Säure, und nicht so eingetragen, wie sein geprüftes Rezept es hat. Nicht kosten, wegwerfen, wo weder Mensch noch Tier herankommt.
published-danger-oil = VORSICHT: { LIST($foods, type: "commas") }: ein feuchtes Lebensmittel unter Öl oder Fett. Sporen des Botulismus wachsen dort ohne Luft, und Essig daneben ändert nichts; es muss weder riechen noch anders aussehen. Für Regal oder Keller ist dafür nichts veröffentlicht: nicht kosten, wegwerfen, wo weder Mensch noch Tier herankommt. Im Kühlschrank höchstens 4 Tage, oder einfrieren{ $source }.
published-jars-done-so = So behandelte Gläser: innerhalb von { $n } Stunden eine ganze veröffentlichte Vorschrift unter Druck von neuem anwenden, oder (für wenige Tage) in den Kühlschrank stellen oder einfrieren{ $source }. Später: nicht kosten, wegwerfen, wo weder Mensch noch Tier herankommt{ $source2 }.
published-jars-done-so-cold = So behandelte Gläser: innerhalb von { $n } Stunden (für wenige Tage) in den Kühlschrank stellen oder einfrieren{ $source }. Später: nicht kosten, wegwerfen, wo weder Mensch noch Tier herankommt{ $source2 }.

# Wie ein ganzer Ansatz steht, in einem Satz
published-stands-against = Ein Lebensmittel mit wenig Säure, das keine veröffentlichte Vorschrift unter Druck verschlossen hat.
published-stands-none = Keine veröffentlichte Vorschrift gilt für diesen Ansatz, so wie er eingetragen ist.
published-stands-short = Dieser Ansatz blieb unter der veröffentlichten Vorschrift.
published-stands-not-recorded = Ob wie veröffentlicht gearbeitet wurde, lässt sich nicht sagen: Etwas ist nicht eingetragen.
published-stands-to-check = Etwas war nicht zuzuordnen oder ist hier nicht bestätigt: nachschlagen und vergleichen.
published-stands-beyond = Jede eingetragene Zahl erreicht die veröffentlichte, und manche gehen darüber hinaus. Das vergleicht Zahlen; es bürgt nicht für das Lebensmittel.
published-stands-as-published = Jede eingetragene Zahl erreicht die veröffentlichte. Das vergleicht Zahlen; es bürgt nicht für das Lebensmittel.
published-means-against = Gegen jede veröffentlichte Vorschrift: ein Lebensmittel mit wenig Säure, das keine veröffentlichte Vorschrift unter Druck verschlossen hat. Nicht kosten.
published-means-to-check = Selbst zu prüfen: Etwas war nicht zuzuordnen, hat keinen Platz in einem Eintrag oder ist hier nicht bestätigt.
published-means-beyond = Darüber: Jede Angabe erreicht die gedruckte, und manche gehen darüber hinaus.
published-means-as-published = Wie veröffentlicht: Jede eingetragene Angabe erreicht die gedruckte.
published-so-many = { $n } { $standing }
published-batches = { $n ->
        [one] 1 Ansatz: { $standings }.
       *[other] { $n } Ansätze: { $standings }.
    }
published-one-whole = Einer davon ganz: `croftbook show as-published --batch ID`.
published-reached = wie veröffentlicht: { LIST($names, type: "commas") }
published-document = Dokument: { $text }
published-same-as = wie { $item }
published-what-to-do = was zu tun ist, und Unterlagen: { $command }
published-as-printed = wie gedruckt
published-written-down = eingetragen
published-as-printed-line = wie gedruckt: { $line } ({ $source })
published-no-single-line = keine einzelne Zeile
published-nothing-for-it = dafür ist nichts veröffentlicht
published-none-printed = Dafür ist keine Vorschrift gedruckt.
published-nothing-held = Nichts Veröffentlichtes liegt dafür vor.

# Nach einem Ansatz: was die Dokumente sagen. $n, $n2: Stunden oder Wochen
published-write-down-missing = Tragt das Fehlende ein oder schlagt es nach, bevor die Gläser ins Regal kommen. Behandelt sie bis dahin wie Gläser, die darunter blieben.
published-nothing-covers = Nichts Veröffentlichtes gilt für diesen Ansatz, also sagt nichts, wie es um ihn steht. Fragt eine Beratungsstelle, mit dem Rezept und diesen Zahlen, bevor jemand davon isst.
published-run-anew = Wo das Einkochen selbst zu kurz, zu kühl oder das falsche war, ist es ganz und mit neuen Deckeln innerhalb von { $n } Stunden zu wiederholen; nur Gläser, die richtig eingekocht und nicht dicht wurden, haben { $n2 }.
published-cold-alone = Stellt sie innerhalb von { $n } Stunden in den Kühlschrank (einige Tage), oder friert sie ein.
published-else-cold = Sonst innerhalb derselben Zeit (für wenige Tage) in den Kühlschrank stellen oder einfrieren.
published-too-late = Mehr als { $n } Stunden nach dem Einkochen, oder wo das nicht bekannt ist: nicht kosten, auch nicht ein wenig. So wegwerfen, dass weder Mensch noch Tier davon isst. Früher hieß es, vor dem Essen abkochen; seit 2013 heißt es, wegwerfen.
published-when-in-doubt = Fragt im Zweifel eine Beratungsstelle, mit den Zahlen dieses Ansatzes.
published-unsealed-again = Innerhalb von { $n } Stunden: das Glas öffnen, den Rand auf Scharten ansehen, mit dem gedruckten Kopfraum neu füllen, einen neuen Deckel nehmen und die ganze veröffentlichte Vorschrift wiederholen.
published-unsealed-cold = Oder in den Kühlschrank stellen und innerhalb von höchstens { $n ->
        [one] { $n } Woche
       *[other] { $n } Wochen
    } essen (zwei der Quellen sagen: wenigen Tagen).
published-unsealed-freeze = Oder einfrieren, mit { $x } Platz nach oben ({ $x2 } nach einer anderen Quelle).
published-our-own-advice = unser eigener Rat
published-common-practice = übliche Praxis, ohne Quelle

# Vor einem Ansatz: die gedruckte Vorschrift, was sie braucht, die Schritte
published-band-in = { $band }{ $source }
published-process = { $parts } ({ $where })
published-process-not-confirmed = { $parts } ({ $where }; nicht bestätigt, nachzuschlagen)
published-by-that-recipe = nur nach jenem Rezept: { $text }
published-packed = { $pack }, { $sizes }
published-minutes-boiling = { $n } Minuten im Wasserbad
published-minutes-pressure = { $n } Minuten bei { $n2 } psi { $gauge ->
        [weighted] am Gewichtsventil
       *[dial] am Zeigermanometer
    }
published-headspace = Kopfraum { $x }
published-acid-each-jar = Säure in jedes Glas: { $acids }
published-none-to-show = Für das Gesagte lässt sich keine Vorschrift zeigen.
published-mix-no-two = Jede davon ist eine ganze Vorschrift: Nehmt eine, und mischt keine zwei.
published-to-have-ready = Bereitzulegen:
published-in-order = In dieser Reihenfolge:
published-in-order-first = In dieser Reihenfolge (für die erste davon):
published-need-jars = { $jar }
published-need-lids = neue Deckel
published-need-pounds = etwa { $n } lb ({ $n2 } lb für { $jars })
published-need-fresh = frisch: { $product }
published-need-note = { $note }, für { $n } bis { $jars }
published-need-recipe = Rezept: { $product }
published-need-loads = Füllungen des Topfs
published-need-loads-of = { $n }, je { $jars }
published-step-bulletin = Lest zuerst die neueste Schrift und die Anleitung des Herstellers.
published-step-jars = Seht Gläser und Ränder auf Scharten und Sprünge durch; wascht die Gläser und haltet sie heiß.
published-step-gauge = Lasst ein Zeigermanometer jedes Jahr vor der Saison prüfen.
published-step-pack = { $pack ->
        [hot] Heiß einfüllen und { $x } Platz nach oben lassen.
        [raw] Roh einfüllen und { $x } Platz nach oben lassen.
       *[unstated] Einfüllen und { $x } Platz nach oben lassen.
    }
published-step-acid = Säure in jedes Glas: { $acids }. Eines davon, die ganze Menge.
published-step-lids = Luftblasen herauslassen, Ränder abwischen, Deckel aufsetzen.
published-step-seals = Die Gläser 12 bis 24 Stunden ohne Zugluft stehen lassen, dann prüfen, ob jedes dicht ist.
published-step-label = Beschriften mit Inhalt, Tag und Posten; kühl, dunkel und trocken lagern.
published-step-sterile = Unter { $n } Minuten braucht es keimfreie Gläser: { $n2 } Minuten auskochen, und 1 mehr je weitere 1.000 ft.
published-step-recipe-acid = Haltet euch an den Essig oder Zitronensaft des Rezepts, in der gedruckten Stärke.
published-step-water = Wasser mindestens einen Zoll über den Deckeln; vom vollen Kochen an zählen.
published-step-boil = { $n } Minuten ohne Unterbrechung kochen. Hört es auf zu kochen, von vorn beginnen.
published-step-stand = Herd aus; die Gläser einige Minuten stehen lassen, dann aufrecht herausheben.
published-step-vent = { $n } Minuten abdampfen lassen, bevor das Ventil geschlossen wird.
published-step-count = { $n } Minuten zählen, sobald das Manometer { $n2 } psi zeigt; fällt es darunter, wieder hochbringen und von vorn zählen.
published-step-cool = Herd aus; von selbst auf null abkühlen lassen. Nie mit Wasser kühlen.
published-step-open = Ventil öffnen, warten, Deckel vom Gesicht weg abheben, Gläser herausheben.
published-water-boils = Zur Kenntnis: Bei { $n } ft kocht Wasser bei etwa { $n2 } Grad F. Daraus wird keine Vorschrift errechnet.
published-figures-recalled = Als nicht bestätigt bezeichnete Zahlen wurden erinnert, nicht gelesen: Schlagt sie zuerst nach.
published-altitude-set = Höhe { $altitude }, wie eingestellt, wo ein Ansatz nichts sagt.
published-gauge-set = Manometer: { $gauge }, wie eingestellt, wo ein Ansatz unter Druck nichts sagt.

# Versehen, nach denen beim Eintragen gefragt wird
published-denser-than-fat = Was hineinging, hat { $n } kcal, und { $x } kg kamen heraus: Das sind { $n2 } kcal je 100 g, mehr als reines Fett ({ $n3 }). Stimmen die Mengen?
published-psi-or-kpa = { $said } psi: Manometer von Einkochtöpfen gehen von 0 bis { $n } psi. War es ein Manometer in kPa ({ $said } kPa)? Sind es psi?
published-psi-or-bar = { $said } psi: War es ein Manometer in bar ({ $said } bar)? Sind es psi?
published-strength-unsaid = { $item }: Seine Stärke ist nicht eingetragen.
published-strength-home-made = { $item }: selbst gemacht oder verdünnt, seine Stärke ist nicht bekannt.
published-strength-essence = { $item }: Eine Essenz wird vor dem Gebrauch verdünnt: Wie stark war sie dann?
published-strength-ask = Geprüfte Rezepte rechnen mit 5 %; eine Stärke gehört in den Namen ("vinegar 5%"). Soll sie unbekannt bleiben?
published-fridge-ask = Gläser, so verschlossen: { $tool }. Dafür ist keine Vorschrift veröffentlicht; sie gelten als im Kühlschrank stehend, nicht im Regal. Stehen sie dort?
published-yield-ask = { $n } lb ergaben { $jars }: veröffentlichte Spanne { $n2 } bis { $n3 } ({ $product }). Stimmt die Menge?
published-loads-ask = { $n ->
        [one] { $jars } in { $n } Füllung: Nach dem, was der Topf fasst, wären es { $n2 }. Wie viele Füllungen waren es?
       *[other] { $jars } in { $n } Füllungen: Nach dem, was der Topf fasst, wären es { $n2 }. Wie viele Füllungen waren es?
    }
published-loads-source = die Einstellung des Haushalts, sonst die Füllungen, die bei den Mengen gedruckt sind
published-honey-infant = Honig ist nichts für ein Kind unter einem Jahr, auch nicht gekocht: Er kann Säuglingsbotulismus bringen. Hat ein so kleines Kind davon gegessen, holt ärztlichen Rat (INSPQ, Québec).
