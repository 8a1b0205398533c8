# Tests of gauges, and what is refused about them.

gauge-reads-nothing = { $name } reads nothing that could be off: a weighted gauge is not tested so
    .wanted = Name the canner with the dial gauge, or dial; correct the batches where a weight was wrong
gauge-no-reading = { $text } is not a reading
    .wanted = Write it like "+2 psi" where it reads two too high, "-1 psi" where it reads one too low
gauge-other-unit = { $text } is in { $unit }, and gauges are compared in psi
    .wanted = It comes to { $sign }{ $psi } psi: write "{ $sign2 }{ $psi2 } psi" if that is meant
gauge-not-psi = { $text } is not in psi
    .wanted = Write it like "+2 psi" where it reads two too high, "-1 psi" where it reads one too low
gauge-no-direction = { $text } does not say whether too high or too low
    .wanted = Write it like "+2 psi" where it reads two too high, "-1 psi" where it reads one too low
gauge-both-directions = { $text } says both too high and too low
    .wanted = Write it like "+2 psi" where it reads two too high, "-1 psi" where it reads one too low
gauge-beyond-dial = { $text } is more than a dial of 0 to { SAY($most, style: "plain") } psi can be off
    .wanted = Write only what it reads too high or too low, in psi
gauge-no-equipment = { $name } is no piece of equipment in this book
gauge-other-sort = { $sort ->
        [none] { $name } is no equipment, not equipment
       *[other] { $name } is { $sort }, not equipment
    }
gauge-name-canner = { $near ->
        [none] Name a canner that batches name, or write dial
       *[other] did you mean { $near }? Else name a canner that batches name, or write dial
    }
gauge-reads = { $way ->
        [right] { $by ->
            [none] gauge { $name } reads right
           *[other] gauge { $name } reads right (tested by { $by })
        }
        [low] { $by ->
            [none] gauge { $name } reads { $n } psi too low
           *[other] gauge { $name } reads { $n } psi too low (tested by { $by })
        }
       *[high] { $by ->
            [none] gauge { $name } reads { $n } psi too high
           *[other] gauge { $name } reads { $n } psi too high (tested by { $by })
        }
    }
gauge-was-off = { $what ->
        [read] { $name ->
            [none] The dial gauge read { $high } psi too high when it was tested on { DAY($day, style: "iso") }: { $read } psi on it were { $true } psi ({ $source }). Replace it before the next load.
           *[other] The gauge of { $name } read { $high } psi too high when it was tested on { DAY($day, style: "iso") }: { $read } psi on it were { $true } psi ({ $source }). Replace it before the next load.
        }
        [short] { $name ->
            [none] The dial gauge read { $high } psi too high when it was tested on { DAY($day, style: "iso") }; beyond 2 psi the load is short as a whole ({ $source }). Replace it before the next load.
           *[other] The gauge of { $name } read { $high } psi too high when it was tested on { DAY($day, style: "iso") }; beyond 2 psi the load is short as a whole ({ $source }). Replace it before the next load.
        }
        [both] { $name ->
            [none] The dial gauge read { $high } psi too high when it was tested on { DAY($day, style: "iso") }: { $read } psi on it were { $true } psi; beyond 2 psi the load is short as a whole ({ $source }). Replace it before the next load.
           *[other] The gauge of { $name } read { $high } psi too high when it was tested on { DAY($day, style: "iso") }: { $read } psi on it were { $true } psi; beyond 2 psi the load is short as a whole ({ $source }). Replace it before the next load.
        }
       *[plain] { $name ->
            [none] The dial gauge read { $high } psi too high when it was tested on { DAY($day, style: "iso") } ({ $source }). Replace it before the next load.
           *[other] The gauge of { $name } read { $high } psi too high when it was tested on { DAY($day, style: "iso") } ({ $source }). Replace it before the next load.
        }
    }
gauge-read-too-high = read too high, by its test
gauge-true-pressure = true pressure
gauge-no-pressure = no pressure
