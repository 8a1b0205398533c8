# What each command does: a line for the list, and under .long the whole help.

## Writing

command-item = say what an item is, weighs, holds or is called
command-plant = write down what was sown or set out
command-harvest = write down what was picked, dug or collected
command-buy = write down a purchase and what was paid
command-receive = write down a gift, a barter or something foraged
command-recipe = write a recipe once, to be used with putup
command-putup = write down a batch: what went in and what came out
command-meal = write down a meal
command-give = write down what was given, bartered or sold
command-discard = write down what was thrown away and why
command-count = write down what is really there
command-gauge = write down what a canner's gauge read when it was tested
command-settle = settle a batch that is to check yourself: which publication covers it
command-price = write down a price without buying
command-practise = write down that a skill was practised
command-target = say how much of something, or of a skill, is wanted
command-person = say who eats: age, sex, and what changes what they need
command-seed = look seed over: its year, what is left, and how it sprouted
command-frost = write down a year's last frost of spring or first frost of fall
command-flock = say how many hens there are
command-meter = write down what a meter of electricity or water shows
command-setting = change a setting of the household
command-strike = take an entry back; it stays readable in the history

## Asking and keeping

command-say = write down what happened, in your own words
    .long = Write down what happened as you would say it: one line or many, a list, a receipt.
command-questions = list what is still open: prices, weights, what went in
    .long = List what was written down though something was not known: a price, what a bucket weighs, what went in.
command-answer = answer an open question
    .long = Answer an open question by its number; without one, each is asked in turn.
command-undo = take back what was written last
    .long = Take back the entry written down last, in one step; it stays readable in the history. A correction is taken back to what stood before.
command-same = say that two names mean one thing
    .long = Say that two names mean one thing; it is called by the second from now on. This renames an item, or makes two items one.
command-spent = say what was spent: where, on what, when
    .long = Say what was spent: where, on what, or in which month; other spending on receipts too.
command-between = say how you stand with a neighbour
    .long = Say how you stand with a neighbour: what went there, what came, and what a shop would take for it.
command-show = ask a question: jar-cost, shelf, ...
    .long = Ask a question. Each answers as a table, with --json or --csv.
command-touched = follow a lot, item, gauge or batch to whoever had of it
command-why = open a figure to its arithmetic and events
    .long = Open a figure to its arithmetic and the events it comes from: by the number of a row in the table shown last, or by its address.
command-history = read every entry, newest first
    .long = Read every entry, newest first, with what was corrected or struck.
command-import = read a file of events, JSON Lines or CSV
    .long = Read a file of events: JSON Lines, or CSV with a header row; or an old sheet as it is (.csv, .xlsx, .ods). All or nothing.
command-export = write every event to a file
    .long = Write every event to a file as JSON Lines; its head is kept beside it.
command-calendar = write sowing, canner days and dates into a calendar file
    .long = Write what is to be done into a calendar file: sowing, canner days, what to eat first, gauge tests, skills.

        A file that is there is brought up to date in place; what others put into it stays.
command-check = verify the book, from the first event to the last
    .long = Verify the book: its events, its file, that nothing is missing at its end, and that every amount is accounted for. All households, unless one is named.

        The head that it shows is worth writing down on paper: with it you can tell, years later and on another machine, that nothing is missing.
command-backup = copy the book while it is in use
    .long = Copy the book, every household, while it is in use, and read the copy back.
command-restore = put a backup or an export in the book's place
    .long = Put a backup or an export in the book's place.

        The copy is checked first, from its first event to its last. The old book is set aside under a dated name, and the swap is all or nothing; a dashboard that is open sees it.
command-demo = build the sample household and open it
    .long = Build the sample household, print what its sauce costs and what is on its shelf, and open it.
command-serve = open the dashboard on a book
command-circle = compare a class or group of households, without laying one bare
    .long = Compare a class or group of households, without laying one bare.

        At home: `sheet` shows what a group asks for and writes it after your yes, `withdraw` takes it back, `beside` sets you beside the group. The others are for whoever gathers the sheets. Each ends with a line of JSON; there is no --json to ask for it.
command-completion = print shell completion for bash, zsh or fish
    .long = Print shell completion.

## Below circle

command-circle-beside = Set this household beside its group: the figures of a release and your own, on your machine alone.
command-circle-withdraw = Take a sheet back: writes a file that deletes it where it is gathered.
command-circle-sheet = Make this household's sheet of a season: shows every figure, asks, and writes the file after a yes.
command-circle-work = Where you keep the members' books: make the sheets of those who consent and whose book moved. Run it again after anything; it takes up what is left.

    The list has the columns book, household, card, zone and consent; book is a file beside it or a database's address without a password.
command-circle-demo = Build a class of invented households with two seasons each, make their sheets, gather and tell: from nothing to a page.
command-circle-page = Write the page of a release: one file for a screen or for paper.
command-circle-tell = Tell the class, or with --private the public, what the sheets say; a call's figures go one of the two ways.
command-circle-budget = Show how much epsilon is spent and left for the public.
command-circle-sheets = Print the sheets that are held, one a line.
command-circle-gather = Take sheets and withdrawals; a bad one is named, the others are kept.
command-circle-cards = Make cards, one a line: cut them apart and let each household draw one from a hat. They are shown once.
command-circle-begin = Begin a group: makes a folder with its call, which goes to every household.
