"""The command `counter`: the page of a folder of projects, served to the browser of this computer until Ctrl-C."""

import errno
import gc
import os
import re
import sys
from contextlib import suppress
from typing import TYPE_CHECKING, Annotated

import typer

from finishcalc.commandline import completing
from finishcalc.commandline.options import ShopFile
from finishcalc.commandline.options import folder as named_folder
from finishcalc.commandline.terminal import report_problems, write
from finishcalc.problems import Problem, ProblemCode, ProblemsFound

if TYPE_CHECKING:
    from finishcalc.counter.server.serving import Server


def port_number(value: str) -> int:
    """Read the number of a port. Raises BadParameter."""
    if not re.fullmatch("[0-9]{1,5}", value.strip()) or not 1 <= int(value) <= 65535:
        raise typer.BadParameter(f'"{value}" is not a port: use a whole number from 1 to 65535')
    return int(value)


def counter(
    folder: Annotated[
        str,
        typer.Argument(
            metavar="FOLDER",
            parser=named_folder,
            autocompletion=completing.folders,
            help="The folder of the projects, as in quilts; else the one you are in.",
        ),
    ] = ".",
    port: Annotated[
        int | None,
        typer.Option(
            "--port",
            metavar="PORT",
            parser=port_number,
            help="The port to serve the page at, as in --port 8420; else any that is free.",
        ),
    ] = None,
    no_open: Annotated[bool, typer.Option("--no-open", help="Print the address and open no browser.")] = False,
    shop: ShopFile = None,
) -> None:
    """Open a folder of projects as a page in the browser, to quote with the customer in front of you.

    The page is there for this computer alone, by the address that is printed, until Ctrl-C.

    \b
    Example:
      finishcalc counter quilts
    """
    try:
        server = _ready(folder, port or 0, shop)
    except ProblemsFound as error:
        report_problems(error, as_json=False)
        raise typer.Exit(1) from None
    _serve(server, folder, shop, not no_open)


def _ready(folder: str, port: int, shop: str | None) -> "Server":
    """Look at all that the page needs, and listen at the port. Raises ProblemsFound with every problem."""
    problems = [*_folder_problems(folder), *_shop_problems(shop)]
    try:
        server = _server(port)
    except ProblemsFound as error:
        raise ProblemsFound([*problems, *error.problems]) from None
    if problems:
        server.close()
        raise ProblemsFound(problems)
    return server


def _folder_problems(folder: str) -> list[Problem]:
    """Tell a folder that cannot be listed, or in which nothing can be saved, in one line each."""
    from finishcalc.intake.source import unreadable

    try:
        with os.scandir(folder):
            pass
    except FileNotFoundError:
        return [
            _problem(ProblemCode.NO_SUCH_FOLDER, folder, "no such folder: check the name and the folder you are in")
        ]
    except NotADirectoryError:
        return [_problem(ProblemCode.NOT_A_FOLDER, folder, "is not a folder: name the one that the projects are in")]
    except OSError as error:
        code, message, hint = unreadable(error)
        return [_problem(code, folder, f"{message}: {hint}")]
    if os.access(folder, os.W_OK | os.X_OK):
        return []
    message = "you are not allowed to save in it: ask its owner, or name another folder"
    return [_problem(ProblemCode.CANNOT_BE_WRITTEN, folder, message)]


def _shop_problems(shop: str | None) -> list[Problem]:
    """Tell what is wrong with the shop file, because no project could be quoted with it."""
    from finishcalc.intake.listing import known_presets

    try:
        known_presets(shop)
    except ProblemsFound as error:
        return list(error.problems)
    return []


def _server(port: int) -> "Server":
    """Listen at a port. Raises ProblemsFound with one problem."""
    try:
        from finishcalc.counter.server.serving import Server
    except ModuleNotFoundError as error:
        if (error.name or "finishcalc").startswith("finishcalc"):  # a mistake of ours
            raise
        message = "the page needs the extra: pip install 'finishcalc[page]'"
        raise ProblemsFound([_problem(ProblemCode.PAGE_NOT_INSTALLED, "counter", message)]) from None
    try:
        return Server(port)
    except OSError as error:
        if error.errno == errno.EADDRINUSE:
            message = f"another program uses port {port}: choose another port, or leave --port out"
        else:
            message = f"port {port} cannot be used here: choose one from 1024 on, or leave --port out"
        raise ProblemsFound([_problem(ProblemCode.PORT_UNAVAILABLE, "--port", message)]) from None


def _problem(code: ProblemCode, about: str, message: str) -> Problem:
    return Problem(code, about, 0, 0, "", message)


def _serve(server: "Server", folder: str, shop: str | None, opens: bool) -> None:
    """Serve until a stop, which is the usual end here, and say so."""
    from finishcalc.commandline.stopping import stops_end, write_line
    from finishcalc.counter.app import Counter, make_app
    from finishcalc.counter.folder.projects import Projects

    def opened() -> None:
        write(f"{server.address}\nCtrl-C closes the counter.\n", passing=True)
        if opens:
            _open(server.address_for_once())

    app = make_app(Counter(Projects(folder, shop)))
    _warm_up(shop)
    _collect_garbage_again()
    with stops_end(server.stop):
        server.run(app, opened)
    write_line("the counter is closed")


def _warm_up(shop: str | None) -> None:
    """Quote a sample, because the first quote of a process takes several times as long as the next ones."""
    from finishcalc.commandline.views import More, quote_view
    from finishcalc.intake.source import presets_folder
    from finishcalc.pipeline import finish_file

    with suppress(ProblemsFound):  # a shop need not have all that the sample asks for
        result = finish_file(str(presets_folder() / "projects" / "boathouse-supper-cloth.toml"), shop)
        quote_view(result, "customer", "text", 80, More())


def _collect_garbage_again() -> None:
    """Look for garbage as Python usually does, which a command that ends soon does not. All that is loaded stays, and
    is not looked at each time."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(10_000, 10, 10)


def _open(address: str) -> None:
    """Open the address in the browser, beside the server. Without a desktop there is only a browser that would take the
    terminal."""
    import webbrowser
    from threading import Thread

    has_desktop = sys.platform in ("darwin", "win32") or any(map(os.environ.get, ("DISPLAY", "WAYLAND_DISPLAY")))
    if has_desktop or os.environ.get("BROWSER"):
        Thread(target=webbrowser.open, args=(address,), daemon=True).start()
