# What is said of skills: how they stand, what changed, and what their figures rest on.
skills-practice = Practice spread over time keeps longest, a try that failed does not count, and what was done only once is soon gone: in hand for as long as good practices keep it, from { $n } days after the first to a year; going rusty up to four times as long, then out of practice.
skills-practice-source = Our own choice, set by what is published of forgetting ({ SAY($source, style: "plain") }).
skills-season = Judged by the seasons that passed without it, one: going rusty, two: out of practice: growing a crop, batches that mostly use what was picked, and what two years or more saw in one half of the year only. Our own choice.
skills-minutes-for-one = Minutes for one: all work of a batch by what it made. The learning rate fits minutes = first x n^b to them, every entry being a repetition, from five batches on, with its 95 per cent range.
skills-unnamed = Entries that name neither work nor writer count for the household only: say who with `--work` or `--by`.
skills-curve = Fitted: minutes for one = first x n^b, by least squares on the logarithms; every entry that practises the skill is a repetition, recorded or not. The range is that of the curve, 95 per cent by Student's t.
skills-one-in-hand = In hand.
skills-all-in-hand = All in hand.
skills-in-danger = { $n ->
        [one] Practice alone is counted here: the only batch of { $skill } stands in danger ({ LIST($list, type: "commas") }).
       *[other] Practice alone is counted here: all { $n } batches of { $skill } stand in danger ({ LIST($list, type: "commas") }).
    }
skills-none = Nothing practised is written down yet.
skills-never-tried = Never tried: { LIST($list, type: "commas") }.
skills-out-of-practice = Out of practice: { LIST($list, type: "commas") }.
skills-going-rusty = Going rusty: { LIST($list, type: "commas") }.
skills-out-of-practice-in-it = Out of practice in it: { LIST($list, type: "commas") }.
skills-going-rusty-in-it = Going rusty in it: { LIST($list, type: "commas") }.
skills-held-by-one = Held by one person only: { LIST($list, type: "commas") }.
skills-not-practised = Not practised in { SAY($n, style: "plain") }: { LIST($list, type: "commas") }.
skills-wanted = Wanted and not there yet: { LIST($list, type: "commas") }.
skills-wanted-and-done = Wanted and done: { LIST($list, type: "commas") }.
skills-done-of = { $per ->
        [year] { $skill } { $n } of { $n2 } this year
        [week] { $skill } { $n } of { $n2 } this week
        [person-year] { $skill } { $n } of { $n2 } for each person this year
       *[once] { $skill } { $n } of { $n2 }
    }
skills-better = Went better lately: { LIST($list, type: "commas") }.
skills-worse = Went worse lately: { LIST($list, type: "commas") }.
skills-went = { $skill } ({ $n } after { $n2 } of 5)
skills-quicker = Quicker with practice (minutes for one, each time the batches double): { LIST($list, type: "commas") }.
skills-slower = Slower each time (minutes for one, each time the batches double): { LIST($list, type: "commas") }.
skills-as-quick = Neither quicker nor slower for sure (minutes for one, each time the batches double): { $skill }.
skills-rate = { $skill } to { $n } % ({ $n2 } to { $n3 })
skills-seasons-missed = { $n ->
        [0] its season has not passed without it
        [one] one season passed without it
       *[other] { $n } seasons passed without it
    }
skills-keeps = { $n ->
        [one] went well once, which keeps { $days ->
                [one] 1 day
               *[other] { $days } days
            }
       *[other] went well { $n } times, which keeps { $days ->
               [one] 1 day
              *[other] { $days } days
           }
    }
skills-last = { $n ->
        [0] the last today
        [one] the last yesterday
       *[other] the last { $n } days ago
    }
skills-failed-lately = { $n ->
        [one] the last try failed
       *[other] the last { $n } tries failed
    }
skills-none-well = { $n ->
        [one] tried once, and it did not go well
       *[other] tried { $n } times, none went well
    }
skills-no-practice = no practice written down
skills-twice-the-batches = Twice the batches take { $n } % of the minutes for one { $unit } ({ $n2 } to { $n3 } %), by { $n4 } batches.
skills-next-one = The next one: { $n } minutes for one { $unit }, most likely between { $n2 } and { $n3 } (19 in 20).
skills-too-few-batches = { $n } of at least { $n2 } batches of { $name } have minutes of work and an amount made: write the work with each batch (`croftbook putup --work`)
skills-no-curve = { $name } has no learning curve: only batches tell how much was made in the time
skills-several = { $name } has no learning curve, as it puts up things that take different times: ask for one of them, as { $item }
skills-misnamed = { $name } was never practised under that name, but { $other } was: set the target for that name if it is the same
skills-growing = growing { $crop }
