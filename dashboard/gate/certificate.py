"""A certificate of the household's own: an authority that phones trust once, and what it vouches for."""

from __future__ import annotations

import contextlib
import datetime as dt
import ipaddress
import ssl
from collections.abc import Collection
from dataclasses import dataclass
from pathlib import Path

from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

from ledger import clock
from ledger.files import whole_file

__all__ = ["Certificate"]

_AUTHORITY_STAYS = dt.timedelta(days=3650)
_STAYS = dt.timedelta(days=397)
_ANEW_BEFORE = dt.timedelta(days=30)
# Addresses that belong to no one network (RFC 1918, 3927, 4193, 4291) and names that the public
# name system does not give away (RFC 6762, 8375; local, lan and internal by custom).
_NETWORKS = (
    "10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16", "169.254.0.0/16", "127.0.0.0/8",
    "fc00::/7", "fe80::/10", "::1/128",
)  # fmt: skip
_DOMAINS = ("local", "lan", "internal", "home.arpa", "localhost")


@dataclass(frozen=True)
class Certificate:
    """Files of a server's certificate, and what people compare.

    Parameters
    ----------
    file : Path
        Certificate and key of the server, PEM, its owner's alone.
    authority : bytes
        The household's authority, PEM: what a phone is asked to trust.
    is_new : bool
        Whether the authority was made just now, so that phones have to be told anew.
    """

    file: Path
    authority: bytes
    is_new: bool

    @property
    def fingerprint(self) -> str:
        """SHA-256 of the authority as phones show it, in pairs."""
        found = x509.load_pem_x509_certificate(self.authority)
        return found.fingerprint(hashes.SHA256()).hex(":").upper()

    def context(self) -> ssl.SSLContext:
        """Return what a server needs to speak TLS 1.2 or later."""
        context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
        context.minimum_version = ssl.TLSVersion.TLSv1_2
        context.load_cert_chain(self.file)
        return context

    def renew(self, context: ssl.SSLContext, names: Collection[str]) -> Certificate:
        """Return the certificate as it has to be by now, and let a running server use it.

        A server that is never restarted outlives its certificate; handshakes that begin from now
        on see the new one, connections that stand are left alone.

        Parameters
        ----------
        context : ssl.SSLContext
            From `context`, in use.
        names : collection of str
        """
        now = Certificate.kept(self.file.parent, names)
        context.load_cert_chain(now.file)
        return now

    @classmethod
    def kept(cls, folder: Path, names: Collection[str]) -> Certificate:
        """Return the certificate of a folder; made on first use, anew where it no longer does.

        The authority's key never leaves the folder, and the authority itself can vouch only for home
        addresses, names that nobody outside can own, and `names` (RFC 5280, 4.2.1.10).

        Parameters
        ----------
        folder : Path
        names : collection of str
            Host names and addresses that it has to hold for.
        """
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)
        authority, key, is_new = _authority(folder, sorted(names))
        file = folder / "server.pem"
        if is_new or not _does(file, authority, names):
            _write(file, _server(authority, key, sorted(names)))
        return cls(file, authority.public_bytes(serialization.Encoding.PEM), is_new)


def _authority(
    folder: Path, names: list[str]
) -> tuple[x509.Certificate, ec.EllipticCurvePrivateKey, bool]:
    file = folder / "authority.pem"
    with contextlib.suppress(OSError, ValueError, x509.ExtensionNotFound):
        text = file.read_bytes()
        found = x509.load_pem_x509_certificate(text)
        key = serialization.load_pem_private_key(text, None)
        lasts = found.not_valid_after_utc > clock.now() + _STAYS
        allowed = found.extensions.get_extension_for_class(x509.NameConstraints).value
        may = allowed.permitted_subtrees or []
        if (
            lasts
            and isinstance(key, ec.EllipticCurvePrivateKey)
            and all(_in(one, may) for one in names)
        ):
            return found, key, False
    key = ec.generate_private_key(ec.SECP256R1())
    made = _authority_of(key, names)
    _write(file, made.public_bytes(serialization.Encoding.PEM) + _pem(key))
    return made, key, True


