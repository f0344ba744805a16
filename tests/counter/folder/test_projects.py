"""The projects of a folder: listed, drafted, saved, copied, renamed and read."""

import json
import os
import signal
import stat
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from finishcalc.counter.folder import contained, looking, saving
from finishcalc.counter.folder.drafts import Draft, hash_of
from finishcalc.counter.folder.kept import FOLDER
from finishcalc.counter.folder.projects import ListedFile, Projects
from finishcalc.counter.folder.saving import Conflict, Saved
from finishcalc.intake.changes.change import Change
from finishcalc.intake.changes.rewriting import project_toml
from finishcalc.intake.changes.settings import key_path
from finishcalc.problems import ProblemCode, ProblemsFound

LAP = "# for Ann\n[top]\nwidth = 60  # measured twice\nlength = 70\n"
SHOP = "[money]\ncurrency = 'USD'\n"


@pytest.fixture(autouse=True)
def nothing_waits() -> Iterator[None]:
    """End a test that waits for ever."""
    signal.alarm(100)
    yield
    signal.alarm(0)


@pytest.fixture
def home(tmp_path: Path) -> Path:
    """A folder with one project, beside other things."""
    folder = tmp_path / "quilts"
    folder.mkdir()
    (folder / "lap.toml").write_text(LAP)
    return folder


@pytest.fixture
def projects(home: Path) -> Projects:
    return Projects(str(home))


def edit(key: str, value: Any, page: str = "a") -> Callable[[Draft], Draft]:
    return lambda draft: draft.with_step({key: value}, page, True)


def values_of(draft: Draft) -> dict[str, Any]:
    """The values that stand, of keys of which none lies within another."""
    return {key: value for puts in draft.puts() for key, value in puts.items()}


def text_of(draft: Draft) -> str:
    """The text of a project with all that stands in its draft."""
    puts = {key_path(key): value for key, value in values_of(draft).items()}
    return project_toml(draft.source, Change("the form", (), tuple(puts.items())))


def refusal(function: Callable[..., Any], *arguments: Any) -> tuple[ProblemCode, str, str]:
    """The code, the file and the message of the one problem that a call is refused with."""
    with pytest.raises(ProblemsFound) as found:
        function(*arguments)
    (problem,) = found.value.problems
    return problem.code, problem.file, problem.message


def everything(folder: Path) -> dict[str, bytes | None]:
    """All files of a folder with their contents, without the folder of drafts where it is empty."""
    paths = [path for path in sorted(folder.rglob("*")) if path.name != FOLDER]
    return {str(path.relative_to(folder)): path.read_bytes() if path.is_file() else None for path in paths}


# --- the list --------------------------------------------------------------------------------------------------------


def test_projects_are_listed_and_nothing_else(home: Path, projects: Projects):
    (home / "Bed.toml").write_text("shop = 'plain.toml'\n" + LAP)
    (home / "plain.toml").write_text("units = 'in'\n")
    (home / "my-shop.toml").write_text(SHOP)
    (home / "shelf.toml").write_text("[[on_hand]]\nkind = 'cloth'\n")
    (home / ".hidden.toml").write_text(LAP)
    (home / "old.draft.toml").write_text(LAP)
    (home / "broken.toml").write_text("[[[")
    (home / "linked.toml").symlink_to(home / "lap.toml")
    os.mkfifo(home / "pipe.toml")
    (home / "folder.toml").mkdir()
    assert projects.names() == ["Bed.toml", "broken.toml", "lap.toml"]
    for name in ("plain.toml", "my-shop.toml", "shelf.toml", ".hidden.toml", "linked.toml", "pipe.toml", "folder.toml"):
        assert refusal(projects.draft, name)[0] == ProblemCode.NO_SUCH_FILE
    assert projects.draft("broken.toml").base == "[[["


def test_a_shop_file_that_the_server_was_given_is_no_project(home: Path):
    (home / "rates.toml").write_text("units = 'in'\n")
    assert Projects(str(home)).names() == ["lap.toml", "rates.toml"]
    assert Projects(str(home), str(home / "rates.toml")).names() == ["lap.toml"]


def test_the_list_tells_of_unsaved_work_that_is_unsound_and_of_files_changed_since(home: Path, projects: Projects):
    (home / "bed.toml").write_text(LAP)
    projects.change("lap.toml", edit("title", "A"))
    projects.change("bed.toml", lambda draft: draft.with_step({"top.width": "x"}, "a", False))
    assert projects.listed() == [
        ListedFile("bed.toml", True, False, False),
        ListedFile("lap.toml", True, True, False),
    ]
    (home / "lap.toml").write_text(LAP + "# more\n")
    assert projects.listed()[1] == ListedFile("lap.toml", True, True, True)
    projects.change("lap.toml", Draft.undone)
    assert projects.listed()[1] == ListedFile("lap.toml", False, True, False)


