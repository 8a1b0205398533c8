# What commands print themselves, and what they ask.

cli-version = croftbook, version { $version }
cli-stopped = Stopped; nothing was half written.
# $error: the name of a Python error; $where: where a report is
cli-should-not = something went wrong that should not ({ $error }). Nothing was half written. { $where }
cli-no-report = Set CROFTBOOK_DEBUG=1 and try again to see where.
cli-report = Please send the report in { $file } to whoever keeps the program.
cli-note = note: { $text }
cli-warning = warning: { $text }
cli-book-empty = your book is empty. Write something down first, for example: croftbook harvest "31 lb plum"
cli-entries-done = { $label }: { $n ->
        [one] 1 entry
       *[other] { $n } entries
    }
cli-reading = reading the book
cli-and-more = and { SAY($n, style: "plain") } more

## Questions at a terminal

# $default: yes or no, what Enter takes
cli-yes-no = { $default ->
        [yes] Y/n
       *[no] y/N
    }
# words that count as such an answer, with blanks between
cli-yes = y yes
cli-no = n no
cli-yes-or-no = Answer y or n.
cli-one-of = Write one of: { SAY($known, style: "plain") }
cli-for-example = { $label } (e.g. { $example })
# $by: `--yes` or `--knowingly`
cli-takes = { $text } ({ $by } takes: { $offered })

## Saying and answering

cli-what-happened = What happened?
cli-what-happened-next = What happened? (Enter: done)
cli-nothing-to-write = Nothing to write down.
cli-say-open = open: { $question } (croftbook answer)
cli-did-not-happen = “{ $words }” did not happen: leave it out?
cli-no-place = “{ $words }” found no place:
cli-into-note = put it into the note
cli-leave-out = leave it out
cli-none-open = No question is open.
cli-answer-how = Answer one with: croftbook answer NUMBER "ANSWER"   (- where nobody knows)
cli-answer-later = { $question } (Enter: later)
cli-taken-back = taken back: { DAY($day, style: "iso") } { $what }
cli-undo-more = { $n ->
        [one] 1 entry that was written together with it stands still; { $command } takes it back.
       *[other] { $n } entries that were written together with it stand still; { $command } takes back the next.
    }

## What is due

cli-due-empty = Your book is empty.
cli-due-nothing = Nothing happened in your book yet.
cli-first-say-once = Say once what you know; each may be left out:
cli-first-people = how many eat at your table
cli-first-measures = us, uk or metric; us unless said
cli-first-language = numbers, names and words are read in it
cli-first-currency = the money that you count in; USD unless said
cli-first-altitude = minutes and pressure of canning go by it
cli-first-gauge = of the pressure canner: dial or weighted
cli-first-pantry = croftbook say "there are 12 quart jars of tomato sauce, 25 lb flour, 3 dozen eggs"
cli-first-then = Then write down what happened, in your own words, and ask:
cli-first-picked = croftbook say picked 31 lb plums
cli-first-look-round = Or look round first: `croftbook demo` opens an invented household; your book stays as it is.
cli-first-pages = The pages, on this machine: `croftbook serve`; every command: `croftbook --help`.
cli-due-undo = Take the last entry back with `croftbook undo`; every command: `croftbook --help`.
cli-due-none = Nothing has to be used this week.
cli-due-these = To use this week, or to look at first:
cli-due-by = by { DAY($day, style: "iso") }
cli-due-more = and { SAY($n, style: "plain") } more: croftbook show shelf
cli-due-open = Open questions: { SAY($n, style: "plain") } (croftbook questions), first: { $first }
cli-spent-unknown = ({ SAY($n, style: "plain") } without a price)
cli-spent-all = in all, { $currency }, { DAY($first, style: "iso") } to { DAY($last, style: "iso") }
cli-between-gave = Given to { $person }:
cli-between-got = Got from { $person }:
cli-between-all = at shop prices: { $total } { $currency }, money: { $money }
cli-no-price = no price known

## After a write

cli-last-time = last time ({ DAY($day, style: "iso") }): { $note }
cli-more-lines = and { SAY($n, style: "plain") } more lines
cli-new-item = { $name } is new. Its food-table row may be: { $command }
cli-own-weight = { $amount } by its own weight
cli-out-of-lot = out of lot { $lot }
cli-lot = lot { $lot }
cli-unsealed = { SAY($n, style: "plain") } unsealed { $lot }

