# How a jar stands, on shelf, label and page, and what is asked before it is opened. $standing: a fixed word; $do: what it asks for.
standing-plain = { $standing }, { DAY($day, style: "iso") }
standing-mark = { $do ->
        [settle] { $standing }, { DAY($day, style: "iso") }: do not eat before it is settled
        [write] { $standing }, { DAY($day, style: "iso") }: write down what is missing before it is eaten
        [look-up] { $standing }, { DAY($day, style: "iso") }: look it up before it is eaten
        [ruled-out] { $standing }, { DAY($day, style: "iso") }: not to be canned in any canner; do not taste, discard
       *[discard] { $standing }, { DAY($day, style: "iso") }: do not taste, discard
    }
standing-made-of-plain = made of { $item } of { DAY($day, style: "iso") }, { $standing }
standing-made-of = { $do ->
        [settle] made of { $item } of { DAY($day, style: "iso") }, { $standing }: do not eat before it is settled
        [write] made of { $item } of { DAY($day, style: "iso") }, { $standing }: write down what is missing before it is eaten
        [look-up] made of { $item } of { DAY($day, style: "iso") }, { $standing }: look it up before it is eaten
        [ruled-out] made of { $item } of { DAY($day, style: "iso") }, { $standing }: not to be canned in any canner; do not taste, discard
       *[discard] made of { $item } of { DAY($day, style: "iso") }, { $standing }: do not taste, discard
    }
standing-since = { $text } ({ $since })
standing-graver-since = looked up on { DAY($day, style: "iso") }, and stands graver by today's tables
standing-corrected-since = looked up on { DAY($day, style: "iso") }, and corrected since
standing-looked-up-in = (on { DAY($day, style: "iso") }, in { $publication })
standing-was-it-fresh = by the book's order, oldest first; was it fresh?
standing-gravest = { $n } of { $n2 ->
        [one] 1 lot
       *[other] { $n2 } lots
    }; the gravest: { $text }
standing-unsealed = did not seal: in the fridge, to be eaten by { DAY($day, style: "iso") }
standing-raw-past = raw, and past its days in the fridge since { DAY($day, style: "iso") }: do not taste, discard, unless it was frozen or cooked in time
standing-unsealed-past = did not seal, and past its time in the fridge since { DAY($day, style: "iso") }: do not taste, discard
standing-item-of-day = { $item } of { DAY($day, style: "iso") }
standing-and-more = { $names } and { $n } more
standing-in-danger = { $n ->
        [one] CAUTION: jars or food of { $n } batch that stands in danger are here: { $batches }. Do not eat of it and do not give it away before that is settled. How each stands is said beside it.
       *[other] CAUTION: jars or food of { $n } batches that stand in danger are here: { $batches }. Do not eat of it and do not give it away before that is settled. How each stands is said beside it.
    }
standing-nothing-saved = { $there ->
        [some] CAUTION: jars of these batches bear a mark, and whatever the table says nothing is saved by them before that is settled: { LIST($list, type: "commas") }. The table says how each stands, and what to do where jars are there.
       *[none] Jars of these batches bore a mark and were thrown out: whatever the table says, nothing was saved by them: { LIST($list, type: "commas") }.
    }
standing-from-jar = { $amount } of { $name } from a jar that stands so: { $text }.
standing-from-unsealed = { $amount } of { $name } from a jar that did not seal, and past its time in the fridge since { DAY($day, style: "iso") }: do not taste, discard.
standing-botulism = { $how ->
        [oil] Under oil or fat spores of botulism can grow: there is no air
       *[low-acid] In a jar of food of little acid spores of botulism can grow
    }; it may have no smell and no look.
standing-taken-ask = Is it taken all the same?
standing-taken = it is taken all the same
standing-signs = If anyone has eaten of it and has double vision, drooping eyelids, slurred speech or weakness: call emergency services and say what was eaten.
standing-signs-of-who-ate = Whoever ate of a jar that was not processed as published and has double vision, drooping eyelids, slurred speech or weakness: call emergency services and say what was eaten.
standing-event-took = event { SAY($n, style: "plain") }: { $amount } of { $name } came from a jar that stands so: { $text }
standing-nothing-to-compare = nothing is published that it could be compared with
