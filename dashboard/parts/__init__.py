"""What pages are built of: tables, pictures, figures that open, sentences for what is not there."""

from dashboard.parts.choices import choice, choices
from dashboard.parts.empty import nothing_yet
from dashboard.parts.figures import figure, stat
from dashboard.parts.marks import icon, jar_row
from dashboard.parts.pictures import picture
from dashboard.parts.saying import say, sentences
from dashboard.parts.sections import answered, cautions, notes_of, section, sentence
from dashboard.parts.sheets import sheet
from dashboard.parts.still import still
from dashboard.parts.tables import answer_table, csv_link, plain_table
from dashboard.parts.written import written_card

__all__ = [
    "answer_table",
    "answered",
    "cautions",
    "choice",
    "choices",
    "csv_link",
    "figure",
    "icon",
    "jar_row",
    "notes_of",
    "nothing_yet",
    "picture",
    "plain_table",
    "say",
    "section",
    "sentence",
    "sentences",
    "sheet",
    "stat",
    "still",
    "written_card",
]
