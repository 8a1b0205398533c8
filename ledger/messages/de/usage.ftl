# Überschriften einer Hilfe, und falscher Gebrauch.

usage-usage = Aufruf:
usage-options = Optionen
usage-commands = Befehle
usage-write-down = Eintragen
usage-ask-and-keep = Fragen und aufbewahren
usage-example = Beispiel:
usage-examples = Beispiele:
usage-help = Diese Hilfe zeigen und enden.
usage-language = In dieser Sprache sprechen; Vorgabe: die des Buchs, sonst die eigene.
usage-version = Die Version zeigen und enden.
usage-default = Vorgabe: { $value }
usage-required = nötig

## Falscher Gebrauch

usage-see = Mehr sagt `{ $command }`
usage-no-command = { $near ->
        [none] Einen Befehl { $name } gibt es nicht.
       *[other] Einen Befehl { $name } gibt es nicht. Ist { $near } gemeint?
    }
usage-no-question = { $near ->
        [none] Eine Frage { $name } gibt es nicht. Es gibt: { LIST($known, type: "commas") }.
       *[other] Eine Frage { $name } gibt es nicht. Ist { $near } gemeint?
    }
usage-no-option = { $n ->
        [0] Eine Option { $name } gibt es hier nicht.
        [one] Eine Option { $name } gibt es hier nicht. Ist { $near } gemeint?
       *[other] Eine Option { $name } gibt es hier nicht. Ist eine von diesen gemeint: { LIST($near, type: "commas") }?
    }
usage-missing-option = Die Option { $param } fehlt.
usage-missing-argument = { $param } fehlt.
usage-choose = Möglich sind: { LIST($known, type: "commas") }.
usage-no-value = Die Option { $name } nimmt keinen Wert.
usage-needs-value = Hinter der Option { $name } fehlt ihr Wert.
usage-bad = Bei { $param } geht das nicht: { $reason }.
usage-not-one-of = { $value } ist keines von { LIST($known, type: "commas") }
usage-out-of-range = { $high ->
        [none] { $value } ist kleiner als { $low }
       *[other] { $value } liegt nicht zwischen { $low } und { $high }
    }
usage-no-integer = { $value } ist keine ganze Zahl
usage-no-number = { $value } ist keine Zahl
usage-too-many = { $n ->
        [one] Ein Wort zu viel: { $words }
       *[other] Wörter zu viel: { $words }
    }
usage-no-language = Für { $value } gibt es hier keine Texte. Es gibt: { LIST($known, type: "commas") }.
