"""Starts and ends finishcalc quickly: `--version` needs no imports, nothing is collected while modules load, and the
process ends without taking a hundred modules apart again."""

import gc
import os
import sys


def main() -> None:
    """Run the command line. Exits 1 where what it prints cannot be written."""
    if sys.argv[1:] == ["--version"]:
        _print_version()
        return
    gc.disable()
    from finishcalc.cli import app

    gc.freeze()
    gc.enable()
    try:
        app(prog_name="finishcalc")
    except SystemExit as done:
        _leave(done.code if isinstance(done.code, int) else int(done.code is not None))
    except OSError as failed:  # help that cannot be written; files that cannot be read are problems
        print(f"finishcalc: {failed.strerror}", file=sys.stderr)
        _leave(1)


def _print_version() -> None:
    from finishcalc import __version__

    try:
        os.write(1, f"{__version__}\n".encode())
    except OSError:
        sys.exit(1)


def _leave(code: int) -> None:
    """End at once, with all that was printed written. Files are written whole before this, so nothing is lost."""
    for stream in (sys.stdout, sys.stderr):
        try:
            stream.flush()
        except (OSError, ValueError):  # the reader has gone, or the stream is closed already
            code = code or 1
    os._exit(code)


if __name__ == "__main__":
    main()
