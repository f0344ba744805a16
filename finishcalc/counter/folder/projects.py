"""The projects of one folder: their drafts, and their files."""

import os
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from typing import NamedTuple

from finishcalc.counter.folder.contained import Contained
from finishcalc.counter.folder.drafts import Draft, hash_of
from finishcalc.counter.folder.kept import KeptDrafts
from finishcalc.counter.folder.looking import FolderFiles
from finishcalc.counter.folder.names import file_name
from finishcalc.counter.folder.refusing import reading, taken, writing
from finishcalc.counter.folder.saving import (
    ChangedMeanwhile,
    Conflict,
    Saved,
    encoded,
    replace,
    sync_folder,
    text_of,
    write_new,
)
from finishcalc.intake.source import LARGEST
from finishcalc.problems import ProblemsFound
from finishcalc.storing.passing import clear_leftovers
from finishcalc.storing.placing import name_anew


class ListedFile(NamedTuple):
    """A project of the folder: `has_unsaved` where its draft says more than its file; `sound` where what stands in it
    works out; `changed` where the file is not the one that the draft was begun on, so that saving it will ask."""

    name: str
    has_unsaved: bool
    sound: bool
    changed: bool


class Projects:
    """The projects of the folder at `path`, with the user's own `shop` file where the server was given one.

    All methods may be called from several threads, and beside another server. They raise ProblemsFound, with the file's
    name in the folder.
    """

    def __init__(self, path: str, shop: str | None = None) -> None:
        with reading(path):
            self._folder = Contained(path)
        self.path, self.shop = self._folder.path, shop
        self._files = FolderFiles(self._folder, shop)
        self.reader = self._files.reader
        self._drafts = KeptDrafts(self._folder)
        with self._drafts.locked():
            self._drafts.clear_leftovers()
        clear_leftovers(Path(self.path))

    def close(self) -> None:
        """Let go of the folder."""
        self._folder.close()

    # --- the list ------------------------------------------------------------------------------------------------

    def names(self) -> list[str]:
        """The names of the projects, in order: the folder's project files, and drafts with unsaved work whose file is
        gone, or is none any more."""
        return [listed.name for listed in self.listed()]

    def listed(self) -> list[ListedFile]:
        """The projects with all that a list tells of their drafts."""
        with self._drafts.locked(), reading(self.path):
            names = self._files.projects()
            others = [name for name in self._drafts.names() if name not in names and self._has_unsaved(name)]
            listed = [self._listed(name) for name in [*names, *others]]
        return sorted(listed, key=lambda each: (each.name.casefold(), each.name))

    def _listed(self, name: str) -> ListedFile:
        draft = self._drafts.read(name)
        if draft is None or not draft.has_unsaved:
            return ListedFile(name, False, True, False)
        return ListedFile(name, True, draft.sound, self._files.hash_on_disk(name) != draft.on_disk)

    def _has_unsaved(self, name: str) -> bool:
        draft = self._drafts.read(name)
        return draft is not None and draft.has_unsaved

    # --- drafts --------------------------------------------------------------------------------------------------

    def draft(self, name: str) -> Draft:
        """The draft of a project. One without unsaved work is begun anew where its file has changed."""
        with self._drafts.locked():
            return self._opened(name)

    def change(self, name: str, function: Callable[[Draft], Draft]) -> Draft:
        """Change the draft of a project, while nobody else can. Gives the draft as it is now."""
        with self._drafts.locked():
            old = self._opened(name)
            new = function(old)
            if new != old:
                self._keep(new)
        return new

    def _opened(self, name: str) -> Draft:
        with reading(name):
            kept = self._drafts.read(name)
            if kept and (self._files.hash_on_disk(name) == kept.on_disk or kept.has_unsaved):
                return kept
            if not self._files.is_project(name):
                raise FileNotFoundError
            with suppress(OSError):  # it may stay where nothing can be written
                self._drafts.remove(name)
            return _begun(name, self._folder.read(name, LARGEST))

    def _keep(self, draft: Draft) -> None:
        with writing(draft.name):
            self._drafts.write(draft)

    # --- files ---------------------------------------------------------------------------------------------------

    def save(self, name: str, text: str | Callable[[Draft], str]) -> Saved | Conflict:
        """Write the text of a project to its file: of the draft as it stands, best worked out from it in here, because
        nobody changes the draft meanwhile. It gets the file's own line ends.

        Gives Conflict, with nothing written, where the file is not the one that the draft was begun on.
        """
        with self._drafts.locked():
            draft = self._drafts_own(name) if isinstance(text, str) else self._opened(name)
            wanted = text if isinstance(text, str) else text(draft)
            with reading(name):
                found = self._files.bytes_of(name)
            now = text_of(name, found) if found is not None else None
            if found is None:
                return Conflict(draft, None)
            data = encoded(name, wanted, found.decode("utf-8"))
            if data != found and (hash_of(found) != draft.on_disk or not self._replaced(draft, data)):
                return Conflict(draft, now)
            saved = draft.with_saved(hash_of(data))
            if saved != draft:
                self._keep(saved)
            return Saved(saved)

    def _drafts_own(self, name: str) -> Draft:
        """The draft that is kept, be it of the file as it is now or not; else one of the file as it is now."""
        with reading(name):
            return self._drafts.read(name) or self._opened(name)

    def _replaced(self, draft: Draft, data: bytes) -> bool:
        """Write a file in place of the one that the draft was begun on. Gives false where that is there no more."""
        try:
            with writing(draft.name):
                replace(self._at(draft.name), data, lambda: self._files.bytes_of(draft.name), draft.on_disk)
        except ChangedMeanwhile:
            return False
        return True

    def rebase(self, name: str, keep: bool = True) -> Draft:
        """Begin the draft anew on the file as it is now, with all that stands in it as one step, or without that."""
        with self._drafts.locked():
            with reading(name):
                fresh = _begun(name, self._folder.read(name, LARGEST))
            draft = self._drafts_own(name).rebased(fresh.base, fresh.on_disk) if keep else fresh
            self._keep(draft)
        return draft

    def put_back(self, name: str, text: str | Callable[[Draft], str]) -> Saved | Conflict:
        """Write the file of a draft again that is gone. Gives Conflict where it is there after all."""
        with self._drafts.locked():
            draft = self._drafts_own(name)
            data = encoded(name, text if isinstance(text, str) else text(draft), draft.base)
            with reading(name):
                found = self._files.bytes_of(name)
            if found is not None:
                return Conflict(draft, text_of(name, found))
            with writing(name):
                write_new(self._at(name), data)
            saved = draft.with_saved(hash_of(data))
            self._keep(saved)
        return Saved(saved)

    def create(self, name: str, text: str) -> str:
        """Write a new project under a name that is made of what was typed. Gives the name of its file."""
        new = file_name(name)
        with self._drafts.locked():
            self._refuse_taken(new)
            self._write_new(new, encoded(new, text, ""))
        return new

    def copy(self, name: str, new: str) -> str:
        """Copy a project, with its unsaved work, to a name that is made of what was typed. Gives the name of its
        file."""
        target = file_name(new)
        with self._drafts.locked():
            draft = self._opened(name)
            self._refuse_taken(target)
            with reading(name):
                data = self._files.bytes_of(name)
            if data is None:
                data = draft.base.encode("utf-8")
                draft = draft.with_saved(hash_of(data), 0)
            self._write_new(target, data)
            if draft.steps:
                self._keep(draft._replace(name=target))
        return target

    def rename(self, name: str, new: str) -> str:
        """Give a project, with its draft, a name that is made of what was typed. Its text stays as it is, title
        included. Gives the name of its file."""
        target = file_name(new)
        with self._drafts.locked():
            draft = self._opened(name)
            if target == name:
                return name
            self._refuse_taken(target, besides=name)
            self._rename(draft, target)
        return target

    def _rename(self, draft: Draft, target: str) -> None:
        """Name file and draft anew, so that both are there under one name or the other at any moment."""
        with writing(target):
            if self._files.bytes_of(draft.name) is not None:
                name_anew(Path(self._at(draft.name)), Path(self._at(target)))
            self._drafts.write(draft._replace(name=target))
            if self._is_one_file(draft.name, target):
                self._folder.remove(draft.name)
            self._drafts.remove(draft.name)
            sync_folder(Path(self.path))

    def _is_one_file(self, name: str, other: str) -> bool:
        """Tell two names of one file. What an editor has put in its place meanwhile is another."""
        try:
            return os.path.samestat(self._folder.status(name), self._folder.status(other))
        except FileNotFoundError:
            return False

    def _refuse_taken(self, name: str, besides: str = "") -> None:
        """Refuse a name that a file has, or a draft with unsaved work; also one that differs in capitals only, because
        not every system tells these apart."""
        with reading(self.path):
            names = [*self._folder.all_names(), *(each for each in self._drafts.names() if self._has_unsaved(each))]
        if name.casefold() in {each.casefold() for each in names if each != besides}:
            raise ProblemsFound([taken(name)])

    def _write_new(self, name: str, data: bytes) -> None:
        with writing(name):
            self._drafts.remove(name)
            write_new(self._at(name), data)

    def _at(self, name: str) -> str:
        return os.path.join(self.path, name)


def _begun(name: str, data: bytes) -> Draft:
    """A draft without a step, of a file as it is. Raises ProblemsFound for one that is no text."""
    text_of(name, data)
    return Draft(name, data.decode("utf-8"), hash_of(data))