def test_unsaved_work_on_a_file_that_is_gone_is_still_listed_and_opened(home: Path, projects: Projects):
    projects.change("lap.toml", edit("title", "A"))
    (home / "lap.toml").unlink()
    assert projects.listed() == [ListedFile("lap.toml", True, True, True)]
    assert values_of(projects.draft("lap.toml")) == {"title": "A"}
    projects.change("lap.toml", Draft.undone)
    assert projects.names() == []
    assert refusal(projects.draft, "lap.toml") == (ProblemCode.NO_SUCH_FILE, "lap.toml", "no such file")


@pytest.mark.parametrize(
    "name", ["../secret.toml", "", "/etc/passwd", "a/b.toml", "x\0.toml", "\ud800.toml", ".toml", "lap"]
)
def test_no_other_name_is_a_project(home: Path, projects: Projects, name: str):
    (home.parent / "secret.toml").write_text(LAP)
    before = everything(home)
    for function in (projects.draft, lambda name: projects.save(name, LAP), lambda name: projects.rename(name, "new")):
        with pytest.raises(ProblemsFound):
            function(name)
    assert everything(home) == before


def test_a_folder_that_is_none_is_told(tmp_path: Path):
    (tmp_path / "file").touch()
    assert refusal(Projects, str(tmp_path / "none"))[0] == ProblemCode.NO_SUCH_FILE
    with pytest.raises(ProblemsFound):
        Projects(str(tmp_path / "file"))


# --- drafts ----------------------------------------------------------------------------------------------------------


def test_looking_at_a_project_changes_nothing(home: Path, projects: Projects):
    before = everything(home)
    assert projects.draft("lap.toml").base == LAP
    assert projects.change("lap.toml", lambda draft: draft) == projects.draft("lap.toml")
    assert everything(home) == before


def test_a_draft_is_there_after_the_server_has_ended(home: Path, projects: Projects):
    draft = projects.change("lap.toml", edit("title", "A"))
    projects.close()
    assert Projects(str(home)).draft("lap.toml") == draft
    assert (home / "lap.toml").read_text() == LAP


def test_a_draft_without_unsaved_work_is_begun_anew_where_its_file_has_changed(home: Path, projects: Projects):
    projects.change("lap.toml", edit("title", "A"))
    projects.save("lap.toml", text_of)
    (home / "lap.toml").write_text("title = 'B'\n" + LAP)
    assert values_of(projects.draft("lap.toml")) == {}
    assert projects.draft("lap.toml").base == "title = 'B'\n" + LAP


def test_a_change_that_fails_keeps_the_draft_as_it_was(projects: Projects):
    projects.change("lap.toml", edit("title", "A"))

    def fails(draft: Draft) -> Draft:
        raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        projects.change("lap.toml", fails)
    assert values_of(projects.draft("lap.toml")) == {"title": "A"}


def test_a_draft_may_be_looked_at_while_it_is_changed(projects: Projects):
    projects.change("lap.toml", lambda draft: edit("title", projects.draft("lap.toml").name)(draft))
    assert values_of(projects.draft("lap.toml")) == {"title": "lap.toml"}


@pytest.mark.parametrize("data", [b"", b"{", b'{"version": 1}', b"\xff\x00"])
def test_a_damaged_draft_is_set_aside_and_the_project_opens_from_the_disk(home: Path, projects: Projects, data: bytes):
    kept = home / FOLDER / "lap.toml.json"
    kept.write_bytes(data)
    assert projects.draft("lap.toml").base == LAP
    projects.change("lap.toml", edit("title", "A"))
    (aside,) = [path for path in (home / FOLDER).iterdir() if path != kept]
    assert aside.read_bytes() == data
    assert Projects(str(home)).names() == ["lap.toml"]
    assert aside.exists()


def test_a_draft_of_another_file_is_set_aside(home: Path, projects: Projects):
    draft = projects.change("lap.toml", edit("title", "A"))
    (home / "bed.toml").write_text(LAP)
    (home / FOLDER / "bed.toml.json").write_text(draft.to_json())
    assert values_of(projects.draft("bed.toml")) == {}
    assert projects.draft("lap.toml") == draft
    assert len(list((home / FOLDER).iterdir())) == 2


@pytest.mark.parametrize("kind", ["link", "pipe", "folder"])
def test_what_bears_the_name_of_a_draft_and_is_no_file_is_set_aside(home: Path, projects: Projects, kind: str):
    kept, secret = home / FOLDER / "lap.toml.json", home.parent / "secret.json"
    draft = projects.draft("lap.toml").with_step({"title": "planted"}, "a", True)
    secret.write_text(draft.to_json())
    if kind == "link":
        kept.symlink_to(secret)
    elif kind == "pipe":
        os.mkfifo(kept)
    else:
        kept.mkdir()
    assert values_of(projects.draft("lap.toml")) == {}
    projects.change("lap.toml", edit("title", "A"))
    assert secret.read_text() == draft.to_json()


