# Worauf eine Antwort beruht, was immer sie beantwortet.
note-unread = { $n ->
        [one] 1 Eintrag fehlt hier, weil dieses Programm nicht lesen kann, was geschrieben wurde ({ $why })
       *[other] { $n } Einträge fehlen hier, weil dieses Programm nicht lesen kann, was geschrieben wurde ({ $why })
    }
