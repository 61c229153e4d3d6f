"""A sealed copy opens with its own key, whole and unchanged, or not at all."""

from __future__ import annotations

import stat
import sys
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from storage import sealing
from storage.errors import Faulty, NoSealing, Unreadable, WrongKey
from storage.sealing import CHUNK_BYTES, HEADER_BYTES, TAG_BYTES, is_sealed, prove, seal, unseal

SECRET = "spokes and canals, 1908"


@pytest.fixture(autouse=True)
def quick(monkeypatch: pytest.MonkeyPatch) -> None:
    """The costs of the key are there to be slow."""
    monkeypatch.setattr(sealing, "COST", 2)


def sealed(folder: Path, content: bytes) -> Path:
    plain, path = folder / "plain", folder / "sealed"
    plain.write_bytes(content)
    path.unlink(missing_ok=True)
    seal(plain, path, SECRET)
    return path


@pytest.mark.parametrize("size", [0, 1, CHUNK_BYTES - 1, CHUNK_BYTES, CHUNK_BYTES + 1, 3 * CHUNK_BYTES])
def test_what_was_sealed_comes_back(tmp_path: Path, size: int) -> None:
    content = bytes(range(256)) * (size // 256) + b"x" * (size % 256)
    path = sealed(tmp_path, content)
    unseal(path, tmp_path / "back", SECRET)
    assert (tmp_path / "back").read_bytes() == content
    assert path.stat().st_size == HEADER_BYTES + size + TAG_BYTES * max(1, -(-size // CHUNK_BYTES))
    assert [stat.S_IMODE(each.stat().st_mode) for each in (path, tmp_path / "back")] == [0o600, 0o600]


def test_nothing_of_it_can_be_read_and_no_two_are_alike(tmp_path: Path) -> None:
    content = b"choir rehearsal " * 100
    first = sealed(tmp_path, content).read_bytes()
    assert b"choir" not in first
    assert sealed(tmp_path, content).read_bytes()[HEADER_BYTES:] != first[HEADER_BYTES:]


def test_another_key_is_told_as_such_and_leaves_nothing(tmp_path: Path) -> None:
    path = sealed(tmp_path, b"week")
    with pytest.raises(WrongKey):
        unseal(path, tmp_path / "back", "another key altogether")
    with pytest.raises(WrongKey):
        prove(path, "another key altogether")
    assert not (tmp_path / "back").exists()


@settings(max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.data())
def test_any_change_is_noticed(tmp_path: Path, data: st.DataObject) -> None:
    path = sealed(tmp_path, b"week" * 40_000)
    whole = bytearray(path.read_bytes())
    place = data.draw(st.integers(HEADER_BYTES, len(whole) - 1))
    whole[place] ^= data.draw(st.integers(1, 255))
    path.write_bytes(whole)
    with pytest.raises(Unreadable):
        unseal(path, tmp_path / "back", SECRET)
    assert not (tmp_path / "back").exists()


def test_chunks_cannot_be_cut_off_or_moved(tmp_path: Path) -> None:
    path = sealed(tmp_path, b"w" * CHUNK_BYTES * 3)
    whole = path.read_bytes()
    size = CHUNK_BYTES + TAG_BYTES
    head, chunks = whole[:HEADER_BYTES], [whole[HEADER_BYTES + at * size : HEADER_BYTES + (at + 1) * size] for at in range(3)]
    for spoilt in (chunks[:2], [chunks[1], chunks[0], chunks[2]], chunks[1:], [*chunks, chunks[2]]):
        path.write_bytes(head + b"".join(spoilt))
        with pytest.raises(Unreadable):
            prove(path, SECRET)


def test_a_plain_or_a_missing_file_is_not_taken_for_a_sealed_one(tmp_path: Path) -> None:
    (tmp_path / "plain").write_bytes(b"SQLite format 3\0")
    assert not is_sealed(tmp_path / "plain")
    with pytest.raises(Unreadable):
        prove(tmp_path / "plain", SECRET)
    for look in (is_sealed, lambda path: prove(path, SECRET)):
        with pytest.raises(Faulty):
            look(tmp_path / "missing")
    with pytest.raises(Faulty):
        seal(tmp_path / "missing", tmp_path / "sealed", SECRET)
    with pytest.raises(Faulty):
        unseal(tmp_path / "missing", tmp_path / "back", SECRET)


def test_without_the_package_it_is_said_which_is_missing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "cryptography.hazmat.primitives.ciphers.aead", None)
    (tmp_path / "plain").write_bytes(b"week")
    with pytest.raises(NoSealing):
        seal(tmp_path / "plain", tmp_path / "sealed", SECRET)
