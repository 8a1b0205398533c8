# Why something is refused; .wanted is what would be right.

refusal-missing = is missing
refusal-did-you-mean = Did you mean { $name }?
refusal-one-of = Write one of: { LIST($known, type: "commas") }
refusal-no-open-question = there is no question { $n }
    .wanted = See `croftbook questions`
refusal-question-missing = is missing
    .wanted = See `croftbook questions`
refusal-nothing-to-undo = nothing is left to take back
    .wanted = See `croftbook history`
refusal-neither-name = neither { $old } nor { $new } is in the book
    .wanted = Check the names
refusal-no-ics = { $file } does not end in .ics
    .wanted = Write it like household.ics
refusal-book-blank = nothing is written in it yet
    .wanted = Write down what happens first
refusal-file-not-ours = { $file } is there and is none of ours
    .wanted = Name a new file
refusal-no-folder = there is no folder { $folder }
    .wanted = Make it first
refusal-nobody-here = nobody is here to say yes, and nothing was written
    .wanted = Add --yes where you have read the figures and agree
refusal-one-day-missing = is missing
    .wanted = Name both days of the season before, or neither
refusal-folder-full = { $folder } is not empty
    .wanted = Name a new folder
refusal-no-book = there is no book at { $where }
    .wanted = Check the path; a first entry begins one there
refusal-name-no-utf8 = the name { $name } is not UTF-8
    .wanted = Rename the file
refusal-no-file-name = { $name } cannot be a file's name
    .wanted = Name another
refusal-no-workbook = { $file } is no workbook
    .wanted = Leave --sheet out
refusal-no-plain-file = { $file } is no plain file
    .wanted = Name another
refusal-export-is-no-table = { $file } is named as a table, and an export is JSON Lines, an event a line
    .wanted = Give it a name that ends in .jsonl; for a table: croftbook show QUESTION --csv, as in croftbook show shelf --csv
refusal-file-there = { $file } is there already
    .wanted = Name another, or add --over
refusal-no-plain-target = { $file } is no plain file
    .wanted = Name a new file
# $known: the items that were used, or none
refusal-not-used = { $known ->
        [none] { $name } is not among what was used (nothing)
       *[other] { $name } is not among what was used ({ LIST($known, type: "commas") })
    }
    .wanted = Name it as there, or write the line: --used "2 lb onion, strained out"
refusal-makes-missing = is missing
    .wanted = Name what you will put up, e.g. 'green beans'
refusal-no-place = “{ $words }” found no place.
refusal-nothing-said = There is nothing to write down.
refusal-say-it = Say it in the words, or take what is offered with --yes; nothing was written
refusal-no-kind = there is no kind { $kind }
refusal-no-item = there is no item { $item } in this book
    .wanted = Read the whole history for its name
refusal-no-table = no table of this book was shown yet, so there is no row { SAY($n, style: "plain") }
    .wanted = Ask `croftbook show jar-cost` first
refusal-no-row = the table shown last ({ $question }) has no row { SAY($n, style: "plain") }
    .wanted = Its rows are 1 to { SAY($count, style: "plain") }
refusal-more-words = { $words } is more than { $command } takes
    .wanted = Put names of several words into quotes