def test_a_link_in_place_of_the_folder_of_drafts_is_never_followed(home: Path):
    theirs = home.parent / "theirs"
    theirs.mkdir()
    planted = Draft("lap.toml", LAP, hash_of(LAP.encode())).with_step({"title": "planted"}, "a", True)
    (theirs / "lap.toml.json").write_text(planted.to_json())
    (theirs / "new-0123456789abcdef").touch()
    (home / FOLDER).symlink_to(theirs)
    before = everything(theirs)
    projects = Projects(str(home))
    assert projects.names() == ["lap.toml"]
    assert values_of(projects.draft("lap.toml")) == {}
    assert refusal(projects.change, "lap.toml", edit("title", "A")) == (
        ProblemCode.CANNOT_BE_WRITTEN,
        "lap.toml",
        "cannot be written",
    )
    assert everything(theirs) == before


def test_a_folder_of_drafts_that_is_taken_away_is_made_again(home: Path, projects: Projects):
    (home / FOLDER).rmdir()
    assert projects.change("lap.toml", edit("title", "A")) == projects.draft("lap.toml")


@pytest.mark.parametrize("many", [25, pytest.param(100, marks=pytest.mark.slow)])
def test_four_threads_lose_no_edit(projects: Projects, many: int):
    """A draft grows with its edits, so that four times as many take ten times as long: the gate makes them."""

    def edits(page: str) -> None:
        for number in range(many):
            projects.change("lap.toml", edit(f"{page}.{number}", str(number), page))

    threads = [threading.Thread(target=edits, args=(page,)) for page in "abcd"]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    wanted = {f"{page}.{number}": str(number) for page in "abcd" for number in range(many)}
    assert values_of(projects.draft("lap.toml")) == wanted


SERVER = """
import sys
from finishcalc.counter.folder.projects import Projects
projects = Projects(sys.argv[1])
for number in range(60):
    projects.change("lap.toml", lambda draft: draft.with_step({f"{sys.argv[2]}.{number}": "x"}, sys.argv[2], True))
"""


@pytest.mark.slow
def test_two_servers_lose_no_edit(home: Path):
    servers = [subprocess.Popen([sys.executable, "-c", SERVER, str(home), page]) for page in "ab"]
    assert [server.wait() for server in servers] == [0, 0]
    wanted = {f"{page}.{number}": "x" for page in "ab" for number in range(60)}
    assert values_of(Projects(str(home)).draft("lap.toml")) == wanted


KILLED = """
import sys
from finishcalc.counter.folder.projects import Projects
projects, number = Projects(sys.argv[1]), 0
print("begun", flush=True)
while True:
    number += 1
    projects.change("lap.toml", lambda draft: draft.with_step({"title": str(number) * 2000}, "a", True))
    projects.save("lap.toml", lambda draft: draft.steps[-1].puts["title"])
"""


