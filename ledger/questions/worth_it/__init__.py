"""The question whether the season was worth it: money in and out, hours, and what came of it.

`question` is its door; it is not opened here, as the pay-back of what lasts stands on `gather`.
"""
