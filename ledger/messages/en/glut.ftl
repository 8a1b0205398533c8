glut-household = the household
glut-no-batch-your-own-stands = { $name }: no batch of your own stands as published
glut-no-empty-jar-book-can = { $name }: no empty jar is in the book to can it in
glut-if-nothing-done-kg-lost = If nothing is done, { $n } kg are lost in these { $n2 } days; by this plan { $n3 } kg.
glut-put-up-kg-hours-eaten = Put up { $n } kg in { $n2 ->
        [one] 1 hour
       *[other] { $n2 } hours
    }, eaten { $n3 } kg, given away { $n4 } kg.
glut-printed = As printed for { $name }: { $name2 }.
glut-nothing-garden-here-due-these = Nothing of the garden is here or due in these ten days that would not keep.
glut-only-printed-processes-planned-looked = Only printed processes are planned, looked up for altitude { $amount } and gauge { $gauge }; a line is a reminder and not the whole of one: read the current document and the canner's manual first (`croftbook show as-published`).
glut-what-comes-mean-same-days = What comes is the mean of the same days of earlier years, spread evenly; no weather is known.
glut-each-day-hours-hands-stove = Each day { $n } hours of hands and { $n2 } of stove (`--hours`, `--stove`); { $n3 } lids, { $n4 } lb of freezer room and { $n5 } lb of new food a day in it (2 lb a cubic foot); heating up and cooling 30 and 45 minutes (common practice, from memory).
glut-eating-comes-before-putting-up = Eating comes before putting up, that before giving, that before losing; nothing beyond what the year still wants is put up.
glut-fresh = fresh
glut-hours = hours
glut-plan-choice = { DAY($day, style: "iso") }, the plan's choice
glut-no-batch-your-own-stands-2 = { LIST($names, type: "commas") }: no batch of your own stands as published, so they are planned as the tables print them; pounds for a jar by their canner loads, no more than the first year's plan wants (`croftbook show first-year`) where it names them.
glut-fresh-keeps = Fresh it keeps: { $list }.
glut-nobody-three-days = nobody: three days are taken
glut-not-planned-for-canning = Not planned for canning, as only published processes count: { $list }. Freezing, drying, eating and giving away are left.
glut-no-better-plan = No better plan was found in ten seconds; there may be one.
glut-keeps-days = { $name } { $n ->
        [one] 1 day
       *[other] { $n } days
    } ({ $by })
glut-not-set = not set
glut-hours-are-a-guess = Hours not of your own record are a guess without a source.
glut-units-of-plan = { $counted ->
    [jar] jars of the plan
   *[kg] kg of the plan
}
glut-loads-of-plan = canner loads of the plan
glut-still-wanted = wanted by the year, less what is there
glut-fresh-by-loads = fresh for one, by published canner loads ({ $source })
glut-freeze-keeps = freeze, keeps { $life }; blanch or pack as published
glut-no-loads = no canner is needed
glut-hands-a-day = hours of hands a day, as asked
glut-stove-a-day = hours of the stove a day, as asked
glut-picked-earlier = picked on the same days of an earlier year
glut-not-wanted = no batch of your own says what the year wants
glut-no-hours = takes no hours
