# Was gefragt wird, bevor etwas Zweifelhaftes aufgeschrieben wird, und die angebotenen Antworten.

doubt-done-so = so wurde es gemacht
doubt-right = es stimmt
doubt-name-near = { $name } steht noch nicht im Buch; meinst du { $near }?
doubt-oldest = das älteste nehmen
doubt-newest = { $text }, die neuesten
doubt-in-pieces = { $item }, in Stück gezählt
doubt-clock = die Uhr dieses Rechners sagt { DAY($today) }, und zuletzt wurde am { DAY($last) } etwas aufgeschrieben; geht die Uhr richtig?
doubt-future = { DAY($day) } kommt erst noch; stimmt der Tag?
doubt-close-to = { $item } ist ähnlich wie { $near }; ist es etwas anderes?
doubt-yes-right = ja, es stimmt
doubt-taken-all-the-same = es wird trotzdem genommen
doubt-sourced = { $question } ({ $source })
doubt-not-known = es ist nicht bekannt
doubt-another-item = es ist etwas anderes
