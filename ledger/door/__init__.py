"""The door: everything that is written comes through here, typed or from a file.

`write` checks a typed event, resolves its items and amounts, settles doubts (`Answers`) and
appends it. `importing` and `csvfile` read files,
`texts` reads the short texts of the command line.
"""

from ledger.door.answers import Answers
from ledger.door.texts import Texts
from ledger.door.writing import Entry, Written, write
from ledger.kinds.setting_changed import jars_per_load

__all__ = ["Answers", "Entry", "Texts", "Written", "jars_per_load", "write"]
