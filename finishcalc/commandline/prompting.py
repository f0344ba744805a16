"""Asks for a line on a terminal, with its history and completion, and leaves the terminal as it was.

The line is edited by readline where Python has it, and by the terminal itself elsewhere. Importing readline is what
makes Python use it.
"""

import codecs
import locale
import sys
from collections.abc import Callable, Sequence
from contextlib import suppress

from finishcalc.commandline.encoding import readable
from finishcalc.commandline.stopping import before_end

with suppress(ImportError):
    import termios


def is_terminal() -> bool:
    """Tell a run that can ask somebody: it reads from a terminal and writes to one."""
    return all(stream is not None and stream.isatty() for stream in (sys.stdin, sys.stdout))


def begin() -> None:
    """Set the terminal to be put back as it is now, and Tab to complete."""
    with suppress(NameError, OSError, ValueError):
        descriptor = sys.stdin.fileno()
        before = termios.tcgetattr(descriptor)
        before_end(lambda: _put_back(descriptor, before))
    with suppress(ImportError):  # Windows edits lines itself
        if not _in_the_locales_letters():
            return
        import readline

        readline.set_completer_delims(",")
        readline.parse_and_bind("bind ^I rl_complete" if "libedit" in (readline.__doc__ or "") else "tab: complete")


def _in_the_locales_letters() -> bool:
    """Tell input in the encoding of the locale, which is the only one that readline reads."""
    return codecs.lookup(sys.stdin.encoding) == codecs.lookup(locale.getpreferredencoding(False))


def _put_back(descriptor: int, before: list[object]) -> None:
    with suppress(OSError, termios.error):
        termios.tcsetattr(descriptor, termios.TCSANOW, before)  # type: ignore[arg-type]
    end_line()


def end_line() -> None:
    """End the line of a prompt that nobody has answered."""
    with suppress(OSError, ValueError):
        sys.stdout.write("\n")
        sys.stdout.flush()


def ask(prompt: str, words: Sequence[str]) -> str:
    """Ask for a line; Tab completes the words. Raises EOFError where the input ends, and UnicodeDecodeError where it
    cannot be read."""
    if "readline" in sys.modules:
        sys.modules["readline"].set_completer(_completer(words))
    encoding = sys.stdout.encoding or "ascii"
    return input(readable(prompt, encoding).decode(encoding))


def _completer(words: Sequence[str]) -> Callable[[str, int], str | None]:
    def complete(begun: str, number: int) -> str | None:
        blank = begun[: len(begun) - len(begun.lstrip())]
        found = [blank + word for word in words if word.startswith(begun.strip())]
        return found[number] if number < len(found) else None

    return complete
