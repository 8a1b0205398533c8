# What a published plan wants for one person.
serving-none = no servings said
serving-weekly = { $n } a week x { $n2 } weeks x { $size }
serving-in-weeks = { $n } in { $n4 } weeks x { $n2 } weeks x { $size }
serving-cup = { $n } cup
serving-tsp = { $n } tsp
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
