# What an answer rests on, whatever it answers.
note-unread = { $n ->
        [one] 1 entry is left out, as this program cannot read what was written ({ $why })
       *[other] { $n } entries are left out, as this program cannot read what was written ({ $why })
    }