@pytest.mark.parametrize(
    "turns", [range(0, 12, 4), pytest.param(range(12), marks=pytest.mark.slow)], ids=["some moments", "every moment"]
)
def test_a_server_that_is_killed_leaves_no_torn_file_and_what_it_leaves_is_swept(home: Path, turns: range):
    swept = 0
    for turn in turns:
        (home / "lap.toml").write_text(LAP)
        (home / FOLDER / "lap.toml.json").unlink(missing_ok=True)
        server = subprocess.Popen([sys.executable, "-c", KILLED, str(home)], stdout=subprocess.PIPE)
        assert server.stdout
        server.stdout.readline()
        time.sleep(0.01 + turn * 0.003)
        server.kill()
        server.communicate()
        title = (home / "lap.toml").read_text()
        number = title[: len(title) // 2000]
        assert title in (LAP, number * 2000)
        projects = Projects(str(home))
        values = values_of(projects.draft("lap.toml"))
        assert not values or len(values["title"]) % 2000 == 0
        assert {path.name for path in home.iterdir()} == {"lap.toml", FOLDER}
        assert {path.name for path in (home / FOLDER).iterdir()} <= {"lap.toml.json"}
        projects.close()
        swept += 1
    assert swept == len(turns)


def test_leftovers_of_ours_are_swept_and_nothing_else(home: Path):
    drafts, passing = home / FOLDER, home / ".finishcalc-0123456789abcdef"
    drafts.mkdir()
    passing.mkdir()
    for path in (drafts / "new-0123456789abcdef", passing / "new-1", drafts / "new-notes", home / ".lap.toml.swp"):
        path.touch()
    Projects(str(home))
    assert set(everything(home)) == {".finishcalc/new-notes", ".lap.toml.swp", "lap.toml"}


# --- saving ----------------------------------------------------------------------------------------------------------


def test_a_save_writes_what_stands_and_keeps_the_steps(home: Path, projects: Projects):
    projects.change("lap.toml", edit("top.width", "61"))
    before = projects.change("lap.toml", edit("title", "Lap"))
    saved = projects.save("lap.toml", text_of)
    assert isinstance(saved, Saved)
    data = (home / "lap.toml").read_bytes()
    wanted = LAP.replace("[top]\n", 'title = "Lap"\n[top]\n').replace("60", '"61"')
    assert data.decode().split() == wanted.split()
    assert saved.draft == before._replace(saved=2, on_disk=hash_of(data)) == projects.draft("lap.toml")
    assert not saved.draft.has_unsaved
    assert {path.name for path in home.iterdir()} == {"lap.toml", FOLDER}


def test_undo_goes_on_behind_a_save_and_saves_again_from_the_first_text(home: Path, projects: Projects):
    projects.change("lap.toml", edit("top.width", "61"))
    projects.save("lap.toml", text_of)
    assert projects.change("lap.toml", Draft.undone).has_unsaved
    assert isinstance(projects.save("lap.toml", text_of), Saved)
    assert (home / "lap.toml").read_text() == LAP


def test_a_save_of_nothing_new_leaves_the_file_alone(home: Path, projects: Projects):
    before = (home / "lap.toml").stat()
    assert isinstance(projects.save("lap.toml", text_of), Saved)
    after = (home / "lap.toml").stat()
    assert (before.st_ino, before.st_mtime_ns) == (after.st_ino, after.st_mtime_ns)


@pytest.mark.parametrize(
    ("before", "after"),
    [
        (b"\xef\xbb\xbf[top]\r\nwidth = 60\r\n", b"\xef\xbb\xbf[top]\r\nwidth = 61\r\n"),
        (b"[top]\r\nwidth = 60\r\n", b"[top]\r\nwidth = 61\r\n"),
        (b"\xef\xbb\xbf[top]\nwidth = 60", b"\xef\xbb\xbf[top]\nwidth = 61"),
        (b"[top]\r\nlength = 1\nwidth = 60\r\nx = 1", b"[top]\r\nlength = 1\nwidth = 61\r\nx = 1"),
        (b"[top]\nwidth = 60\r\n", b"[top]\nwidth = 61\n"),
    ],
    ids=["mark and CRLF", "CRLF", "mark", "both line ends", "a new line among both"],
)
def test_a_file_comes_back_with_its_line_ends_and_its_mark(home: Path, projects: Projects, before: bytes, after: bytes):
    (home / "lap.toml").write_bytes(before)
    projects.change("lap.toml", edit("top.width", "61"))
    assert isinstance(projects.save("lap.toml", lambda draft: draft.source.text.replace("60", "61")), Saved)
    assert (home / "lap.toml").read_bytes() == after


@given(st.text("ab\n", max_size=12), st.text("ab\n", max_size=12), st.booleans())
def test_a_text_is_the_same_but_for_its_line_ends(text: str, model: str, both: bool):
    model = model.replace("a\n", "a\r\n") if both else model.replace("\n", "\r\n")
    assert saving.encoded("lap.toml", text, model).decode().replace("\r\n", "\n") == text
    assert saving.encoded("lap.toml", model.replace("\r\n", "\n"), model).decode() == model


@pytest.mark.parametrize("mode", [0o600, 0o640, 0o644, 0o604])
def test_a_saved_file_keeps_its_mode(home: Path, projects: Projects, mode: int):
    (home / "lap.toml").chmod(mode)
    projects.change("lap.toml", edit("title", "A"))
    projects.save("lap.toml", text_of)
    assert stat.S_IMODE((home / "lap.toml").stat().st_mode) == mode


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() != 0, reason="only root gives files away")
def test_a_saved_file_keeps_its_owner(home: Path, projects: Projects):
    os.chown(home / "lap.toml", 1234, 4321)
    projects.change("lap.toml", edit("title", "A"))
    projects.save("lap.toml", text_of)
    after = (home / "lap.toml").stat()
    assert (after.st_uid, after.st_gid) == (1234, 4321)


def test_a_file_that_was_changed_since_is_not_written_over(home: Path, projects: Projects):
    draft = projects.change("lap.toml", edit("title", "A"))
    theirs = b"\xef\xbb\xbftitle = 'theirs'\r\n"
    (home / "lap.toml").write_bytes(theirs)
    assert projects.save("lap.toml", text_of) == Conflict(draft, "title = 'theirs'\n")
    assert (home / "lap.toml").read_bytes() == theirs
    assert projects.draft("lap.toml") == draft


def test_a_change_that_keeps_size_and_time_is_seen(home: Path, projects: Projects):
    projects.change("lap.toml", edit("title", "A"))
    before = (home / "lap.toml").stat()
    (home / "lap.toml").write_text(LAP.replace("60", "99"))
    os.utime(home / "lap.toml", ns=(before.st_atime_ns, before.st_mtime_ns))
    assert isinstance(projects.save("lap.toml", text_of), Conflict)


