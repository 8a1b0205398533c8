"""Signing in and out, the list of devices, and how a phone is told to trust this server."""

from __future__ import annotations

import datetime as dt
import re
from typing import TYPE_CHECKING, Any
from zoneinfo import ZoneInfo

import flask

from dashboard.ask import words_of
from dashboard.data import Data
from dashboard.gate.waits import network_of
from dashboard.plain import plain_page
from dashboard.words import Words

if TYPE_CHECKING:
    from dashboard.gate.gate import Gate

__all__ = ["add_entrance", "device_name"]

_SYSTEMS = ("iPhone", "iPad", "Android", "Windows", "Macintosh", "CrOS", "Linux")
_BROWSERS = (
    ("Edg", "Edge"), ("OPR", "Opera"), ("Firefox", "Firefox"), ("FxiOS", "Firefox"),
    ("CriOS", "Chrome"), ("Chrome", "Chrome"), ("Safari", "Safari"),
)  # fmt: skip


def device_name(agent: str) -> str:
    """Return what a device says it is in two words, empty where it says nothing known."""
    system = next((one for one in _SYSTEMS if one in agent), "")
    browser = next((name for mark, name in _BROWSERS if mark in agent), "")
    return ", ".join(filter(None, [system.replace("Macintosh", "Mac"), browser]))


def add_entrance(server: flask.Flask, data: Data, gate: Gate) -> None:
    """Add the pages of the entrance; without a passphrase they say that nobody signs in."""

    @server.route("/enter", methods=["GET", "POST"])
    def enter() -> Any:
        words = words_of(data)
        if gate.keeper is None:
            return flask.redirect("/")
        if flask.request.method == "GET":
            return _entrance(words, gate, "")
        said = _tried(words, gate)
        if said:
            return _entrance(words, gate, said)
        return flask.g.let_in

    @server.post("/leave")
    def leave() -> Any:
        answer = flask.redirect("/enter")
        if gate.keeper is not None:
            gate.take(answer)
        return answer

    @server.get("/devices")
    def devices() -> Any:
        return _devices(words_of(data), gate, data)

    @server.post("/devices/out")
    def out() -> Any:
        if gate.devices is None:
            return flask.redirect("/devices")
        said, mine = flask.request.form.get("device", ""), gate.device_in()
        if said == "others" and mine is not None:
            gate.devices.sign_out_others(mine)
        elif re.fullmatch(r"[0-9]{1,18}", said, re.ASCII):
            gate.devices.sign_out(int(said))
        return flask.redirect("/devices", 303)

    @server.get("/trust")
    def trust() -> Any:
        words = words_of(data)
        if gate.authority:
            return plain_page(words, "trust", words("trust.title"), gate=gate)
        texts, way = [words("no_tls.text"), words("no_tls.how")], ("/enter", words("trust.back"))
        return plain_page(words, "said", words("no_tls.title"), texts=texts, way=way)

    @server.get("/trust/croftbook.crt")
    def certificate() -> Any:
        if not gate.authority:
            flask.abort(404)
        kind = {"Content-Disposition": 'attachment; filename="croftbook.crt"'}
        return flask.Response(gate.authority, mimetype="application/x-x509-ca-cert", headers=kind)


def _tried(words: Words, gate: Gate) -> str:
    """Try the passphrase of a request; return what is wrong, empty where it let somebody in."""
    assert gate.keeper is not None
    assert gate.devices is not None
    device, address = gate.known_device(), flask.request.remote_addr or ""
    who = f"device {device}" if device is not None else network_of(address)
    wait = gate.waits.begin(who)
    if wait > 0:
        flask.g.wait_s = int(wait) + 1
        return words("gate.wait", n=int(wait) + 1)
    stamp = gate.keeper.stamp
    if not gate.keeper.fits(flask.request.form.get("passphrase", "")):
        gate.waits.wrong(who)
        return words("gate.wrong")
    gate.waits.right(who)
    # whatever session a browser brought along, it leaves with a new one
    name = device_name(flask.request.headers.get("User-Agent", "")) or words("gate.unnamed")
    signed = gate.devices.sign_in(gate.device_secret() if device else None, stamp, name, address)
    flask.g.let_in = flask.redirect("/", 303)
    gate.give(flask.g.let_in, signed)
    return ""


def _entrance(words: Words, gate: Gate, said: str) -> flask.Response:
    status = 200 if not said else 429 if "wait_s" in flask.g else 401
    answer = plain_page(
        words, "enter", words("gate.title"), status=status, said=said,
        is_open=not flask.request.is_secure, gate=gate,
    )  # fmt: skip
    if "wait_s" in flask.g:
        answer.headers["Retry-After"] = str(flask.g.wait_s)
    return answer


def _devices(words: Words, gate: Gate, data: Data) -> flask.Response:
    if gate.keeper is None or gate.devices is None:
        way = ("/more", words("devices.back"))
        return plain_page(
            words, "said", words("devices.title"), texts=[words("devices.none")], way=way
        )
    zone = data.setting("time_zone", "")

    def moment(text: str) -> str:
        at = dt.datetime.fromisoformat(text).astimezone(ZoneInfo(zone) if zone else None)
        return f"{words.day(at.date())}, {at:%H:%M}"

    return plain_page(
        words, "devices", words("devices.title"), mine=gate.device_in(), moment=moment,
        devices=gate.devices.all(gate.keeper.stamp), secure=flask.request.is_secure,
    )  # fmt: skip
