"""What the shop keeps secret, in `keys/` of its folder, readable by its owner only.

session.key    signs the sessions
pass.json      the pass phrase of other screens, as its scrypt hash
shop.key, shop.pem    the certificate that is made here, and its key

scrypt with n = 2^15, r = 8, p = 1 takes 32 MB and about a tenth of a second: RFC 7914, section 2, tells what
they mean; the figures are common practice.
"""

from __future__ import annotations

import datetime
import hashlib
import hmac
import ipaddress
import json
import os
import secrets
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING

from panewright.errors import FolderError, Problem

if TYPE_CHECKING:
    from cryptography.x509 import Certificate, GeneralName

LEAST_LETTERS = 10
_N, _R, _P = 2**15, 8, 1
_MOST_BYTES = 64 * 1024 * 1024
_VALID_DAYS = 820


class Keys:
    """The folder of secrets."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    def session(self) -> str:
        """What signs the sessions; made once, so that a restart keeps them."""
        path = self.folder / "session.key"
        if not path.exists():
            self._write("session.key", secrets.token_urlsafe(48).encode())
        return path.read_text("ascii")

    @property
    def has_phrase(self) -> bool:
        """Whether a pass phrase was set."""
        return (self.folder / "pass.json").exists()

    def set_phrase(self, phrase: str) -> None:
        """Keep the pass phrase, hashed."""
        if len(phrase.strip()) < LEAST_LETTERS:
            cure = f"Take {LEAST_LETTERS} letters or more; a few words that belong to nobody are best."
            raise FolderError([Problem("The pass phrase is too short.", cure, key="pass phrase")])
        salt = secrets.token_bytes(16)
        kept = {"salt": salt.hex(), "n": _N, "r": _R, "p": _P, "hash": _scrypt(phrase, salt).hex()}
        self._write("pass.json", json.dumps(kept).encode())

    def knows(self, phrase: str) -> bool:
        """Whether this is the pass phrase; takes the same time whether it is or not."""
        if not self.has_phrase or len(phrase) > 1000:
            return False
        kept = json.loads((self.folder / "pass.json").read_text("ascii"))
        return hmac.compare_digest(_scrypt(phrase, bytes.fromhex(kept["salt"])).hex(), kept["hash"])

    def certificate(self, addresses: tuple[str, ...], now: datetime.datetime) -> tuple[Path, Path, str]:
        """Certificate, its key and its fingerprint; made anew where it is missing, old, or for elsewhere."""
        from cryptography import x509
        from cryptography.hazmat.primitives import hashes

        pem, key = self.folder / "shop.pem", self.folder / "shop.key"
        made = x509.load_pem_x509_certificate(pem.read_bytes()) if pem.exists() and key.exists() else None
        if made is None or not _still_good(made, addresses, now):
            private, made = _made(addresses, now)
            self._write("shop.key", private)
            self._write("shop.pem", _pem(made))
        print_of = made.fingerprint(hashes.SHA256()).hex().upper()
        return pem, key, ":".join(print_of[at : at + 2] for at in range(0, len(print_of), 2))

    def _write(self, name: str, content: bytes) -> None:
        """A whole file or none, readable by its owner only from its first byte on."""
        self.folder.mkdir(parents=True, exist_ok=True, mode=0o700)
        with suppress(OSError):
            self.folder.chmod(0o700)
        fresh = self.folder / f".{name}.{secrets.token_hex(4)}"
        handle = os.open(fresh, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        fresh.replace(self.folder / name)


def _scrypt(phrase: str, salt: bytes) -> bytes:
    return hashlib.scrypt(phrase.strip().encode(), salt=salt, n=_N, r=_R, p=_P, maxmem=_MOST_BYTES)


def _still_good(made: Certificate, addresses: tuple[str, ...], now: datetime.datetime) -> bool:
    from cryptography import x509

    named = made.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    known = {str(ip) for ip in named.get_values_for_type(x509.IPAddress)}
    known |= set(named.get_values_for_type(x509.DNSName))
    return made.not_valid_after_utc > now + datetime.timedelta(days=7) and set(addresses) <= known


def _made(addresses: tuple[str, ...], now: datetime.datetime) -> tuple[bytes, Certificate]:
    """A key on the curve P-256 and a certificate that it signs itself."""
    from cryptography import x509
    from cryptography.hazmat.primitives import hashes, serialization
    from cryptography.hazmat.primitives.asymmetric import ec
    from cryptography.x509.oid import NameOID

    private = ec.generate_private_key(ec.SECP256R1())
    name = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, "Panewright, this shop")])
    made = (
        x509.CertificateBuilder()
        .subject_name(name)
        .issuer_name(name)
        .public_key(private.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(now - datetime.timedelta(hours=1))
        .not_valid_after(now + datetime.timedelta(days=_VALID_DAYS))
        .add_extension(x509.SubjectAlternativeName([_named(each) for each in addresses]), critical=False)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .sign(private, hashes.SHA256())
    )
    plain = serialization.NoEncryption()
    form = serialization.PrivateFormat.PKCS8
    return private.private_bytes(serialization.Encoding.PEM, form, plain), made


def _pem(made: Certificate) -> bytes:
    from cryptography.hazmat.primitives import serialization

    return made.public_bytes(serialization.Encoding.PEM)


def _named(address: str) -> GeneralName:
    from cryptography import x509

    try:
        return x509.IPAddress(ipaddress.ip_address(address))
    except ValueError:
        return x509.DNSName(address)