def test_a_file_that_is_gone_is_not_made_again_unasked(home: Path, projects: Projects):
    draft = projects.change("lap.toml", edit("title", "A"))
    (home / "lap.toml").unlink()
    assert projects.save("lap.toml", text_of) == Conflict(draft, None)
    assert not (home / "lap.toml").exists()
    assert projects.put_back("lap.toml", text_of) == Saved(projects.draft("lap.toml"))
    assert "A" in (home / "lap.toml").read_text()
    assert not projects.draft("lap.toml").has_unsaved


def test_a_file_that_is_there_after_all_is_not_put_back_over(home: Path, projects: Projects):
    draft = projects.change("lap.toml", edit("title", "A"))
    assert projects.put_back("lap.toml", text_of) == Conflict(draft, LAP)
    assert (home / "lap.toml").read_text() == LAP


def test_a_change_in_the_last_moment_is_seen(home: Path, projects: Projects, monkeypatch: pytest.MonkeyPatch):
    projects.change("lap.toml", edit("title", "A"))
    take_rights = saving.take_rights

    def meanwhile(waiting: Path, target: Path) -> None:
        take_rights(waiting, target)
        target.write_text("title = 'theirs'\n")

    monkeypatch.setattr(saving, "take_rights", meanwhile)
    assert isinstance(projects.save("lap.toml", text_of), Conflict)
    assert (home / "lap.toml").read_text() == "title = 'theirs'\n"
    assert {path.name for path in home.iterdir()} == {"lap.toml", FOLDER}


def test_a_text_that_was_made_before_the_file_changed_is_not_written(home: Path, projects: Projects):
    projects.change("lap.toml", edit("title", "A"))
    projects.save("lap.toml", text_of)
    text = text_of(projects.draft("lap.toml"))
    (home / "lap.toml").write_text("title = 'theirs'\n")
    assert isinstance(projects.save("lap.toml", text + "# more\n"), Conflict)


def test_a_file_that_already_says_what_is_saved_is_no_conflict(home: Path, projects: Projects):
    draft = projects.change("lap.toml", edit("title", "A"))
    (home / "lap.toml").write_text(text_of(draft))
    saved = projects.save("lap.toml", text_of)
    assert isinstance(saved, Saved)
    assert not saved.draft.has_unsaved


def replaced_by(home: Path, kind: str) -> None:
    """Put something else in the place of the project."""
    path = home / "lap.toml"
    path.unlink()
    if kind == "link":
        (home / "other.toml").write_text(LAP)
        path.symlink_to(home / "other.toml")
    elif kind == "folder":
        path.mkdir()
    elif kind == "pipe":
        os.mkfifo(path)
    elif kind == "not UTF-8":
        path.write_bytes(b"title = '\xff'\n")
    else:
        path.write_bytes(b"#" * (1024 * 1024 + 1))


@pytest.mark.parametrize(
    ("kind", "code"),
    [
        ("link", ProblemCode.CANNOT_BE_READ),
        ("folder", ProblemCode.IS_A_FOLDER),
        ("pipe", ProblemCode.CANNOT_BE_READ),
        ("not UTF-8", ProblemCode.NOT_UTF_8),
        ("too large", ProblemCode.FILE_TOO_LARGE),
    ],
)
def test_what_is_no_plain_text_any_more_is_told_and_nothing_is_lost(
    home: Path, projects: Projects, kind: str, code: ProblemCode
):
    draft = projects.change("lap.toml", edit("title", "A"))
    replaced_by(home, kind)
    assert refusal(projects.save, "lap.toml", text_of)[:2] == (code, "lap.toml")
    assert projects.draft("lap.toml") == draft
    assert projects.listed()[0] == ListedFile("lap.toml", True, True, True)
    assert (home / "lap.toml").is_symlink() == (kind == "link")


def test_a_text_that_could_not_be_read_again_is_not_saved(home: Path, projects: Projects):
    assert refusal(projects.save, "lap.toml", "#" * (1024 * 1024 + 1))[0] == ProblemCode.FILE_TOO_LARGE
    assert refusal(projects.save, "lap.toml", "# \ud800")[0] == ProblemCode.UNWRITABLE_CHARACTERS
    assert (home / "lap.toml").read_text() == LAP


@pytest.mark.parametrize("name", ["fsync", "replace"])
def test_a_full_disk_is_told_and_nothing_is_lost(
    home: Path, projects: Projects, monkeypatch: pytest.MonkeyPatch, name: str
):
    draft = projects.change("lap.toml", edit("title", "A"))

    def full(*_: Any, **__: Any) -> None:
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as patch:
        patch.setattr(os, name, full)
        assert refusal(projects.save, "lap.toml", text_of)[0] == ProblemCode.CANNOT_BE_WRITTEN
    assert (home / "lap.toml").read_text() == LAP
    assert projects.draft("lap.toml") == draft
    assert {path.name for path in home.iterdir()} == {"lap.toml", FOLDER}
    with monkeypatch.context() as patch:
        patch.setattr(contained.Contained, "write_new", full)
        assert refusal(projects.change, "lap.toml", edit("title", "B"))[0] == ProblemCode.CANNOT_BE_WRITTEN
    assert projects.draft("lap.toml") == draft


