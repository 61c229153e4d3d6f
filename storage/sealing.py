"""Sealing a file with a key, so that who finds a copy cannot read it.

A sealed file is a header and chunks of up to 64 KiB, each encrypted and
authenticated by AES-256-GCM (NIST SP 800-38D). The key comes from the secret
and the file's own salt by scrypt (RFC 7914; the costs are those of the OWASP
Password Storage Cheat Sheet). A chunk's nonce is its number and whether it is
the last, so that none can be moved, left out or cut off: the STREAM
construction (Hoang, Reyhanitabar, Rogaway, Vizár: Online Authenticated
Encryption and its Nonce-Reuse Misuse-Resistance, 2015).

    file   := header chunk+
    header := "weekwright sealed copy 1\\n" salt[16] check[16]
"""

from __future__ import annotations

import hashlib
import hmac
import os
from collections.abc import Iterator
from pathlib import Path
from typing import IO, TYPE_CHECKING

from storage.errors import Faulty, NoSealing, Unreadable, WrongKey
from storage.sqlite import make_private

if TYPE_CHECKING:
    from cryptography.hazmat.primitives.ciphers.aead import AESGCM

MARK = b"weekwright sealed copy 1\n"
SALT_BYTES = CHECK_BYTES = 16
KEY_BYTES = 32
HEADER_BYTES = len(MARK) + SALT_BYTES + CHECK_BYTES
CHUNK_BYTES = 64 * 1024
TAG_BYTES = 16
COST, BLOCK, LANES, MOST_MEMORY = 2**15, 8, 3, 64 * 1024 * 1024


def is_sealed(path: Path) -> bool:
    """Whether the file says of itself that it is sealed. Raises Faulty when it cannot be read."""
    try:
        with path.open("rb") as file:
            return file.read(len(MARK)) == MARK
    except OSError as failed:
        raise Faulty(path, failed.strerror or str(failed)) from failed


def seal(source: Path, target: Path, secret: str) -> None:
    """Writes ``source`` to ``target``, sealed and with mode 0600. Raises NoSealing, Faulty."""
    salt = os.urandom(SALT_BYTES)
    cipher, check = _cipher(secret, salt)
    header = MARK + salt + check
    make_private(target)
    try:
        with source.open("rb") as plain, target.open("wb") as sealed:
            sealed.write(header)
            for number, chunk, last in _chunks(plain, CHUNK_BYTES):
                sealed.write(cipher.encrypt(_nonce(number, last), chunk, header))
    except OSError as failed:
        raise Faulty(target, failed.strerror or str(failed)) from failed


def unseal(source: Path, target: Path, secret: str) -> None:
    """Writes what is sealed in ``source`` to ``target`` with mode 0600, all of it or none.

    Raises WrongKey, Unreadable when it was damaged or changed, NoSealing, Faulty.
    """
    make_private(target)
    try:
        with source.open("rb") as sealed, target.open("wb") as plain:
            for chunk in _opened(source, sealed, secret):
                plain.write(chunk)
    except OSError as failed:
        target.unlink()
        raise Faulty(source, failed.strerror or str(failed)) from failed
    except (WrongKey, Unreadable, NoSealing):
        target.unlink()
        raise


def prove(path: Path, secret: str) -> None:
    """Reads the whole sealed file. Raises WrongKey, Unreadable when it was damaged or changed, NoSealing, Faulty."""
    try:
        with path.open("rb") as sealed:
            for _ in _opened(path, sealed, secret):
                pass
    except OSError as failed:
        raise Faulty(path, failed.strerror or str(failed)) from failed


def _opened(path: Path, sealed: IO[bytes], secret: str) -> Iterator[bytes]:
    from cryptography.exceptions import InvalidTag

    header = sealed.read(HEADER_BYTES)
    cipher, check = _cipher(secret, header[len(MARK) : len(MARK) + SALT_BYTES])
    if not header.startswith(MARK) or len(header) < HEADER_BYTES:
        raise Unreadable(path, "is not a sealed copy")
    if not hmac.compare_digest(check, header[-CHECK_BYTES:]):
        raise WrongKey(path)
    for number, chunk, last in _chunks(sealed, CHUNK_BYTES + TAG_BYTES):
        try:
            yield cipher.decrypt(_nonce(number, last), chunk, header)
        except InvalidTag as changed:
            raise Unreadable(path, "was damaged or changed after it was sealed") from changed


def _chunks(file: IO[bytes], size: int) -> Iterator[tuple[int, bytes, bool]]:
    """Each chunk with its number and whether it is the last; an empty file is one empty chunk."""
    number, chunk = 0, file.read(size)
    while following := file.read(size):
        yield number, chunk, False
        number, chunk = number + 1, following
    yield number, chunk, True


def _nonce(number: int, last: bool) -> bytes:
    return number.to_bytes(11, "big") + (b"\1" if last else b"\0")


def _cipher(secret: str, salt: bytes) -> tuple[AESGCM, bytes]:
    """The cipher of a file with that salt, and what tells a wrong key: bytes of their own, from which no key follows."""
    try:
        from cryptography.hazmat.primitives.ciphers.aead import AESGCM
    except ImportError as missing:
        raise NoSealing from missing
    made = hashlib.scrypt(secret.encode(), salt=salt, n=COST, r=BLOCK, p=LANES, maxmem=MOST_MEMORY, dklen=KEY_BYTES + CHECK_BYTES)
    return AESGCM(made[:KEY_BYTES]), made[KEY_BYTES:]
