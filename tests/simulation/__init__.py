"""Forecasts tried on simulated households and gardens; run with ``-m simulation -s``."""