## A batch

cli-putup-ask = Write this batch down?
cli-putup-ask-danger = Write down that it was done so?
cli-putup-marked = What was put up is marked: { $mark }.
cli-putup-schedule = published schedule: { $standing }
cli-plan-takes = { $item }, { $times } times the recipe takes:
cli-plan-there = { $there ->
        [none] none there
       *[other] { $there } there
    }
# $jars: so many of a sort of jar; $lid: the name of the lids
cli-plan-jars = { $jars } ({ SAY($empty, style: "plain") } empty), { SAY($n, style: "plain") } { $lid }s ({ SAY($lids, style: "plain") } there)
cli-plan-loads = { $n ->
        [one] 1 canner load at { $each } a load
       *[other] { SAY($n, style: "plain") } canner loads at { $each } a load
    }
# $what: the jars; $each: the cost of one, none where it is not in jars; $bound: least or exact
cli-cost = { $bound ->
        [least] { $each ->
            [none] { $what }: at least { $whole } { $currency } in all, { $pocket } of that out of pocket
           *[other] { $what }: at least { $each } a jar, { $whole } { $currency } in all, { $pocket } of that out of pocket
        }
       *[exact] { $each ->
            [none] { $what }: { $whole } { $currency } in all, { $pocket } of that out of pocket
           *[other] { $what }: { $each } a jar, { $whole } { $currency } in all, { $pocket } of that out of pocket
        }
    }
cli-cost-no-jars = not in jars
# follows cli-cost
cli-cost-quart = ; a quart { $own }, the shop's { $shop }
cli-cost-litre = ; a litre { $own }, the shop's { $shop }
cli-cost-unpriced = no price is known of { LIST($items, type: "commas") }
# $altitude: as the household wrote it, or none; $gauge: dial or weighted, or none
cli-before-head = { $altitude ->
        [none] { $gauge ->
            [none] { $item }, as published (altitude not set, gauge not set):
            [dial] { $item }, as published (altitude not set, dial gauge):
           *[weighted] { $item }, as published (altitude not set, weighted gauge):
        }
       *[other] { $gauge ->
            [none] { $item }, as published (altitude { $altitude }, gauge not set):
            [dial] { $item }, as published (altitude { $altitude }, dial gauge):
           *[weighted] { $item }, as published (altitude { $altitude }, weighted gauge):
        }
    }
cli-before-nothing = Nothing was written down.

## Files

cli-importing = importing
cli-exporting = exporting
cli-checking = checking
cli-import-bad = { $file }, line { SAY($n, style: "plain") }: { $problem }
cli-import-more-bad = and { SAY($n, style: "plain") } more bad lines
cli-import-more-notes = and { SAY($n, style: "plain") } more notes
cli-import-nothing = Nothing was written: bad lines { SAY($bad, style: "plain") }, good ones { SAY($good, style: "plain") }. Mend the lines named above and import again, or use --keep-good.
# $doing: would (a dry run) or did
cli-import-done = { $doing ->
        [would] { SAY($n, style: "plain") } events would be written, { SAY($items, style: "plain") } new items described, { SAY($known, style: "plain") } known already, { SAY($bad, style: "plain") } bad lines.
       *[did] { SAY($n, style: "plain") } events written, { SAY($items, style: "plain") } new items described, { SAY($known, style: "plain") } known already, { SAY($bad, style: "plain") } bad lines.
    }
cli-exported = { SAY($n, style: "plain") } events written to { $file }; its head is in { $file }.head
cli-export-fault = warning: the book does not hold, and so the export does not. { $fault }
cli-calendar-done = { $file }: { SAY($new, style: "plain") } new, { SAY($changed, style: "plain") } changed, { SAY($cancelled, style: "plain") } cancelled, { SAY($same, style: "plain") } as they were.
cli-sheet-written = { SAY($n, style: "plain") } entries written from { SAY($rows, style: "plain") } rows.
cli-sheet-rest = What was not taken stands in { $file }: mend it there and import that file.
cli-sheet-name = Sheet “{ $name }”
cli-sheet-one = One sheet alone: --sheet NAME
cli-sheet-understood = Understood: { SAY($n, style: "plain") }
cli-sheet-asked = Asked: { SAY($n, style: "plain") }
cli-sheet-open = Open: { SAY($n, style: "plain") }
cli-sheet-not-taken = Not taken: { SAY($n, style: "plain") }
cli-sheet-skipped = Skipped (titles, headings, totals): { SAY($n, style: "plain") }
cli-sheet-row = row { SAY($n, style: "plain") }: { $text }

