"""What tests of the gate share: a phone, the cookies of a session, and whether a browser is in."""

from __future__ import annotations

PHONE = "Mozilla/5.0 (Linux; Android 15) AppleWebKit/537.36 Chrome/140.0 Mobile Safari/537.36"
COOKIES = ("croftbook", "croftbook-device")
HTML = {"Accept": "text/html,application/xhtml+xml"}


def is_in(client):
    return client.get("/position").status_code == 200
