# Why a way of putting up is not open today; what ways are called.
ways-no-altitude = the altitude is not set (`croftbook setting altitude "1200 ft"`)
ways-no-gauge = the canner's gauge is not set (`croftbook setting gauge dial`, or weighted)
ways-gauge-off = the dial gauge read high when it was last tested: have it adjusted or replaced first
ways-product-open = which published product it is was left open
ways-none-confirmed = no confirmed process is printed for it at this altitude and gauge
ways-not-by = { $product } by { $method }: no process is published
ways-no-canning = { $crop }: no canning process is published for it
ways-only-as = { $crop }: published only as { $products }, by that recipe
ways-lacks = { $product } by { $method }: { $why }
ways-no-jar = { $product } by { $method }: no jar of yours has a confirmed process here
ways-frozen = { $span } at 0 F ({ $source })
ways-in-jars = { $product } in { $jars }
ways-frozen-crop = frozen { $crop }
ways-done = { $do } { $name }
