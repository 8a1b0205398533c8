# Unter der Tabelle einer Saison: Summen, wo es hinging, und was fehlt.
season-unplanted = Für die Saison { SAY($n, style: "plain") } ist keine Pflanzung von { $name } eingetragen; was früher gepflanzt wurde, gilt als noch stehend und tragend.
season-plants-of-pickings = Von { $name } ist keine Pflanzung eingetragen; seine Pflanzen sind die meisten, die eine Ernte nennt.
season-book-begins = Das Buch beginnt am { DAY($day) }: Was die Saison { SAY($n, style: "plain") } davor brachte, steht nicht darin.
season-no-weight = Von { $name } ist kein Gewicht bekannt: Eines nimmt `croftbook item`.
season-no-price = Von { $name } ist kein Ladenpreis bekannt: `croftbook price` oder ein Kauf gibt einen.
season-planting-vague = Eine Pflanzung von { $name } nennt weder alle Pflanzen noch alle Reihen oder Flächen: Erträge und die veröffentlichte Spanne brauchen sie.
season-no-planting = Von { $name } ist keine Pflanzung eingetragen: `croftbook plant` mit Pflanzen, Reihe oder Fläche gibt den Ertrag.
season-without-bed = Ein Teil von { $name } wurde ohne Beet geerntet.
season-target-per-person = Das Ziel für { $name } gilt je Person: Wie viele ihr seid, sagt `croftbook setting people`.
season-nothing = In der Saison { SAY($n, style: "plain") } ({ DAY($day) } bis { DAY($day2) }) wurde nichts gepflanzt und nichts geerntet.
season-picked = Saison { SAY($n, style: "plain") }, { DAY($day) } bis { DAY($day2) }: { LIST($list, type: "commas") } geerntet.
season-picked-in-all = Saison { SAY($n, style: "plain") }: { $amount } geerntet.
season-none-picked = In der Saison { SAY($n, style: "plain") } wurde nichts geerntet, auch in der davor nicht.
season-worth = { $hours ->
        [one] Im Laden { $worth } wert; 1 Stunde eingetragen.
       *[other] Im Laden { $worth } wert; { $hours } Stunden eingetragen.
    }
season-worth-unknown = { $hours ->
        [one] Vom Geernteten ist kein Ladenpreis bekannt; 1 Stunde eingetragen.
       *[other] Vom Geernteten ist kein Ladenpreis bekannt; { $hours } Stunden eingetragen.
    }
season-inputs = Gartenbedarf { $n }.
season-inputs-and-net = Gartenbedarf { $n }: Von der Ernte bleiben { $n2 }.
season-inputs-and-net-some = Gartenbedarf { $n }, davon { $n3 } für das, was keinen Ladenpreis hat: Von der übrigen Ernte bleiben { $n2 }.
season-kept-too-long = Davon ab: { $n } von dem, was geerntet und nie gegessen wurde, bis seine Haltbarkeit vorbei war.
season-glut = Davon ab: { $n } von dem, was verfüttert oder kompostiert wurde, über das ersparte Futter hinaus.
season-last-so-far = Letzte Saison: was bis { DAY($day) } geerntet war.
season-where-it-went = Wo es hinging, nach Gewicht: { LIST($list, type: "commas") }.
season-short = Weniger als gewünscht: { LIST($list, type: "commas") }.
season-waiting = Ausgegeben, und auf die nächste Ernte wartend: { LIST($list, type: "commas") }.
season-money-for = { $n } für { $crop }
season-in-bed = { $what } ({ $bed })
