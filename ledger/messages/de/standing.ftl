# Wie ein Glas steht, im Regal, auf Etikett und Seite, und was vor dem Öffnen gefragt wird. $standing: ein festes Wort; $do: was es verlangt.
standing-plain = { $standing }, { DAY($day) }
standing-mark = { $do ->
        [settle] { $standing }, { DAY($day) }: nicht essen, bevor es geklärt ist
        [write] { $standing }, { DAY($day) }: eintragen, was fehlt, bevor davon gegessen wird
        [look-up] { $standing }, { DAY($day) }: nachsehen, bevor davon gegessen wird
        [ruled-out] { $standing }, { DAY($day) }: in keinem Einkochtopf einzukochen; nicht kosten, wegwerfen
       *[discard] { $standing }, { DAY($day) }: nicht kosten, wegwerfen
    }
standing-made-of-plain = gemacht aus { $item } vom { DAY($day) }, { $standing }
standing-made-of = { $do ->
        [settle] gemacht aus { $item } vom { DAY($day) }, { $standing }: nicht essen, bevor es geklärt ist
        [write] gemacht aus { $item } vom { DAY($day) }, { $standing }: eintragen, was fehlt, bevor davon gegessen wird
        [look-up] gemacht aus { $item } vom { DAY($day) }, { $standing }: nachsehen, bevor davon gegessen wird
        [ruled-out] gemacht aus { $item } vom { DAY($day) }, { $standing }: in keinem Einkochtopf einzukochen; nicht kosten, wegwerfen
       *[discard] gemacht aus { $item } vom { DAY($day) }, { $standing }: nicht kosten, wegwerfen
    }
standing-since = { $text } ({ $since })
standing-graver-since = nachgesehen am { DAY($day) }, nach den heutigen Tabellen schwerer
standing-corrected-since = nachgesehen am { DAY($day) }, seither berichtigt
standing-looked-up-in = (am { DAY($day) }, in { $publication })
standing-was-it-fresh = nach der Ordnung des Buchs, das Älteste zuerst; war es frisch?
standing-gravest = { $n } von { $n2 } Posten; der schwerste: { $text }
standing-unsealed = nicht dicht geworden: im Kühlschrank, aufzuessen bis { DAY($day) }
standing-raw-past = roh, und seit { DAY($day) } über die Zeit im Kühlschrank: nicht kosten, wegwerfen, außer es wurde rechtzeitig eingefroren oder gegart
standing-unsealed-past = nicht dicht geworden, und seit { DAY($day) } über die Zeit im Kühlschrank: nicht kosten, wegwerfen
standing-item-of-day = { $item } vom { DAY($day) }
standing-and-more = { $names } und { $n } weitere
standing-in-danger = { $n ->
        [one] VORSICHT: Gläser oder Speisen aus { $n } Ansatz in Gefahr sind hier: { $batches }. Nichts davon essen und nichts davon weggeben, bevor das geklärt ist. Wie jedes steht, ist daneben gesagt.
       *[other] VORSICHT: Gläser oder Speisen aus { $n } Ansätzen in Gefahr sind hier: { $batches }. Nichts davon essen und nichts davon weggeben, bevor das geklärt ist. Wie jedes steht, ist daneben gesagt.
    }
standing-nothing-saved = { $there ->
        [some] VORSICHT: Diese Ansätze stehen in Gefahr oder sind noch nicht geklärt, und was auch die Tabelle sagt, bis dahin ist an ihnen nichts gespart: { LIST($list, type: "commas") }. Die Tabelle sagt, wie jeder steht, und was zu tun ist, wo noch etwas da ist.
       *[none] Gläser dieser Ansätze standen in Gefahr oder waren nicht geklärt und wurden weggeworfen: Was auch die Tabelle sagt, an ihnen wurde nichts gespart: { LIST($list, type: "commas") }.
    }
standing-from-jar = { $amount } { $name } aus einem Glas, das so steht: { $text }.
standing-from-unsealed = { $amount } { $name } aus einem Glas, das nicht dicht wurde und seit { DAY($day) } über die Zeit im Kühlschrank ist: nicht kosten, wegwerfen.
standing-botulism = { $how ->
        [oil] Unter Öl oder Fett können Sporen des Botulismus wachsen: Dort ist keine Luft
       *[low-acid] In einem Glas mit wenig Säure können Sporen des Botulismus wachsen
    }; es muss weder riechen noch anders aussehen.
standing-taken-ask = Wird es trotzdem genommen?
standing-taken = es wird trotzdem genommen
standing-signs = Wer davon gegessen hat und Doppelbilder, hängende Lider, verwaschene Sprache oder Schwäche hat: den Notruf wählen und sagen, was gegessen wurde.
standing-signs-of-who-ate = Wer aus einem Glas aß, das nicht wie veröffentlicht erhitzt wurde, und Doppelbilder, hängende Lider, verwaschene Sprache oder Schwäche hat: den Notruf wählen und sagen, was gegessen wurde.
standing-event-took = Ereignis { SAY($n, style: "plain") }: { $amount } { $name } kam aus einem Glas, das so steht: { $text }
standing-nothing-to-compare = es ist nichts veröffentlicht, womit es zu vergleichen wäre
