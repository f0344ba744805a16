"""Starts and ends finishcalc quickly: `--version` needs no imports, Python rarely looks for garbage while modules load,
and the process ends without taking a hundred modules apart again."""

import gc
import os
import sys


def main() -> None:
    """Run the command line. Exits 1 where what it prints cannot be written, 130 on Ctrl-C."""
    try:
        if sys.argv[1:] == ["--version"]:
            _print_version()
        gc.set_threshold(200_000)  # all that a command loads and makes for one quote stays to its end
        from finishcalc.commandline.stopping import listen

        listen()
    except KeyboardInterrupt:  # before anything listens; an import could be stopped again
        try:
            if sys.stderr is not None:
                os.write(2, b"finishcalc: stopped; nothing was written\n")
        finally:
            os._exit(130)
    _run()


def _run() -> None:
    if sys.stderr is None:  # usage errors would go to standard output instead
        sys.stderr = os.fdopen(os.open(os.devnull, os.O_WRONLY), "w", encoding="utf-8")
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")  # looking for them takes as long as a bare Python
    from finishcalc.commandline.app import app

    try:
        app(prog_name="finishcalc")
    except SystemExit as done:
        _leave(done.code if isinstance(done.code, int) else int(done.code is not None))
    except OSError as failed:  # help, or what is wrong with the arguments, that cannot be written
        _write_line(failed.strerror or "cannot write the result")
        _leave(getattr(failed.__context__, "exit_code", 1))


def _print_version() -> None:
    """Print the version, and end."""
    from finishcalc import __version__

    try:
        if sys.stdout is not None:  # were it closed, its number may by now be that of another file
            os.write(1, f"{__version__}\n".encode())
    except BrokenPipeError:
        _leave(1)
    except OSError as failed:
        _write_line(failed.strerror or "cannot write the version")
        _leave(1)
    _leave(0)


def _write_line(text: str) -> None:
    from finishcalc.commandline.stopping import write_line

    write_line(text)


def _leave(code: int) -> None:
    """End at once, with all that was printed written. Files are written whole before this, so nothing is lost."""
    if sys.stdout is None and code == 0:
        _write_line("cannot write the result: standard output is closed")
        code = 1
    for stream in (sys.stdout, sys.stderr):
        try:
            if stream is not None:
                stream.flush()
        except (OSError, ValueError):  # the reader has gone, or the stream is closed already
            code = code or 1
    os._exit(code)


if __name__ == "__main__":
    main()