def _authority_of(key: ec.EllipticCurvePrivateKey, names: list[str]) -> x509.Certificate:
    now, name = clock.now(), _name("Croftbook of this household")
    may: list[x509.GeneralName] = [x509.DNSName(one) for one in _DOMAINS]
    may += [x509.IPAddress(ipaddress.ip_network(one)) for one in _NETWORKS]
    for one in names:
        if not _in(one, may):
            said = _general(one)
            is_address = isinstance(said, x509.IPAddress)
            may.append(x509.IPAddress(ipaddress.ip_network(one)) if is_address else said)
    return (
        x509.CertificateBuilder()
        .subject_name(name)
        .issuer_name(name)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(now - dt.timedelta(days=1))
        .not_valid_after(now + _AUTHORITY_STAYS)
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .add_extension(_usage(signs=True), critical=True)
        .add_extension(x509.NameConstraints(may, None), critical=True)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
        .sign(key, hashes.SHA256())
    )


def _server(
    authority: x509.Certificate, signer: ec.EllipticCurvePrivateKey, names: list[str]
) -> bytes:
    """Return a new server's certificate with its key and the authority behind it, PEM."""
    now, key = clock.now(), ec.generate_private_key(ec.SECP256R1())
    made = (
        x509.CertificateBuilder()
        .subject_name(_name("Croftbook"))
        .issuer_name(authority.subject)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(now - dt.timedelta(days=1))
        .not_valid_after(now + _STAYS)
        .add_extension(
            x509.SubjectAlternativeName([_general(one) for one in names]), critical=False
        )
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(_usage(signs=False), critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .add_extension(
            x509.AuthorityKeyIdentifier.from_issuer_public_key(signer.public_key()), critical=False
        )
        .sign(signer, hashes.SHA256())
    )
    pem = serialization.Encoding.PEM
    return made.public_bytes(pem) + authority.public_bytes(pem) + _pem(key)


def _does(file: Path, authority: x509.Certificate, names: Collection[str]) -> bool:
    """Return whether a server's certificate is there, lasts, is of this authority and has all names."""
    try:
        found = x509.load_pem_x509_certificate(file.read_bytes())
        found.verify_directly_issued_by(authority)
        said = found.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    except Exception:  # whatever is wrong with it, it is made anew
        return False
    has_all = {_general(one) for one in names} <= set(said)
    return has_all and found.not_valid_after_utc > clock.now() + _ANEW_BEFORE


def _general(name: str) -> x509.GeneralName:
    try:
        return x509.IPAddress(ipaddress.ip_address(name))
    except ValueError:
        return x509.DNSName(name.encode("idna").decode())


def _in(name: str, may: Collection[x509.GeneralName]) -> bool:
    said = _general(name)
    for one in may:
        if isinstance(one, x509.IPAddress) and isinstance(said, x509.IPAddress):
            network = one.value
            if not isinstance(network, (ipaddress.IPv4Network, ipaddress.IPv6Network)):
                continue
            if said.value.version == network.version and said.value in network:
                return True
        elif isinstance(one, x509.DNSName) and isinstance(said, x509.DNSName):
            is_within = said.value.endswith(f".{one.value}")
            if is_within or said.value == one.value:
                return True
    return False


def _name(text: str) -> x509.Name:
    return x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, text)])


def _usage(*, signs: bool) -> x509.KeyUsage:
    return x509.KeyUsage(
        digital_signature=not signs, key_cert_sign=signs, crl_sign=signs, content_commitment=False,
        key_encipherment=False, data_encipherment=False, key_agreement=False, encipher_only=False,
        decipher_only=False,
    )  # fmt: skip


def _pem(key: ec.EllipticCurvePrivateKey) -> bytes:
    return key.private_bytes(
        serialization.Encoding.PEM,
        serialization.PrivateFormat.PKCS8,
        serialization.NoEncryption(),
    )


def _write(file: Path, text: bytes) -> None:
    """Write a file that its owner alone can read, all of it or nothing."""
    with whole_file(file, synced=True) as out:
        out.write(text)
