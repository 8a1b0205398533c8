"""What pages are built of: tables, pictures, figures that open, sentences for what is not there."""

from dashboard.parts.choices import choice, choices
from dashboard.parts.empty import nothing_yet
from dashboard.parts.figures import figure, stat
from dashboard.parts.pictures import picture
from dashboard.parts.saying import say, sentences
from dashboard.parts.sections import cautions, notes_of, section
from dashboard.parts.sheets import sheet
from dashboard.parts.still import still
from dashboard.parts.tables import answer_table, csv_link, plain_table

__all__ = [
    "answer_table",
    "cautions",
    "choice",
    "choices",
    "csv_link",
    "figure",
    "notes_of",
    "nothing_yet",
    "picture",
    "plain_table",
    "say",
    "section",
    "sentences",
    "sheet",
    "stat",
    "still",
]
