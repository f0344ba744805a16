"""Files appear whole or not at all, and never over another without being asked."""

import errno
import json
import os
import signal
import stat
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

import finishcalc
from finishcalc.commandline.files import write_all
from finishcalc.commandline.stopping import signals_deferred
from finishcalc.problems import ProblemsFound

TEXTS = {"one.svg": "first\n", "two.svg": "second é\n"}


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_files_are_written_into_a_new_folder(tmp_path: Path):
    folder = tmp_path / "a" / "b"
    assert write_all([(str(folder), TEXTS)]) == [str(folder / name) for name in TEXTS]
    assert (folder / "two.svg").read_bytes() == "second é\n".encode()
    assert names(folder) == sorted(TEXTS)


def test_bytes_are_written_as_they_are(tmp_path: Path):
    """Bytes that are no text, and line ends of each kind; once there, they are known again to the byte."""
    content = b"%PDF\xff\xfe\r\n\n\r\0"
    assert write_all([(str(tmp_path), {"one.pdf": content, "two.txt": "\u00e9\r\n"})])
    assert (tmp_path / "one.pdf").read_bytes() == content
    assert (tmp_path / "two.txt").read_bytes() == b"\xc3\xa9\r\n"
    assert write_all([], shared=[(str(tmp_path), {"one.pdf": content})]) == []
    with pytest.raises(ProblemsFound):
        write_all([], shared=[(str(tmp_path), {"one.pdf": content.replace(b"\r\n", b"\n")})])


def test_none_is_written_where_one_is_there_already(tmp_path: Path):
    (tmp_path / "two.svg").write_text("hers")
    with pytest.raises(ProblemsFound) as found:
        write_all([(str(tmp_path), TEXTS)])
    assert [problem.message for problem in found.value.problems] == ["already exists"]
    assert names(tmp_path) == ["two.svg"]
    assert (tmp_path / "two.svg").read_text() == "hers"


def test_a_link_that_leads_nowhere_is_not_written_over(tmp_path: Path):
    (tmp_path / "one.svg").symlink_to(tmp_path / "nowhere")
    with pytest.raises(ProblemsFound):
        write_all([(str(tmp_path), TEXTS)])
    assert names(tmp_path) == ["one.svg"]


def test_asked_to_it_writes_over(tmp_path: Path):
    (tmp_path / "two.svg").write_text("hers")
    write_all([(str(tmp_path), TEXTS)], force=True)
    assert (tmp_path / "two.svg").read_text() == "second é\n"
    assert names(tmp_path) == sorted(TEXTS)


def test_a_folder_that_cannot_be_made_is_told(tmp_path: Path):
    (tmp_path / "file").write_text("no folder")
    with pytest.raises(ProblemsFound) as found:
        write_all([(str(tmp_path / "file" / "below"), TEXTS)])
    assert found.value.problems[0].message == "cannot be written"


def test_a_failure_half_way_leaves_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    """The second file fails to get its name, as when another process has taken it since."""
    link = os.link

    def fail_at_two(source: Path, target: Path) -> None:
        if Path(target).name == "two.svg":
            raise FileExistsError(17, "File exists", str(target))
        link(source, target)

    monkeypatch.setattr(os, "link", fail_at_two)
    with pytest.raises(ProblemsFound):
        write_all([(str(tmp_path), TEXTS)])
    assert names(tmp_path) == []


def test_a_full_disk_leaves_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(ProblemsFound) as found:
        write_all([(str(tmp_path), TEXTS)])
    assert found.value.problems[0].hint == "No space left on device"
    assert names(tmp_path) == []


def test_a_folder_in_the_way_is_told_before_anything_is_written(tmp_path: Path):
    (tmp_path / "two.svg").mkdir()
    (tmp_path / "one.svg").write_text("hers")
    with pytest.raises(ProblemsFound) as found:
        write_all([(str(tmp_path), TEXTS)], force=True)
    assert [(problem.file, problem.message) for problem in found.value.problems] == [
        (str(tmp_path / "two.svg"), "is a folder")
    ]
    assert (tmp_path / "one.svg").read_text() == "hers"


