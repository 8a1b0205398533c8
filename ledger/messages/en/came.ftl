# How often what the book said came true, and how that is found.
came-asked-again = Every { $n } weeks back, at most five years, the questions are asked again as the book was then, with what had been written down by the end of that day; what was said is set beside what is known now.
came-past-its-end = A range of days counts once its last day is past, a use once its twelve weeks are; use counts by the days on which there was some.
came-base-rate = The score without is that of the plain mean of the year before with the errors that it made in this household, and of chances how often it came in all: both know the outcome, so they are hard to beat.
came-needs-as-said = Whether plants would have brought enough goes by what was likely needed as it was said then.
came-kept-or-spoiled = Kept: nothing of it was thrown away as spoiled or too old up to the day said; nobody writes down all that spoils. It is no word on safety.
came-none-known = None of it is known yet.
came-ranges-held = { $n } of { $n2 } earlier ranges held.
came-seasons-brought = { $n } of { $n2 } seasons brought at least as much.
came-kept = { $n } of { $n2 } kept as long as said.
came-times = It came { $n } of { $n2 } times.
came-nothing-yet = Nothing can be asked again yet: what the book said is set beside what came once four weeks of use were written down some weeks ago.
came-ranges-in-all = { $n } of { $n2 } earlier ranges held; of 80 % ranges 8 in 10 should.
came-widened = Of the last ones too few held ({ $n } of { $n2 }), so ranges are { $n3 } times as wide as the method has them.
came-not-widened = Of the last ones { $n } of { $n2 } held: no range is widened.
