"""Starts finishcalc quickly: `--version` needs no imports, and nothing is collected while modules load."""

import gc
import sys


def main() -> None:
    """Run the command line."""
    if sys.argv[1:] == ["--version"]:
        from finishcalc import __version__

        print(__version__)
        return
    gc.disable()
    from finishcalc.cli import app

    gc.freeze()
    gc.enable()
    app(prog_name="finishcalc")


if __name__ == "__main__":
    main()
