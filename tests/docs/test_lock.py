"""The lock file of what is tested and the ranges of pyproject.toml agree, and nothing in it is without a hash."""

from __future__ import annotations

import importlib.metadata
import re
import tomllib
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name
from packaging.version import Version

ROOT = Path(__file__).parents[2]
LOCK = ROOT / ".ci" / "lock.txt"
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
RANGES = [
    Requirement(text)
    for text in (
        *PROJECT["build-system"]["requires"],
        *PROJECT["project"]["dependencies"],
        *(text for extra in PROJECT["project"]["optional-dependencies"].values() for text in extra),
    )
]
ANEW = "run bash .ci/lock"


def entries():
    """Return each pinned requirement with its hashes."""
    text = re.sub(r"^#.*\n", "", LOCK.read_text("utf-8"), flags=re.MULTILINE)
    found = []
    for entry in text.replace("\\\n", " ").strip().splitlines():
        pinned, _, hashes = entry.partition("--hash=")
        found.append((Requirement(pinned.strip()), f"--hash={hashes}".split()))
    return found


def pinned_here():
    """Return the version that the lock gives this machine, by canonical name."""
    return {
        canonicalize_name(one.name): Version(next(iter(one.specifier)).version)
        for one, _ in entries()
        if one.marker is None or one.marker.evaluate()
    }


def test_every_entry_is_one_version_with_hashes():
    assert len(entries()) > 50
    for one, hashes in entries():
        assert [spec.operator for spec in one.specifier] == ["=="], one
        assert one.url is None, one
        assert hashes, one
        assert all(re.fullmatch(r"--hash=sha256:[0-9a-f]{64}", text) for text in hashes), one


def test_lock_names_no_registry_and_no_machine():
    text = LOCK.read_text("utf-8")
    assert not re.search(r"https?:|file:|index|find-links|trusted|@|^-|/(?!lock)", text.replace(".ci/lock", ""), re.MULTILINE)  # fmt: skip


@pytest.mark.parametrize("wanted", RANGES, ids=[one.name for one in RANGES])
def test_pinned_version_is_within_its_range(wanted):
    pinned = pinned_here()
    name = canonicalize_name(wanted.name)
    assert name in pinned, f"{wanted.name} is not locked: {ANEW}"
    assert wanted.specifier.contains(pinned[name]), f"{name} {pinned[name]} is outside: {ANEW}"
    assert any(spec.operator == "<" for spec in wanted.specifier) or name == "tzdata", wanted


def test_what_the_locked_packages_need_is_locked():
    pinned, extras = pinned_here(), {canonicalize_name(one.name): one.extras for one in RANGES}
    looked = 0
    for name, version in pinned.items():
        try:
            found = importlib.metadata.distribution(name)
        except importlib.metadata.PackageNotFoundError:
            continue
        if Version(found.version) != version:
            continue  # this environment was not made from the lock
        looked += 1
        for text in found.requires or ():
            need = Requirement(text)
            wanted = need.marker is None or any(
                need.marker.evaluate({"extra": extra}) for extra in ("", *extras.get(name, ()))
            )
            if wanted:
                other = canonicalize_name(need.name)
                assert other in pinned, f"{name} needs {text}: {ANEW}"
                assert need.specifier.contains(pinned[other], prereleases=True), (
                    f"{name} needs {text}: {ANEW}"
                )
    assert looked > 30


def test_script_installs_from_the_lock():
    script = (ROOT / "tests" / "run.sh").read_text("utf-8")
    assert "--require-hashes" in script
    assert ".ci/lock.txt" in script
