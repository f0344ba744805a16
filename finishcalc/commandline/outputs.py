"""The one output of a run: its format, and the place it goes to, which is standard output or a file.

Text, JSON, CSV and Markdown go to standard output. HTML and PDF are papers and go to the file that their option names,
where `-` stands for standard output.
"""

import os
import sys
from collections.abc import Iterable, Sequence
from contextlib import suppress
from pathlib import PurePath
from typing import TYPE_CHECKING, NamedTuple, Protocol

import typer

from finishcalc.commandline.terminal import write, written_lines
from finishcalc.problems import Problem, ProblemCode, ProblemsFound

if TYPE_CHECKING:
    from finishcalc.commandline.files import Content, FilesIn
    from finishcalc.rendering.compare import Format

STANDARD_OUTPUT = ("-", "/dev/stdout")


class ReadFrom(Protocol):
    """A result that knows the names of the files it was read from."""

    @property
    def files(self) -> Sequence[str]:
        """The names of the files."""


class Output(NamedTuple):
    """The format of a result, and the file it is written to; none is standard output."""

    form: "Format" = "text"
    file: str | None = None

    @property
    def as_json(self) -> bool:
        """True where problems are told as records too, because a program reads them."""
        return self.form == "json"

    @property
    def as_document(self) -> bool:
        """True where standard output is a whole document, to which no other word may be added."""
        return self.file is None and self.form != "text"

    def refuse(self, options: dict[str, bool]) -> None:
        """Refuse options that no sheet on paper has. Raises BadParameter."""
        for option, asked in options.items():
            if asked and self.form in ("html", "pdf"):
                message = f"the sheet of --{self.form} does not have it: leave one of them out"
                raise typer.BadParameter(message, param_hint=option)


def output_of(
    *, json: bool = False, csv: bool = False, markdown: bool = False, html: str | None = None, pdf: str | None = None
) -> Output:
    """Give the one output that is asked for, or text. Raises BadParameter where there are several, and for a PDF that
    would fill a terminal with signs nobody can read."""
    asked: dict[Format, bool | str | None] = {"json": json, "csv": csv, "markdown": markdown, "html": html, "pdf": pdf}
    chosen: list[Format] = [form for form, place in asked.items() if place]
    if len(chosen) > 1:
        raise typer.BadParameter("give one of " + " and ".join(f"--{form}" for form in chosen))
    form: Format = chosen[0] if chosen else "text"
    file = html or pdf
    if file in STANDARD_OUTPUT:
        file = None
    if form == "pdf" and file is None and sys.stdout is not None and sys.stdout.isatty():
        message = "a terminal cannot show a PDF: name a file, as in --pdf quote.pdf"
        raise typer.BadParameter(message, param_hint="--pdf")
    return Output(form, file)


def deliver(
    output: Output,
    content: "Content",
    read_from: Iterable["ReadFrom"],
    folders: Sequence["FilesIn"] = (),
    force: bool = False,
    shared: Sequence["FilesIn"] = (),
) -> None:
    """Write the result to its place, and the files in `folders` beside it, all of them or none; tell of each file.

    Raises ProblemsFound where a file cannot be written, or is one that the result was `read_from`.
    """
    if output.file is not None:
        folders = [as_folder(output.file, content), *folders]
    paths: list[str] = []
    if folders or shared:
        from finishcalc.commandline.files import write_all

        paths = write_all(folders, force, shared, _sources(read_from))
    if output.file is None:
        write(content)
    write(written_lines(paths), error=output.as_document)


def as_folder(file: str, content: "Content") -> "FilesIn":
    """Name a file by its folder and its name in it. Raises ProblemsFound for the name of a folder."""
    path = PurePath(file)
    if file.endswith(("/", os.sep)) or path.name in ("", ".."):
        hint = "nothing was written: name a file in it"
        raise ProblemsFound([Problem(ProblemCode.FOLDER_IN_THE_WAY, file, 0, 0, "", "is a folder", hint)])
    return str(path.parent), {path.name: content}


def _sources(read_from: Iterable["ReadFrom"]) -> list[os.stat_result]:
    """The files that results were read from, each by its place on the disk, whatever it is called."""
    from finishcalc.intake.source import STANDARD_INPUT

    found = []
    for name in dict.fromkeys(name for each in read_from for name in each.files):
        with suppress(OSError, ValueError):
            found.append(os.stat(name))
        if name == STANDARD_INPUT and sys.stdin is not None:
            with suppress(OSError, ValueError):
                found.append(os.fstat(sys.stdin.fileno()))
    return found
