# Ein Ziel, wie der Haushalt es gesetzt hat.

target-per = { $per ->
        [week] { $amount } in der Woche
        [person-year] { $amount } je Person im Jahr
       *[year] { $amount } im Jahr
    }
target-by = { $amount } bis { DAY($day) }
