# What is asked of a person before something doubtful is written down, and the answers that are offered.

doubt-done-so = it was done so
doubt-right = it is right
doubt-name-near = { $name } is not in the book yet; did you mean { $near }?
doubt-oldest = take the oldest
doubt-newest = { $text }, the newest
doubt-in-pieces = { $item }, counted in pieces
doubt-clock = this machine's clock says { DAY($today, style: "iso") }, and the last entry was written down on { DAY($last, style: "iso") }; is the clock right?
doubt-future = { DAY($day, style: "iso") } is still to come; is the day right?
doubt-close-to = { $item } is close to { $near }; is it another item?
doubt-yes-right = yes, it is right
doubt-taken-all-the-same = it is taken all the same
doubt-sourced = { $question } ({ $source })
doubt-not-known = it is not known
doubt-another-item = it is another item
