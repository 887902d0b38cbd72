"""Pass phrase, certificate and session key in the shop's folder."""

import datetime
import ssl
import stat

import pytest

from panewright.errors import FolderError
from panewright.web.keys import Keys

NOW = datetime.datetime(2026, 5, 1, tzinfo=datetime.UTC)


def test_the_pass_phrase_is_known_again_and_stands_nowhere(tmp_path):
    keys = Keys(tmp_path / "keys")
    keys.set_phrase("seven quiet herons")
    assert Keys(tmp_path / "keys").knows(" seven quiet herons ")
    assert not keys.knows("seven quiet hens")
    for file in (tmp_path / "keys").iterdir():
        assert b"herons" not in file.read_bytes()
        assert stat.S_IMODE(file.stat().st_mode) == 0o600
    assert stat.S_IMODE((tmp_path / "keys").stat().st_mode) == 0o700


def test_a_short_pass_phrase_is_refused(tmp_path):
    with pytest.raises(FolderError, match="too short"):
        Keys(tmp_path).set_phrase("heron")
    assert not Keys(tmp_path).knows("heron")


def test_the_session_key_stays_over_a_restart(tmp_path):
    assert Keys(tmp_path / "k").session() == Keys(tmp_path / "k").session()
    assert len(Keys(tmp_path / "k").session()) >= 48


def test_the_certificate_is_made_once_names_the_addresses_and_serves(tmp_path):
    keys = Keys(tmp_path / "k")
    pem, key, fingerprint = keys.certificate(("192.168.7.4", "shop.local"), NOW)
    assert len(fingerprint) == 95
    assert keys.certificate(("192.168.7.4",), NOW)[2] == fingerprint
    assert keys.certificate(("192.168.7.5",), NOW)[2] != fingerprint
    ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER).load_cert_chain(pem, key)


def test_an_old_certificate_is_made_anew(tmp_path):
    keys = Keys(tmp_path / "k")
    first = keys.certificate(("10.0.0.2",), NOW)[2]
    assert keys.certificate(("10.0.0.2",), NOW + datetime.timedelta(days=900))[2] != first
