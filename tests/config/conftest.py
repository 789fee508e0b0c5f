"""Environments, locks and packages small enough to make for a test."""

from __future__ import annotations

import hashlib
import os
import shutil
import zipfile
from pathlib import Path

import pytest

from partners.config import first_run


def make_wheel(folder: Path, name: str, version: str) -> str:
    """A package with nothing but its name in it, beside the others in the folder; gives its line in a lock."""
    path = folder / f"{name}-{version}-py3-none-any.whl"
    about = f"{name}-{version}.dist-info"
    files = {
        f"{name}.py": f"version = '{version}'\n",
        f"{about}/METADATA": f"Metadata-Version: 2.1\nName: {name}\nVersion: {version}\n",
        f"{about}/WHEEL": "Wheel-Version: 1.0\nGenerator: tests\nRoot-Is-Purelib: true\nTag: py3-none-any\n",
    }
    files[f"{about}/RECORD"] = "".join(f"{file},,\n" for file in [*files, f"{about}/RECORD"])
    with zipfile.ZipFile(path, "w") as wheel:
        for file, text in files.items():
            # ZipInfo's own fixed date: the same package has the same hash whenever it is made.
            wheel.writestr(zipfile.ZipInfo(file), text)
    return f"{name}=={version} --hash=sha256:{hashlib.sha256(path.read_bytes()).hexdigest()}\n"


class Machine:
    """A machine whose only package index is a folder, with a lock that names one small package."""

    def __init__(self, folder: Path) -> None:
        self.index = folder / "index"
        self.index.mkdir()
        self.locks = folder / "locks"
        self.locks.mkdir()
        self.environment = folder / "home" / "environment"
        self.lock("1.0")

    def lock(self, version: str) -> None:
        line = make_wheel(self.index, "sampler", version)
        for name in (first_run.SITE_LOCK, first_run.TESTS_LOCK):
            (self.locks / name).write_text(line, encoding="utf-8")

    def prepare(self) -> None:
        first_run.prepare(self.environment, first_run.SITE_LOCK)

    def installed(self) -> str:
        [module] = self.environment.rglob("sampler.py")
        return module.read_text(encoding="utf-8").split("'")[1]


# Then compiled code lies beside its source, and a copied environment brings its own.
ELSEWHERE = ("PYTHONPYCACHEPREFIX", "PYTHONDONTWRITEBYTECODE")


@pytest.fixture(scope="session")
def bare_environment(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """An environment that holds pip only, made as the first run makes it."""
    folder = tmp_path_factory.mktemp("bare") / "environment"
    with pytest.MonkeyPatch.context() as patch:
        for name in ELSEWHERE:
            patch.delenv(name, raising=False)
        first_run._make(folder)
    first_run._unfinished(folder).unlink()
    return folder


@pytest.fixture
def machine(tmp_path: Path, bare_environment: Path, monkeypatch: pytest.MonkeyPatch) -> Machine:
    machine = Machine(tmp_path)
    shutil.copytree(bare_environment, machine.environment, symlinks=True)
    for name in [name for name in os.environ if name.startswith("PIP_") or name in ELSEWHERE]:
        monkeypatch.delenv(name)
    monkeypatch.setenv("PIP_CONFIG_FILE", os.devnull)
    monkeypatch.setenv("PIP_NO_INDEX", "1")
    monkeypatch.setenv("PIP_FIND_LINKS", str(machine.index))
    monkeypatch.setattr(first_run, "LOCKS", machine.locks)
    return machine


@pytest.fixture
def made_by_copying(bare_environment: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What is made anew is a copy of the one that was really made, which takes six seconds of the processor."""

    def copied(folder: Path) -> None:
        shutil.rmtree(folder)
        shutil.copytree(bare_environment, folder, symlinks=True)
        first_run._unfinished(folder).touch()

    monkeypatch.setattr(first_run, "_make", copied)