@contextmanager
def nobody() -> Iterator[Path]:
    """A folder of somebody without any rights, who runs the block: root could write everywhere."""
    with tempfile.TemporaryDirectory() as folder:
        is_root = os.geteuid() == 0
        if is_root:
            os.chown(folder, 65534, 65534)
            os.seteuid(65534)
        try:
            yield Path(folder)
        finally:
            os.chmod(folder, 0o700)
            if is_root:
                os.seteuid(0)


def test_a_folder_that_is_read_only_is_shown_and_refuses_changes_plainly():
    with nobody() as home:
        (home / "lap.toml").write_text(LAP)
        home.chmod(0o500)
        projects = Projects(str(home))
        assert projects.names() == ["lap.toml"]
        assert projects.draft("lap.toml").base == LAP
        for function, arguments in (
            (projects.change, ("lap.toml", edit("title", "A"))),
            (projects.save, ("lap.toml", "# other\n")),
            (projects.create, ("New", LAP)),
            (projects.copy, ("lap.toml", "New")),
            (projects.rename, ("lap.toml", "New")),
        ):
            assert refusal(function, *arguments)[0] == ProblemCode.CANNOT_BE_WRITTEN
        assert everything(home) == {"lap.toml": LAP.encode()}


def test_a_file_and_drafts_that_may_not_be_read_are_told_and_left():
    with nobody() as home:
        (home / "lap.toml").write_text(LAP)
        projects = Projects(str(home))
        draft = projects.change("lap.toml", edit("title", "A"))
        (home / FOLDER).chmod(0)
        assert refusal(projects.draft, "lap.toml")[0] == ProblemCode.READING_NOT_ALLOWED
        (home / FOLDER).chmod(0o700)
        (home / FOLDER / "lap.toml.json").chmod(0)
        assert refusal(projects.draft, "lap.toml")[0] == ProblemCode.READING_NOT_ALLOWED
        (home / FOLDER / "lap.toml.json").chmod(0o600)
        (home / "lap.toml").chmod(0)
        assert refusal(projects.save, "lap.toml", text_of)[0] == ProblemCode.READING_NOT_ALLOWED
        assert projects.draft("lap.toml") == draft


def test_a_draft_is_begun_anew_on_the_file_as_it_is_now(home: Path, projects: Projects):
    projects.change("lap.toml", edit("title", "A"))
    (home / "lap.toml").write_text("# theirs\r\n")
    mine = projects.rebase("lap.toml")
    assert (mine.base, values_of(mine), mine.has_unsaved) == ("# theirs\r\n", {"title": "A"}, True)
    assert isinstance(projects.save("lap.toml", lambda draft: draft.source.text + "title = 'A'\n"), Saved)
    assert (home / "lap.toml").read_bytes() == b"# theirs\r\ntitle = 'A'\r\n"
    projects.change("lap.toml", edit("title", "B"))
    assert values_of(projects.rebase("lap.toml", keep=False)) == {}
    assert not projects.draft("lap.toml").has_unsaved


# --- new, copied and renamed -----------------------------------------------------------------------------------------


def test_a_new_project_has_a_name_made_of_what_was_typed(home: Path, projects: Projects):
    assert projects.create("Supper cloth", LAP) == "Supper-cloth.toml"
    assert (home / "Supper-cloth.toml").read_text() == LAP
    assert projects.names() == ["lap.toml", "Supper-cloth.toml"]


@pytest.mark.parametrize("kind", ["file", "link", "folder", "other capitals", "a draft"])
def test_no_new_name_takes_what_is_there(home: Path, projects: Projects, kind: str):
    taken = home / "new.toml"
    if kind == "file":
        taken.write_text("mine")
    elif kind == "link":
        taken.symlink_to(home / "nowhere")
    elif kind == "folder":
        taken.mkdir()
    elif kind == "other capitals":
        (home / "NEW.toml").write_text("mine")
    else:
        taken.write_text(LAP)
        projects.change("new.toml", edit("title", "mine"))
        taken.unlink()
    before = everything(home)
    for function, arguments in (
        (projects.create, ("new", LAP)),
        (projects.copy, ("lap.toml", "new")),
        (projects.rename, ("lap.toml", "new")),
    ):
        assert refusal(function, *arguments) == (ProblemCode.FILE_EXISTS, "new.toml", "already exists")
    assert everything(home) == before


@pytest.mark.parametrize("act", ["create", "copy", "rename"])
def test_a_name_that_is_taken_in_the_last_moment_is_not_written_over(
    home: Path, projects: Projects, monkeypatch: pytest.MonkeyPatch, act: str
):
    def taken_meanwhile(*_: Any, **__: Any) -> None:
        (home / "new.toml").write_text("theirs")

    monkeypatch.setattr(Projects, "_refuse_taken", taken_meanwhile)
    projects.change("lap.toml", edit("title", "A"))
    arguments = ("new", LAP) if act == "create" else ("lap.toml", "new")
    assert refusal(getattr(projects, act), *arguments)[0] == ProblemCode.FILE_EXISTS
    assert (home / "new.toml").read_text() == "theirs"
    assert (home / "lap.toml").read_text() == LAP
    assert values_of(projects.draft("lap.toml")) == {"title": "A"}


