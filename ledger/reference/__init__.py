"""Published tables, shipped with the package, each row with its source; read when first asked for.

`foods` (composition and household measures), `containers` (weights of a bushel and the like),
`planting` (yields by row), `schedules`, `storage` and `yields` (preserving). `docs/sources.md`
lists the documents. `crossing` uses the first two to bring an amount into another measure.
"""
