"""The gate: who may come in, from which name, and with which word."""

from dashboard.gate.gate import Gate
from dashboard.gate.passphrase import Keeper

__all__ = ["Gate", "Keeper"]
