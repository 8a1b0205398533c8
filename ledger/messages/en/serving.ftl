# What a published plan wants for one person.
serving-half-pints = { $n ->
        [one] { $n } half-pint a person
       *[other] { $n } half-pints a person
    }
serving-pints = { $n ->
        [one] { $n } pint a person
       *[other] { $n } pints a person
    }
serving-quarts = { $n ->
        [one] { $n } quart a person
       *[other] { $n } quarts a person
    }