def test_a_copy_has_the_file_as_it_is_and_the_unsaved_work(home: Path, projects: Projects):
    (home / "lap.toml").write_bytes(b"\xef\xbb\xbf" + LAP.replace("\n", "\r\n").encode())
    draft = projects.change("lap.toml", edit("title", "A"))
    assert projects.copy("lap.toml", "Lap 2") == "Lap-2.toml"
    assert (home / "Lap-2.toml").read_bytes() == (home / "lap.toml").read_bytes()
    assert projects.draft("Lap-2.toml") == draft._replace(name="Lap-2.toml")
    projects.change("Lap-2.toml", edit("title", "B"))
    assert projects.draft("lap.toml") == draft


def test_a_copy_of_a_file_that_is_gone_has_its_first_text_and_all_work(home: Path, projects: Projects):
    projects.change("lap.toml", edit("title", "A"))
    projects.save("lap.toml", text_of)
    projects.change("lap.toml", edit("title", "B"))
    (home / "lap.toml").unlink()
    projects.copy("lap.toml", "again")
    assert (home / "again.toml").read_text() == LAP
    assert values_of(projects.draft("again.toml")) == {"title": "B"}
    assert isinstance(projects.save("again.toml", text_of), Saved)


def test_a_renamed_project_keeps_its_file_and_its_draft(home: Path, projects: Projects):
    projects.change("lap.toml", edit("title", "A"))
    projects.save("lap.toml", text_of)
    draft = projects.change("lap.toml", edit("top.width", "61"))
    before = (home / "lap.toml").stat()
    data = (home / "lap.toml").read_bytes()
    assert projects.rename("lap.toml", "For Ann") == "For-Ann.toml"
    assert projects.draft("For-Ann.toml") == draft._replace(name="For-Ann.toml")
    assert (home / "For-Ann.toml").read_bytes() == data
    assert (home / "For-Ann.toml").stat().st_ino == before.st_ino
    assert set(everything(home)) == {"For-Ann.toml", ".finishcalc/For-Ann.toml.json"}
    assert projects.rename("For-Ann.toml", "For Ann") == "For-Ann.toml"


def test_a_name_may_change_in_its_capitals_only(home: Path, projects: Projects):
    projects.change("lap.toml", edit("title", "A"))
    assert projects.rename("lap.toml", "Lap") == "Lap.toml"
    assert projects.listed() == [ListedFile("Lap.toml", True, True, False)]


def test_unsaved_work_on_a_file_that_is_gone_is_renamed_too(home: Path, projects: Projects):
    projects.change("lap.toml", edit("title", "A"))
    (home / "lap.toml").unlink()
    assert projects.rename("lap.toml", "new") == "new.toml"
    assert values_of(projects.draft("new.toml")) == {"title": "A"}
    assert projects.names() == ["new.toml"]


def test_what_an_editor_writes_while_a_file_is_renamed_is_left(
    home: Path, projects: Projects, monkeypatch: pytest.MonkeyPatch
):
    write = projects._drafts.write

    def meanwhile(draft: Draft) -> None:
        (home / "edited").write_text("theirs")
        (home / "edited").rename(home / "lap.toml")
        write(draft)

    monkeypatch.setattr(projects._drafts, "write", meanwhile)
    projects.rename("lap.toml", "new")
    assert (home / "new.toml").read_text() == LAP
    assert (home / "lap.toml").read_text() == "theirs"


def test_an_old_draft_without_unsaved_work_does_not_keep_its_name(home: Path, projects: Projects):
    projects.change("lap.toml", edit("title", "A"))
    projects.save("lap.toml", text_of)
    (home / "lap.toml").unlink()
    projects.create("lap", LAP)
    assert projects.draft("lap.toml").steps == ()


# --- reading ---------------------------------------------------------------------------------------------------------


def test_a_shop_file_in_the_folder_or_below_is_read(home: Path, projects: Projects):
    (home / "shops").mkdir()
    (home / "shops" / "mine.toml").write_bytes(b"\xef\xbb\xbf" + SHOP.replace("\n", "\r\n").encode())
    source = projects.reader(str(home / "shops" / "mine.toml"))
    assert (source.text, source.line_end) == (SHOP, "\r\n")
    assert source.name == str(home / "shops" / "mine.toml")
    assert projects.reader("shops/mine.toml").text == SHOP


