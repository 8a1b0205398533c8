"""Amounts: what people write, as exact whole numbers.

`parse_amount` and `split_line` read text, `format_whole` prints it, `weight_factor` crosses from
one measure to another. The units are in ``definitions.txt``, read by Pint when first needed.
"""

from ledger.amounts._carried import Said
from ledger.amounts._format import format_figure, format_measured, format_whole
from ledger.amounts._jars import JAR, canonical_jar, jar_volume_ul
from ledger.amounts._numbers import has_decimal_comma, parts_thousands
from ledger.amounts._parse import Amount, parse_amount, parse_measure, split_line
from ledger.amounts._pressure import pressure_psi
from ledger.amounts._units import NAMED_PIECES, canonical, is_counted, known_units, plural
from ledger.amounts._units import factor as unit_factor
from ledger.amounts._weights import weight_factor

__all__ = [
    "JAR",
    "NAMED_PIECES",
    "Amount",
    "Said",
    "canonical",
    "canonical_jar",
    "format_figure",
    "format_measured",
    "format_whole",
    "has_decimal_comma",
    "is_counted",
    "jar_volume_ul",
    "known_units",
    "parse_amount",
    "parse_measure",
    "parts_thousands",
    "plural",
    "pressure_psi",
    "split_line",
    "unit_factor",
    "weight_factor",
]
