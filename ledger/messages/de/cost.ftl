# Worauf Kosten beruhen: Preise, die nicht bekannt sind, und was niemand eintrug.
cost-unpriced = Von { $name } ist kein Preis bekannt; es zählt mit 0, und die Kosten sind mindestens so hoch.
cost-unrecorded = Von { $name } wurde verbraucht, was niemand als Zugang eingetragen hat; es zählt mit dem Ladenpreis jenes Tages.
cost-found = Von { $name } wurde mehr gezählt, als im Buch stand; es zählt mit dem Ladenpreis jenes Tages.
cost-unpaid = Was { $name } gekostet hat, wurde nicht eingetragen; es zählt zum Ladenpreis jenes Tages.
cost-price-later = Der Ladenpreis von { $name } wurde erst nach dem Tag gesehen, mit dem verglichen wird.
cost-provisional = Die Gartensaison läuft noch: Was die Ernte gekostet hat, kann sich noch ändern.
cost-unrecorded-unpriced = Von { $name } wurde verbraucht, was niemand als Zugang eingetragen hat, und kein Preis davon ist bekannt: Es zählt 0.
cost-found-unpriced = Von { $name } wurde mehr gezählt, als im Buch stand, und kein Preis davon ist bekannt: Es zählt 0.
cost-unpaid-unpriced = Was { $name } gekostet hat, wurde nicht eingetragen, und kein Preis davon ist bekannt: Es zählt 0.
cost-kept-otherwise = { $name } wird { $by } geführt, { $item } { $by2 }: `croftbook item "{ $lacks }" { $option }`, mit der eigenen Zahl, macht sie vergleichbar.
cost-kept-otherwise-weigh = { $name } wird { $by } geführt, { $item } { $by2 }: sein Gewicht, mit der eigenen Zahl, macht sie vergleichbar.
cost-by = { $measure ->
        [mass] nach Gewicht
        [volume] nach Rauminhalt
        [energy] nach Energie
       *[count] nach Stück
    }
cost-no-shop-price = Kein Ladenpreis ist bekannt von { LIST($names, type: "commas") }: Einen Preis nimmt `croftbook price "{ $one } { $first }" 4,50`, und was ihr stattdessen kaufen würdet, `croftbook item "{ $first }" --shop-equivalent ITEM`.
