# Warum ein Weg des Haltbarmachens heute nicht offensteht; wie Wege heißen.
ways-no-altitude = die Höhe ist nicht eingestellt (`croftbook setting altitude "1200 ft"`)
ways-no-gauge = das Manometer des Topfs ist nicht eingestellt (`croftbook setting gauge dial`, oder weighted)
ways-gauge-off = das Zeigermanometer zeigte bei der letzten Prüfung zu viel: Lasst es zuerst einstellen oder ersetzt es
ways-product-open = welches veröffentlichte Erzeugnis es ist, blieb offen
ways-none-confirmed = für diese Höhe und dieses Manometer ist keine bestätigte Vorschrift gedruckt
ways-not-by = { $product } mit { $method }: keine Vorschrift ist dafür veröffentlicht
ways-no-canning = { $crop }: keine Einkochvorschrift ist dafür veröffentlicht
ways-only-as = { $crop }: nur veröffentlicht als { $products }, nach jenem Rezept
ways-lacks = { $product } mit { $method }: { $why }
ways-no-jar = { $product } mit { $method }: für keines eurer Gläser ist hier eine Vorschrift bestätigt
ways-frozen = { $span } bei 0 °F ({ $source })
ways-in-jars = { $product }, { $jars }
ways-frozen-crop = { $crop }, gefroren
ways-done = { $name }: { $do }