## Keeping a book

cli-check-next = What to do next: put your newest backup in the book's place with `croftbook restore FILE` (the old book is set aside, not lost; --dry-run shows what would happen first).
cli-check-hold = { SAY($n, style: "plain") } events hold together.
cli-check-hold-from-first = { SAY($n, style: "plain") } events hold together, from the first on.
cli-check-end-known = Nothing is missing at the end: it is the one known here.
cli-check-end-unknown = Whether any are missing at its end cannot be told: no head of this book is kept here. If you wrote one down, compare: croftbook check --head "NUMBER DIGITS". To take this end for the right one from now on: croftbook check --accept
cli-check-note = Note: { $text }.
cli-check-unread = Not read, as this program does not know it: { $what }. Update Croftbook to read it.
cli-check-balanced = Every amount that came in is there or went out.
cli-check-head = Head, to write down: { $head }
cli-backup-done = { SAY($n, style: "plain") } events copied to { $file } and read back; its head is in { $file }.head
cli-restore-ask = Put it in the book's place?
# $of: the household, or none for the only one
cli-restore-hold = { $doing ->
        [would] { $of ->
            [none] { SAY($n, style: "plain") } events hold together and would be in the book.
           *[other] { SAY($n, style: "plain") } events of { $of } hold together and would be in the book.
        }
       *[did] { $of ->
            [none] { SAY($n, style: "plain") } events hold together and are in the book.
           *[other] { SAY($n, style: "plain") } events of { $of } hold together and are in the book.
        }
    }
cli-restore-lost = { $doing ->
        [would] { $of ->
            [none] { $n ->
                [one] 1 event that the copy does not hold would be only in the book set aside.
               *[other] { SAY($n, style: "plain") } events that the copy does not hold would be only in the book set aside.
            }
           *[other] { $n ->
                [one] 1 event of { $of } that the copy does not hold would be only in the book set aside.
               *[other] { SAY($n, style: "plain") } events of { $of } that the copy does not hold would be only in the book set aside.
            }
        }
       *[did] { $of ->
            [none] { $n ->
                [one] 1 event that the copy does not hold is only in the book set aside.
               *[other] { SAY($n, style: "plain") } events that the copy does not hold are only in the book set aside.
            }
           *[other] { $n ->
                [one] 1 event of { $of } that the copy does not hold is only in the book set aside.
               *[other] { SAY($n, style: "plain") } events of { $of } that the copy does not hold are only in the book set aside.
            }
        }
    }
cli-restore-nothing = Nothing was touched.
cli-restore-aside = The old book is set aside as { $file }

## The sample household, and a table's row

cli-building-demo = building the sample household
cli-demo-there = { $where } holds a book already; it is shown as it is.
cli-demo-book = The sample book is { $where }. Ask it more: croftbook show shelf --book { $where }
cli-demo-sauce = What home-made { $item } cost, batch by batch, and what the shop asked for the same
cli-demo-shelf = What is on the shelf
cli-row = Row { $n } of { $question }, as of { DAY($day, style: "iso") }

## A group of households

cli-circle-ask = Write these figures to { $file }?
cli-circle-hand-over = Hand it to whoever gathers the sheets: yours is deleted then.
cli-circle-begun = Give { $file } to every household, with one card each: { $command }
cli-circle-refused = refused: { $text }
cli-circle-gathered = { SAY($n, style: "plain") } sheets gathered; no entry of a book went with them
cli-circle-page = The page: { $file } (open it in a browser, or print it). One household beside the class: { $command }
cli-circle-left-out = left out: { $text }
cli-circle-failed = failed: { $text }
cli-steps = { $label }: { SAY($done, style: "plain") } of { SAY($of, style: "plain") }
cli-steps-building = building books and making sheets
cli-steps-making = making sheets
cli-drawn = { $name }, the oldest first: { LIST($lots, type: "commas") }. For what came in on { DAY($day, style: "iso") }: undo, and say “today's” of it
cli-drawn-lot = { $amount } of { DAY($day, style: "iso") }
cli-beside-line = { $said ->
        [none] line { SAY($n, style: "plain") }
       *[other] line { SAY($n, style: "plain") }, { $said }
    }
