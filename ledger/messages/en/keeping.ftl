keeping-nothing-discarded-takes-what-lost = Nothing was discarded: `croftbook discard` takes what was lost and why.
keeping-money-hours-what-had-gone = Money and hours are what had gone into it; a glut fed to animals is a loss of food here, whatever feed it spared.
keeping-losses-written-down-from-ten = { $n ->
        [one] 1 loss is
       *[other] { $n } losses are
    } written down; from ten of one item and place on, its own curve counts.
keeping-still-good = not failed
keeping-failed = failed
keeping-reckon = reckon with
keeping-no-food-came-yet = No food came in yet.
keeping-survival-product-limit-estimate-error = Survival by the product-limit estimate, its error by Greenwood; what was eaten, given away, composted, fed to animals or is still there counts as not failed at its age, which is no word on safety.
keeping-published-life-never-lengthened-jar = A published life is never lengthened: a jar's date, a chart's months and advice come first, whatever kept longer here.
keeping-what-kept-weight-volume-each = Of what is kept by weight or volume, each taking out counts as one.
keeping-nothing-failed = nothing failed
keeping-good-this-age = not failed at this age
keeping-published = published
keeping-seen = seen
keeping-greenwood-standard-error = Greenwood's standard error
keeping-area-under-curve = area under the curve
keeping-there = there
keeping-too-few = too few to say
keeping-half-failed = age by which half had failed
keeping-first-hint = { $n ->
        [one] 1 failure
       *[other] { $n } failures
    }: a first hint
keeping-more-than-half = more than half not failed to the end: at least { $n ->
        [one] 1 day
       *[other] { $n } days
    }
keeping-published-stands = kept longer here; the published life stands
keeping-half-good = half had not failed for { $n ->
        [one] 1 day
       *[other] { $n } days
    }
keeping-good = not failed
keeping-day = day { $n }
keeping-nothing-seen-good = nothing was seen that had not failed
keeping-still-there = still there
keeping-nothing-published = nothing is published
keeping-neither-known = neither is known
keeping-nothing-left = nothing is left
keeping-no-batch = no batch made it
keeping-lost = { $item }, { $cause }
