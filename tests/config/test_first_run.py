"""The first run, on machines as they are: without network, without room, killed half-way, two at once."""

from __future__ import annotations

import ast
import os
import signal
import socket
import subprocess
import sys
import threading
import time
from pathlib import Path

import pytest

from partners.config import first_run, hindrance
from partners.config.hindrance import Stopped

MANAGE = first_run.CHECKOUT / "manage.py"


def run_python(code: str, *words: str, **variables: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-c", code, *words],
        env={**os.environ, **variables},
        cwd=first_run.CHECKOUT,
        capture_output=True,
        text=True,
        stdin=subprocess.DEVNULL,
        timeout=60,
        check=False,
    )


def test_an_old_python_is_told_in_one_sentence():
    pretend = (
        "import runpy, sys; sys.version_info = (3, 8, 1, 'final', 0); runpy.run_path('manage.py', run_name='__main__')"
    )
    told = run_python(pretend)
    assert told.returncode == 1
    assert "needs Python 3.11 or newer, and this is Python 3.8: install" in told.stderr
    assert len(told.stderr.splitlines()) == 1


def test_the_oldest_python_3_can_read_the_sentence():
    source = MANAGE.read_text(encoding="utf-8")
    assert ast.parse(source, feature_version=(3, 0)).body
    assert source.index("sys.exit(") < source.index("from partners")


def test_the_first_run_needs_the_standard_library_only():
    told = run_python(
        "import sys; from partners.config import first_run; "
        "print({m.split('.')[0] for m in sys.modules} - set(sys.stdlib_module_names) - {'partners', '__main__'})",
        PYTHONPATH="",
    )
    strangers = ast.literal_eval(told.stdout.strip().replace("set()", "[]"))
    assert {name for name in strangers if not name.startswith(("_", "sitecustomize", "distutils"))} == set()


def test_the_first_run_installs_and_the_second_does_nothing(machine, monkeypatch):
    machine.prepare()
    assert machine.installed() == "1.0"
    monkeypatch.setattr(subprocess, "Popen", None)
    began = time.process_time()
    machine.prepare()
    assert time.process_time() - began < 0.3


def test_a_changed_lock_is_installed(machine):
    machine.prepare()
    machine.lock("1.1")
    machine.prepare()
    assert machine.installed() == "1.1"


def test_an_environment_whose_python_is_gone_is_made_anew(machine, made_by_copying):
    first_run.python_of(machine.environment).unlink()
    machine.prepare()
    assert machine.installed() == "1.0"
    assert first_run.python_of(machine.environment).exists()


def test_a_package_with_another_hash_is_not_installed(machine):
    lock = machine.locks / first_run.SITE_LOCK
    lock.write_text(lock.read_text(encoding="utf-8")[:-5] + "0000\n", encoding="utf-8")
    with pytest.raises(Stopped) as stopped:
        machine.prepare()
    assert str(stopped.value) == hindrance.OTHER_HASH
    assert not list(machine.environment.rglob("sampler.py"))


def test_an_index_without_the_package_is_told_with_its_name(machine):
    next(machine.index.iterdir()).unlink()
    with pytest.raises(Stopped, match=r"does not have sampler==1\.0"):
        machine.prepare()


def test_no_network_is_told_and_leaves_what_was_there_working(machine, monkeypatch):
    machine.prepare()
    machine.lock("1.1")
    with socket.socket() as closed:
        closed.bind(("127.0.0.1", 0))
        monkeypatch.setenv("PIP_INDEX_URL", f"http://127.0.0.1:{closed.getsockname()[1]}/simple")
        monkeypatch.delenv("PIP_NO_INDEX")
        monkeypatch.delenv("PIP_FIND_LINKS")
        monkeypatch.setenv("PIP_RETRIES", "1")
        with pytest.raises(Stopped) as stopped:
            machine.prepare()
    assert str(stopped.value) == hindrance.NO_NETWORK
    machine.lock("1.0")
    monkeypatch.setattr(subprocess, "Popen", None)
    machine.prepare()
    assert machine.installed() == "1.0"


def test_a_python_without_its_venv_module_is_told(tmp_path, monkeypatch):
    monkeypatch.setitem(sys.modules, "ensurepip", None)
    with pytest.raises(Stopped) as stopped:
        first_run.prepare(tmp_path / "environment", first_run.SITE_LOCK)
    assert str(stopped.value) == hindrance.NO_VENV


def test_a_python_whose_venv_module_has_no_pip_is_told(tmp_path, monkeypatch):
    (tmp_path / "ensurepip.py").write_text("raise SystemExit('ensurepip is disabled here')", encoding="utf-8")
    run = subprocess.run

    def without_pip(command: list[str], **how: object) -> object:
        return run([*command[:1], str(tmp_path / "ensurepip.py")] if "ensurepip" in command else command, **how)  # type: ignore[call-overload]

    monkeypatch.setattr(subprocess, "run", without_pip)
    with pytest.raises(Stopped) as stopped:
        first_run.prepare(tmp_path / "environment", first_run.SITE_LOCK)
    assert str(stopped.value) == hindrance.NO_VENV


@pytest.mark.parametrize("code", ["EROFS", "EACCES"])
def test_a_folder_that_may_not_be_written_is_told_with_its_name(tmp_path, monkeypatch, code):
    refuse_to_write(monkeypatch, code)
    with pytest.raises(Stopped, match=rf"may not write to {tmp_path / 'environment'}: copy its whole folder"):
        first_run.prepare(tmp_path / "environment", first_run.SITE_LOCK)


