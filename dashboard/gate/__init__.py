"""The gate: who may sign in, from which name, and with which passphrase."""

from dashboard.gate.devices import Devices
from dashboard.gate.gate import Gate
from dashboard.gate.passphrase import Keeper

__all__ = ["Devices", "Gate", "Keeper"]
