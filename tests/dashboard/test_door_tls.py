"""The door over TLS: who trusts the authority is answered, the certificate is kept and made anew."""

from __future__ import annotations

import datetime as dt
import ssl
import stat
import time

import pytest
from door_tools import ENTER, answered, doors, get, is_whole, raw, status
from freezegun import freeze_time

from dashboard.app import make_app
from dashboard.gate import Gate
from dashboard.gate.certificate import Certificate


@pytest.fixture
def door(book, tmp_path):
    with doors(book, tmp_path) as start:
        yield start


@pytest.fixture
def certificate(tmp_path):
    return Certificate.kept(tmp_path / "tls", {"localhost", "127.0.0.1", "kitchen.local"})


def over_tls(port, authority, sent, name="localhost"):
    context = ssl.create_default_context(cadata=authority.decode())
    with raw(port) as plain, context.wrap_socket(plain, server_hostname=name) as one:
        one.sendall(sent)
        got = b""
        while not is_whole(got):
            got += one.recv(65536)
        return got


def test_one_who_trusts_the_authority_is_answered_over_tls(door, certificate):
    server = door(tls=certificate.context(), names=["kitchen.local"])
    for name in ("localhost", "127.0.0.1", "kitchen.local"):
        assert b"alive" in over_tls(server.port, certificate.authority, get("/health"), name)
    with pytest.raises(ssl.SSLCertVerificationError):
        over_tls(server.port, certificate.authority, get("/health"), "evil.example")
    page = over_tls(server.port, certificate.authority, get("/enter"))
    assert b"in the open" not in page


def test_trust_page_shows_the_fingerprint_and_gives_the_authority_alone(book, certificate):
    gate = Gate(fingerprint=certificate.fingerprint, authority=certificate.authority)
    client = make_app(book, gate=gate).server.test_client()
    page = client.get("/trust").text
    assert certificate.fingerprint in page.replace("<wbr>", "")
    for device in ("iPhone", "Android", "Computers"):
        assert device in page
    given = client.get("/trust/croftbook.crt")
    assert given.mimetype == "application/x-x509-ca-cert"
    assert given.data == certificate.authority
    assert b"PRIVATE" not in given.data


def test_certificate_is_kept_and_made_anew_where_it_no_longer_does(tmp_path, certificate):
    folder = tmp_path / "tls"
    assert certificate.is_new
    same = Certificate.kept(folder, {"localhost", "kitchen.local"})
    assert (same.is_new, same.fingerprint) == (False, certificate.fingerprint)
    before = same.file.read_bytes()
    other = Certificate.kept(
        folder, {"localhost", "192.168.1.20"}
    )  # a new address, the same authority
    assert (other.is_new, other.fingerprint) == (False, certificate.fingerprint)
    assert other.file.read_bytes() != before
    public = Certificate.kept(folder, {"croft.example.org"})
    assert public.is_new
    (folder / "authority.pem").write_text("spoilt")
    assert Certificate.kept(folder, {"localhost"}).is_new
    for file in folder.iterdir():
        assert stat.S_IMODE(file.stat().st_mode) == 0o600
    assert stat.S_IMODE(folder.stat().st_mode) == 0o700


def test_a_running_server_takes_its_renewed_certificate(door, tmp_path):
    """Whoever never restarts the server is not put before an ended certificate after a year."""
    names = {"localhost", "127.0.0.1"}
    then = dt.datetime.now(dt.UTC) - dt.timedelta(days=380)
    with freeze_time(then):
        old = Certificate.kept(tmp_path / "tls", names)
    context = old.context()
    server = door(tls=context)

    def ends():
        trusts = ssl.create_default_context(cadata=old.authority.decode())
        with (
            raw(server.port) as plain,
            trusts.wrap_socket(plain, server_hostname="localhost") as one,
        ):
            return ssl.cert_time_to_seconds(one.getpeercert()["notAfter"]) - time.time()

    assert ends() < 30 * 86400
    renewed = old.renew(context, names)
    assert not renewed.is_new
    assert ends() > 365 * 86400
    unchanged = renewed.file.read_bytes()
    renewed.renew(context, names)
    assert renewed.file.read_bytes() == unchanged


def test_authority_can_vouch_for_home_alone(certificate):
    """RFC 5280, 4.2.1.10: outside the permitted names a chain does not hold, whoever has the key."""
    from cryptography import x509

    found = x509.load_pem_x509_certificate(certificate.authority)
    limits = found.extensions.get_extension_for_class(x509.NameConstraints)
    assert limits.critical
    said = {str(one.value) for one in limits.value.permitted_subtrees}
    assert {"local", "home.arpa", "192.168.0.0/16"} <= said
    assert not {"com", "org", "", "0.0.0.0/0"} & said
    basic = found.extensions.get_extension_for_class(x509.BasicConstraints)
    assert (basic.critical, basic.value.ca, basic.value.path_length) == (True, True, 0)


def test_plain_request_is_sent_to_the_encrypted_address(door, certificate):
    server = door(tls=certificate.context())
    line, headers, _ = answered(server.port, get("/shelf?x=1"))
    assert status(line) == 308
    assert "Location: https://localhost/shelf?x=1" in headers
    other = answered(server.port, b"GET / HTTP/1.1\r\nHost: evil.example\r\n\r\n")
    assert status(other[0]) == 403
    assert "Location" not in other[1]
    assert status(answered(server.port, ENTER)[0]) == 308  # nothing is looked at in the open


def test_silent_and_broken_tls_connections_do_not_stop_answers(door, certificate):
    server = door(tls=certificate.context())
    held = [raw(server.port) for _ in range(100)]
    held += [raw(server.port, b"\x16\x03\x01\x02\x00\x01\x00") for _ in range(100)]
    for _ in range(5):
        assert b"alive" in over_tls(server.port, certificate.authority, get("/health"))
    for one in held:
        one.close()
    assert b"alive" in over_tls(server.port, certificate.authority, get("/health"))


def test_old_tls_is_refused(door, certificate):
    server = door(tls=certificate.context())
    old = ssl.SSLContext(ssl.PROTOCOL_TLS_CLIENT)
    old.check_hostname, old.verify_mode = False, ssl.CERT_NONE
    old.maximum_version = ssl.TLSVersion.TLSv1_2
    with raw(server.port) as plain, old.wrap_socket(plain) as one:
        assert one.version() == "TLSv1.2"
    assert certificate.context().minimum_version == ssl.TLSVersion.TLSv1_2