def test_a_full_disk_is_told(tmp_path, monkeypatch):
    refuse_to_write(monkeypatch, "ENOSPC")
    with pytest.raises(Stopped) as stopped:
        first_run.prepare(tmp_path / "environment", first_run.SITE_LOCK)
    assert str(stopped.value) == hindrance.FULL


def refuse_to_write(monkeypatch: pytest.MonkeyPatch, code: str) -> None:
    """Makes the system answer as a read-only or full disk does; root may write everywhere else."""
    import errno

    number = getattr(errno, code)

    def refuse(self: Path, *_: object, **__: object) -> None:
        raise OSError(number, os.strerror(number), str(self))

    monkeypatch.setattr(Path, "open", refuse)


@pytest.mark.parametrize(
    ("said", "sentence"),
    [
        # What pip 23.2 and 26.3 wrote on a file system of 60 MB, on a read-only one, and without network.
        ("ERROR: Could not install packages due to an OSError: [Errno 28] No space left on device\n", hindrance.FULL),
        (
            "WARNING: Retrying (Retry(total=0, connect=None)) after connection broken by 'NewConnectionError(...)'\n"
            "ERROR: No matching distribution found for asgiref==3.13.0\n",
            hindrance.NO_NETWORK,
        ),
        (
            "ERROR: Could not install packages due to an OSError: [Errno 30] Read-only file system: '/x/lib/a.py'\n",
            str(hindrance.of_file(PermissionError(13, "Permission denied", "/x/lib/a.py"))),
        ),
        (
            "ERROR: Failed to build sampler\n",
            "What Partner Book is built from could not be installed; the installer said: Failed to build sampler",
        ),
    ],
)
def test_what_the_installer_says_becomes_one_sentence(said, sentence):
    assert str(hindrance.of_pip([said])) == sentence


def silent_index() -> socket.socket:
    """An index that takes the call and never answers."""
    index = socket.socket()
    index.bind(("127.0.0.1", 0))
    index.listen()
    return index


@pytest.mark.skipif(os.name != "posix", reason="ends a whole group of processes")
def test_a_run_killed_half_way_is_mended_by_the_next(machine, made_by_copying, monkeypatch):
    prepare = "from pathlib import Path; from partners.config import first_run as f; "
    prepare += f"f.LOCKS = Path({str(machine.locks)!r}); f.prepare(Path({str(machine.environment)!r}), f.SITE_LOCK)"
    with silent_index() as index, monkeypatch.context() as network:
        network.setenv("PIP_INDEX_URL", f"http://127.0.0.1:{index.getsockname()[1]}/simple")
        network.delenv("PIP_NO_INDEX")
        network.delenv("PIP_FIND_LINKS")
        run = subprocess.Popen([sys.executable, "-c", prepare], cwd=first_run.CHECKOUT, start_new_session=True)
        index.settimeout(60)
        index.accept()[0].close()
        os.killpg(run.pid, signal.SIGKILL)
        assert run.wait(10) == -signal.SIGKILL
    assert first_run._unfinished(machine.environment).exists()
    machine.prepare()
    assert machine.installed() == "1.0"
    assert not first_run._unfinished(machine.environment).exists()


def test_two_runs_at_once_install_once(machine, capsys):
    runs = [threading.Thread(target=machine.prepare) for _ in range(2)]
    for run in runs:
        run.start()
    for run in runs:
        run.join(60)
    told = capsys.readouterr().out
    assert told.count("getting what it needs") == 1
    assert told.count("Another run is making the environment") == 1
    assert machine.installed() == "1.0"


@pytest.mark.parametrize("replace", [False, True] if os.name == "posix" else [False])
def test_the_exit_code_of_the_other_python_is_handed_back(replace):
    code = "import sys; from partners.config.first_run import hand_over; "
    code += f"sys.exit(hand_over([sys.executable, '-c', 'raise SystemExit(7)'], {{}}, replace={replace}))"
    assert run_python(code).returncode == 7


def test_the_test_command_gives_the_exit_code_of_its_tests(tmp_path):
    (tmp_path / "test_wrong.py").write_text("def test_wrong():\n    assert False\n", encoding="utf-8")
    words = ["test", str(tmp_path), "-q", "-p", "no:cacheprovider"]
    code = "import sys; from partners.config import first_run; sys.exit(first_run.run(['manage.py', *sys.argv[1:]]))"
    told = run_python(code, *words, PARTNER_BOOK_ENVIRONMENT=sys.prefix)
    assert told.returncode == 1
    assert "1 failed" in told.stdout.splitlines()[-1]


@pytest.mark.parametrize(
    ("variable", "value", "sentence"),
    [
        ("PARTNER_BOOK_DEBUG", "maybe", "PARTNER_BOOK_DEBUG is 'maybe'"),
        ("PARTNER_BOOK_DATABASE", "mysql://x/y", "PARTNER_BOOK_DATABASE is not of the form postgres://"),
        ("PARTNER_BOOK_DATA", str(MANAGE / "inside-a-file"), "Partner Book cannot use"),
    ],
)
def test_a_variable_with_nonsense_is_told_in_one_sentence(variable, value, sentence):
    code = "import sys; from partners.config import first_run; sys.exit(first_run.run(['manage.py', 'start']))"
    told = run_python(code, **{"PARTNER_BOOK_ENVIRONMENT": sys.prefix, variable: value})
    assert told.returncode == 1
    assert told.stderr.startswith(sentence)
    assert len(told.stderr.splitlines()) == 1