def test_a_shop_file_outside_the_folder_or_through_a_link_is_not_read(home: Path, projects: Projects):
    (home.parent / "secret.toml").write_text(SHOP)
    (home / "linked.toml").symlink_to(home.parent / "secret.toml")
    (home / "out").symlink_to(home.parent)
    os.mkfifo(home / "pipe.toml")
    for name in (
        "../secret.toml",
        str(home.parent / "secret.toml"),
        str(home / ".." / "secret.toml"),
        str(home / "linked.toml"),
        str(home / "out" / "secret.toml"),
        str(home / "pipe.toml"),
        str(home),
        "-",
        "",
    ):
        with pytest.raises(ProblemsFound) as found:
            projects.reader(name)
        assert "USD" not in str(found.value.problems)


def test_the_users_own_shop_file_is_read_wherever_it_lies(home: Path, monkeypatch: pytest.MonkeyPatch):
    own = home.parent / "own.toml"
    own.write_text(SHOP)
    (home / "linked.toml").symlink_to(own)
    assert Projects(str(home), str(own)).reader(str(own)).text == SHOP
    assert Projects(str(home), str(home / "linked.toml")).reader(str(home / "linked.toml")).text == SHOP
    assert refusal(Projects(str(home)).reader, str(own))[0] == ProblemCode.SHOP_OUTSIDE_FOLDER
    monkeypatch.setenv("FINISHCALC_SHOP", str(own))
    assert Projects(str(home)).reader(str(own)).text == SHOP
    assert refusal(Projects(str(home), "none").reader, str(own))[0] == ProblemCode.SHOP_OUTSIDE_FOLDER


def test_the_shop_file_that_the_settings_name_is_read(home: Path, monkeypatch: pytest.MonkeyPatch):
    own, settings_file = home.parent / "own.toml", home.parent / "config" / "finishcalc" / "settings.toml"
    own.write_text(SHOP)
    settings_file.parent.mkdir(parents=True)
    settings_file.write_text(f"shop = '{own}'\n")
    monkeypatch.delenv("FINISHCALC_SHOP", raising=False)
    monkeypatch.setenv("XDG_CONFIG_HOME", str(home.parent / "config"))
    assert Projects(str(home)).reader(str(settings_file)).table == {"shop": str(own)}
    assert Projects(str(home)).reader(str(own)).text == SHOP


# --- a simple model --------------------------------------------------------------------------------------------------

TITLES = st.sampled_from(["A", "B", "C"])
MOVES = st.lists(
    st.tuples(st.sampled_from(["edit", "undo", "redo", "save", "theirs", "restart"]), st.sampled_from("ab"), TITLES),
    max_size=14,
)


@settings(max_examples=40, deadline=None)
@given(MOVES)
def test_any_edits_undos_and_saves_are_as_in_a_simple_model(tmp_path_factory: pytest.TempPathFactory, moves: list[Any]):
    """The model: the title that stands, those to undo and redo to, and the titles of the file and of its last save."""
    home = tmp_path_factory.mktemp("quilts")
    path = home / "lap.toml"
    path.write_text("title = '0'\n")
    projects = Projects(str(home))
    undo, redo, on_disk, expected, saved = ["0"], list[str](), "0", "0", "0"
    for move, page, title in moves:
        if undo[-1] == saved and on_disk != expected:
            undo, redo, expected, saved = [on_disk], [], on_disk, on_disk
        if move == "edit":
            projects.change("lap.toml", edit("title", title, page))
            undo.append(title)
            redo = []
        elif move == "undo":
            projects.change("lap.toml", Draft.undone)
            redo += [undo.pop()] if len(undo) > 1 else []
        elif move == "redo":
            projects.change("lap.toml", Draft.redone)
            undo += [redo.pop()] if redo else []
        elif move == "theirs":
            path.write_text(f"title = '{title * 2}'\n")
            on_disk = title * 2
        elif move == "restart":
            projects.close()
            projects = Projects(str(home))
        else:
            result = projects.save("lap.toml", written)
            if on_disk in (expected, undo[-1]):
                assert isinstance(result, Saved)
                on_disk = expected = saved = undo[-1]
            else:
                assert isinstance(result, Conflict)
                assert result.text == f"title = '{on_disk}'\n"
        assert path.read_text() == f"title = '{on_disk}'\n"
        shown = on_disk if undo[-1] == saved and on_disk != expected else undo[-1]
        assert title_of(projects.draft("lap.toml")) == shown
    projects.close()


def title_of(draft: Draft) -> str:
    return str(values_of(draft).get("title", draft.source.table["title"]))


def written(draft: Draft) -> str:
    return f"title = '{title_of(draft)}'\n"


def test_what_is_looked_at_is_read_through_the_folder(home: Path, projects: Projects, monkeypatch: pytest.MonkeyPatch):
    """Only the user's own shop file is read by its path, and a project never is."""

    def never(name: str) -> None:
        raise AssertionError(name)

    monkeypatch.setattr(looking, "read", never)
    projects.change("lap.toml", edit("title", "A"))
    projects.reader("lap.toml")
    projects.listed()
    projects.save("lap.toml", text_of)
    assert json.loads((home / FOLDER / "lap.toml.json").read_text())["saved"] == 1
