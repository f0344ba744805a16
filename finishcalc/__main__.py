"""Starts finishcalc quickly: `--version` needs no imports, and nothing is collected while modules load."""

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
    app(prog_name="finishcalc")


def _print_version() -> None:
    from finishcalc import __version__

    try:
        os.write(1, f"{__version__}\n".encode())
    except OSError:
        sys.exit(1)


if __name__ == "__main__":
    main()
