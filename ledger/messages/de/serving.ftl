# What a published plan wants for one person.
serving-half-pints = { $n ->
        [one] { $n } Halbpint je Person
       *[other] { $n } Halbpints je Person
    }
serving-pints = { $n ->
        [one] { $n } Pint je Person
       *[other] { $n } Pints je Person
    }
serving-quarts = { $n ->
        [one] { $n } Quart je Person
       *[other] { $n } Quarts je Person
    }
