# A target as the household set it.

target-per = { $per ->
        [week] { $amount } per week
        [person-year] { $amount } per person year
       *[year] { $amount } per year
    }
target-by = { $amount } by { DAY($day, style: "iso") }