def test_folders_made_in_vain_are_taken_away(tmp_path: Path):
    (tmp_path / "file").write_text("no folder")
    with pytest.raises(ProblemsFound):
        write_all([(str(tmp_path / "new" / "below"), TEXTS), (str(tmp_path / "file" / "x"), TEXTS)])
    assert names(tmp_path) == ["file"]


def test_a_text_that_no_file_holds_leaves_nothing(tmp_path: Path):
    with pytest.raises(ProblemsFound):
        write_all([(str(tmp_path / "new"), {"one.svg": "fine", "two.svg": "\udcff"})])
    assert names(tmp_path) == []


def test_a_shared_text_that_is_there_already_is_left(tmp_path: Path):
    (tmp_path / "shop.toml").write_text("same")
    assert write_all([(str(tmp_path), {"one.svg": "x"})], shared=[(str(tmp_path), {"shop.toml": "same"})]) == [
        str(tmp_path / "one.svg")
    ]
    with pytest.raises(ProblemsFound):
        write_all([(str(tmp_path), {"two.svg": "x"})], shared=[(str(tmp_path), {"shop.toml": "other"})])


# --- a set with --force ------------------------------------------------------------------------------------------

OLD = {"one.svg": "old first\n", "two.svg": "old second\n"}


@pytest.fixture
def old(tmp_path: Path) -> Path:
    for name, text in OLD.items():
        (tmp_path / name).write_text(text)
    return tmp_path


def texts(folder: Path) -> dict[str, str]:
    return {name: (folder / name).read_text(encoding="utf-8") for name in names(folder)}


def failing(real: Callable[..., None], at: str, error: BaseException, after: bool) -> Callable[..., None]:
    """A system call that fails at one name, once: before it is done or after."""
    left = [error]

    def fail(source: Path, target: Path, **more: Any) -> None:
        mine = Path(target).name == at and left
        if not mine or after:
            real(source, target, **more)
        if mine:
            raise left.pop()

    return fail


def without_links(*_: Any, **__: Any) -> None:
    raise PermissionError(errno.EPERM, "Operation not permitted")


FAILURES = [OSError(errno.EBUSY, "Device or resource busy"), KeyboardInterrupt(), SystemExit(3)]


@pytest.mark.parametrize("links", [True, False], ids=["links", "no-links"])
@pytest.mark.parametrize("after", [False, True], ids=["before", "after"])
@pytest.mark.parametrize("error", FAILURES, ids=lambda error: type(error).__name__)
def test_replacing_that_fails_half_way_puts_the_old_files_back(
    old: Path, error: BaseException, after: bool, links: bool, monkeypatch: pytest.MonkeyPatch
):
    """A third text goes to a new folder and is in place when the second fails: it goes, with its folder."""
    monkeypatch.setattr(os, "replace", failing(os.replace, "two.svg", error, after))
    if not links:
        monkeypatch.setattr(os, "link", without_links)
    with pytest.raises(ProblemsFound if isinstance(error, OSError) else type(error)) as found:
        write_all([(str(old / "new"), {"three.svg": "x"}), (str(old), TEXTS)], force=True)
    assert texts(old) == OLD
    if isinstance(found.value, ProblemsFound):
        (problem,) = found.value.problems
        assert (problem.file, problem.hint) == (str(old / "two.svg"), "Device or resource busy")


