# What a published plan wants for one person.
serving-none = keine Portionen genannt
serving-weekly = { $n } in der Woche x { $n2 } Wochen x { $size }
serving-in-weeks = { $n } in { $n4 } Wochen x { $n2 } Wochen x { $size }
serving-cup = { $n } Tassen
serving-tsp = { $n } TL
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