@pytest.mark.parametrize("error", FAILURES, ids=lambda error: type(error).__name__)
@pytest.mark.parametrize("after", [False, True], ids=["before", "after"])
def test_new_files_go_again_where_one_fails(
    tmp_path: Path, error: BaseException, after: bool, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.setattr(os, "link", failing(os.link, "two.svg", error, after))
    with pytest.raises(ProblemsFound if isinstance(error, OSError) else type(error)):
        write_all([(str(tmp_path / "new"), TEXTS)])
    assert names(tmp_path) == []


def test_an_old_file_that_cannot_be_put_back_is_kept_and_told(old: Path, monkeypatch: pytest.MonkeyPatch):
    """The first is replaced; then nothing can be. Its old text is where the problem says, also after a later run."""
    real, calls = os.replace, []

    def only_once(source: Path, target: Path) -> None:
        calls.append(target)
        if len(calls) > 1:
            raise OSError(errno.EIO, "Input/output error")
        real(source, target)

    with monkeypatch.context() as broken:
        broken.setattr(os, "replace", only_once)
        with pytest.raises(ProblemsFound) as found:
            write_all([(str(old), TEXTS)], force=True)
    unwritten, unrestored = found.value.problems
    assert (unwritten.file, unrestored.file) == (str(old / "two.svg"), str(old / "one.svg"))
    kept = Path(unrestored.hint.rpartition("the old text is in ")[2])
    write_all([(str(old), TEXTS)], force=True)
    assert kept.read_text() == OLD["one.svg"]


@pytest.mark.parametrize("force", [False, True])
def test_a_file_system_without_hard_links_is_written_too(tmp_path: Path, force: bool, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(os, "link", without_links)
    write_all([(str(tmp_path), TEXTS)], force)
    assert texts(tmp_path) == TEXTS
    write_all([(str(tmp_path), OLD)], force=True)
    assert texts(tmp_path) == OLD


def test_without_hard_links_a_name_that_has_appeared_is_not_taken(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    def appear(_: Path, place: Path) -> None:
        if place.name == "two.svg":
            place.write_text("hers")
        without_links()

    monkeypatch.setattr(os, "link", appear)
    with pytest.raises(ProblemsFound) as found:
        write_all([(str(tmp_path), TEXTS)])
    assert texts(tmp_path) == {"two.svg": "hers"}
    assert found.value.problems[0].hint == "File exists"


@pytest.mark.parametrize("links", [True, False], ids=["links", "no-links"])
def test_a_link_is_replaced_or_put_back_and_its_target_left(
    tmp_path: Path, links: bool, monkeypatch: pytest.MonkeyPatch
):
    target = tmp_path / "hers.svg"
    target.write_text("hers")
    folder = tmp_path / "pictures"
    folder.mkdir()
    (folder / "one.svg").symlink_to(target)
    if not links:
        monkeypatch.setattr(os, "link", without_links)
    with monkeypatch.context() as broken:
        broken.setattr(os, "replace", failing(os.replace, "two.svg", OSError(errno.EIO, "no"), after=False))
        with pytest.raises(ProblemsFound):
            write_all([(str(folder), TEXTS)], force=True)
    assert (names(folder), (folder / "one.svg").readlink()) == (["one.svg"], target)
    write_all([(str(folder), TEXTS)], force=True)
    assert not (folder / "one.svg").is_symlink()
    assert target.read_text() == "hers"


@pytest.mark.parametrize("mode", [0o600, 0o664, 0o444])
def test_a_replaced_file_keeps_its_mode(old: Path, mode: int):
    (old / "one.svg").chmod(mode)
    write_all([(str(old), TEXTS)], force=True)
    assert stat.S_IMODE((old / "one.svg").stat().st_mode) == mode


@pytest.mark.skipif(os.name != "posix" or os.geteuid() != 0, reason="only root gives files away")
def test_a_replaced_file_keeps_its_owner(old: Path):
    os.chown(old / "one.svg", 12, 34)
    write_all([(str(old), TEXTS)], force=True)
    there = (old / "one.svg").stat()
    assert (there.st_uid, there.st_gid) == (12, 34)


def test_a_new_file_has_the_rights_the_umask_leaves_and_nobody_changes_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    """0o666 without 0o027 is 0o640. The umask is the whole process's: to set it opens other threads' files."""
    before = os.umask(0o027)
    try:
        with monkeypatch.context() as patched:
            patched.setattr(os, "umask", None)
            write_all([(str(tmp_path), TEXTS)])
    finally:
        os.umask(before)
    assert stat.S_IMODE((tmp_path / "one.svg").stat().st_mode) == 0o640


# --- death and signals at every step -----------------------------------------------------------------------------

STEPS = '''
import os, signal, sys
from pathlib import Path
from finishcalc.commandline import stopping
from finishcalc.commandline.files import write_all

folder, number, force, links, listens = Path(sys.argv[1]), int(sys.argv[2]), *map(int, sys.argv[3:])
OLD = {"one.svg": "old first", "two.svg": "old second"} if force else {}
NEW = {"one.svg": "first", "two.svg": "second"}
SETS = [(str(folder), NEW), (str(folder / "deep" / "er"), {"three.svg": "third"})]
SYSTEM, FILE = ("posix", "fcntl", "_signal"), ("open", "write", "flush", "close")
ALL = NEW | {"deep/er/three.svg": "third"}
os.fsync = lambda _: None
if not links:
    def no_links(*_, **__):
        raise PermissionError(1, "Operation not permitted")
    os.link = no_links

def texts():
    return {str(path.relative_to(folder)): path.read_text() for path in folder.rglob("*") if path.is_file()}

def child(step):
    """Write, and be sent the signal before one of the calls into the system: between them nothing changes."""
    calls = 0
    def count(frame, event, function):
        nonlocal calls
        if event == "c_call" and (function.__module__ in SYSTEM or function.__name__ in FILE):
            calls += function.__name__ != "fspath"
            if calls == step:
                sys.setprofile(None)
                os.kill(os.getpid(), number)
    try:
        if listens:
            stopping.listen()
        sys.setprofile(count)
        write_all(SETS, force=bool(force))
        sys.setprofile(None)
        os._exit(0 if calls < step else 1)
    except BaseException as error:
        os._exit(77 if isinstance(error, KeyboardInterrupt) else 1)

def whole(found):
    return found in (OLD, ALL) and os.path.exists(folder / "deep") == (found == ALL)

def each_old_or_new(found):
    mine = {name: text for name, text in found.items() if ".finishcalc-" not in name}
    return set(OLD) <= set(mine) and all(text in (OLD.get(name), ALL[name]) for name, text in mine.items())

step, code, seen = 0, None, set()
while code != 0:
    step += 1
    for path in sorted(folder.rglob("*"), reverse=True):
        path.rmdir() if path.is_dir() else path.unlink()
    for name, text in OLD.items():
        (folder / name).write_text(text)
    pid = os.fork() or child(step)
    code = os.waitstatus_to_exitcode(os.waitpid(pid, 0)[1])
    found = texts()
    assert code in (0, -number, 77, 128 + number), (step, code)
    seen.add(code)
    if number == signal.SIGKILL:
        assert each_old_or_new(found), (step, found)
        write_all(SETS, force=True)
        assert texts() == ALL, (step, texts())
    else:
        assert whole(found), (step, found)
    assert not [path for path in folder.rglob(".*")], step
print(step, sorted(seen))
'''
"""Runs write_all over and over in a child, which gets a signal at its first step, at its second, and so on."""


def stepped(folder: Path, number: int, *flags: bool) -> tuple[int, list[int], str]:
    home = str(Path(finishcalc.__file__).parent.parent)
    arguments = [str(folder), str(int(number)), *(str(int(flag)) for flag in flags)]
    done = subprocess.run(
        [sys.executable, "-c", STEPS, *arguments],
        env={**os.environ, "PYTHONPATH": home},
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    assert done.returncode == 0, done.stderr[-2000:]
    steps, seen = done.stdout.split(" ", 1)
    return int(steps), json.loads(seen), done.stderr


IN_THE_GATE = pytest.mark.slow
"""Another case of a kind of which the quick run has two: each of them starts more than a hundred processes."""


@pytest.mark.parametrize(
    ("force", "links"),
    [
        pytest.param(True, True, id="force-links"),
        pytest.param(True, False, id="force-no-links", marks=IN_THE_GATE),
        pytest.param(False, True, id="new-links", marks=IN_THE_GATE),
        pytest.param(False, False, id="new-no-links"),
    ],
)
def test_killed_at_any_step_each_file_is_old_or_new_and_the_next_run_clears(tmp_path: Path, force: bool, links: bool):
    steps, seen, _ = stepped(tmp_path, signal.SIGKILL, force, links, False)
    assert steps > 50
    assert seen == [-signal.SIGKILL, 0]


@pytest.mark.parametrize(
    ("number", "force"),
    [
        (signal.SIGINT, True),
        pytest.param(signal.SIGINT, False, marks=IN_THE_GATE),
        pytest.param(signal.SIGTERM, True, marks=IN_THE_GATE),
        (signal.SIGHUP, False),
    ],
)
def test_a_signal_at_any_step_leaves_the_old_set_or_the_new_and_says_which(
    tmp_path: Path, number: signal.Signals, force: bool
):
    """128 and the signal's number is the exit code. Some stops come before the set is in place, some after."""
    steps, seen, said = stepped(tmp_path, number, force, True, True)
    assert steps > 50
    assert seen == [0, 128 + number]
    assert set(said.splitlines()) == {
        "finishcalc: stopped; nothing was written",
        "finishcalc: stopped; the files were written",
    }


def test_ctrl_c_at_any_step_is_safe_without_the_command_line_too(tmp_path: Path):
    """Outside `finishcalc` nobody listens: Python's own KeyboardInterrupt comes, after all is cleared."""
    _, seen, _ = stepped(tmp_path, signal.SIGINT, True, False, False)
    assert seen == [0, 77]


def test_a_signal_that_is_ignored_stays_ignored(tmp_path: Path):
    """As under nohup."""
    before = signal.signal(signal.SIGHUP, signal.SIG_IGN)
    try:
        with signals_deferred() as stop_if_asked:
            signal.raise_signal(signal.SIGHUP)
            stop_if_asked()
        assert signal.getsignal(signal.SIGHUP) is signal.SIG_IGN
    finally:
        signal.signal(signal.SIGHUP, before)


# --- leftovers ---------------------------------------------------------------------------------------------------

WAITS = """
import os, sys
from finishcalc.commandline.files import write_all
replace = os.replace
def wait(*paths):
    print("waiting", flush=True)
    sys.stdin.readline()
    replace(*paths)
os.replace = wait
write_all([(sys.argv[1], {"mine.svg": "mine"})], force=True)
"""


def test_what_a_living_run_needs_is_not_touched(tmp_path: Path):
    home = str(Path(finishcalc.__file__).parent.parent)
    with subprocess.Popen(
        [sys.executable, "-c", WAITS, str(tmp_path)],
        env={**os.environ, "PYTHONPATH": home},
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    ) as other:
        assert other.stdout
        assert other.stdout.readline() == "waiting\n"
        (passing,) = tmp_path.iterdir()
        write_all([(str(tmp_path), TEXTS)])
        assert [path.name for path in passing.iterdir()] == ["new-0"]
        other.communicate("go on\n", timeout=30)
    assert texts(tmp_path) == TEXTS | {"mine.svg": "mine"}


def test_what_only_looks_like_a_leftover_is_left(tmp_path: Path):
    """A file, a link, a folder with something else in it, and names that are nearly ours."""
    (tmp_path / ".finishcalc-0123456789abcdef").write_text("hers")
    (tmp_path / ".finishcalc-notes").mkdir()
    (tmp_path / ".finishcalc-1123456789abcdef0").mkdir()
    folder = tmp_path / ".finishcalc-2123456789abcdef"
    folder.mkdir()
    (folder / "new-0").write_text("hers")
    (folder / "new-0.txt").write_text("hers")
    away = tmp_path / "away"
    away.mkdir()
    (away / "new-0").write_text("hers")
    (tmp_path / ".finishcalc-3123456789abcdef").symlink_to(away)
    before = sorted(tmp_path.rglob("*"))
    write_all([(str(tmp_path), TEXTS)])
    assert sorted(tmp_path.rglob("*")) == sorted([*before, *(tmp_path / name for name in TEXTS)])
