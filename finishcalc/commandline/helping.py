"""Help pages and usage errors in the trade's words: no types of the programming language, whole sentences, and the
nearest option proposed for one that does not exist."""

from collections.abc import Iterable
from typing import Any

from typer.core import TyperArgument, TyperCommand, TyperGroup

from finishcalc.commandline.terminal import width


class Command(TyperCommand):
    """A command whose help names arguments as people do, and whose usage errors propose the nearest option."""

    def make_context(self, info_name: str | None, args: list[str], parent: Any = None, **extra: Any) -> Any:
        """Read the arguments in a context whose pages fit the terminal."""
        return super().make_context(info_name, args, parent, **{"terminal_width": width(), **extra})

    def collect_usage_pieces(self, ctx: Any) -> list[str]:
        """Name the options and each argument: what may be left out stands in brackets."""
        named = [_usage(param) for param in self.get_params(ctx) if isinstance(param, TyperArgument)]
        return ["[OPTIONS]", *named]

    def format_options(self, ctx: Any, formatter: Any) -> None:
        """Write the arguments without their types, then the options."""
        parameters = self.get_params(ctx)
        arguments = [(each.metavar or "", each.help or "") for each in parameters if isinstance(each, TyperArgument)]
        options = [each.get_help_record(ctx) for each in parameters if not isinstance(each, TyperArgument)]
        for heading, rows in (("Arguments", arguments), ("Options", [row for row in options if row])):
            if rows:
                with formatter.section(heading):
                    formatter.write_dl(rows)

    def parse_args(self, ctx: Any, args: list[str]) -> list[str]:
        """Read the arguments. A usage error about an option proposes the nearest."""
        try:
            return super().parse_args(ctx, args)
        except Exception as error:
            _propose_nearest(error)
            raise


class Group(TyperGroup):
    """The commands, each listed with the whole first sentence of its help."""

    def make_context(self, info_name: str | None, args: list[str], parent: Any = None, **extra: Any) -> Any:
        """Read the arguments in a context whose pages fit the terminal."""
        return super().make_context(info_name, args, parent, **{"terminal_width": width(), **extra})

    def format_commands(self, ctx: Any, formatter: Any) -> None:
        """List the commands."""
        with formatter.section("Commands"):
            formatter.write_dl([(name, first_sentence(command)) for name, command in self.commands.items()])

    def parse_args(self, ctx: Any, args: list[str]) -> list[str]:
        """Read the arguments. A usage error about an option proposes the nearest."""
        try:
            return super().parse_args(ctx, args)
        except Exception as error:
            _propose_nearest(error)
            raise

    def resolve_command(self, ctx: Any, args: list[str]) -> Any:
        """Find the command. A usage error about it proposes the nearest, where typer would list all that are near."""
        self.suggest_commands = False
        try:
            return super().resolve_command(ctx, args)
        except Exception as error:
            _propose_command(error, args, self.commands)
            raise


def first_sentence(command: Any) -> str:
    """Give the first sentence of a command's help."""
    return " ".join((command.help or "").split("\n\n")[0].split())


def _usage(argument: TyperArgument) -> str:
    name = argument.metavar or argument.name or ""
    return name if argument.required else f"[{name}]"


def _propose_command(error: Any, args: list[str], names: Iterable[str]) -> None:
    """Put the one nearest command in the message of an unknown one, if any is near."""
    from difflib import get_close_matches  # only a mistake needs it

    for near in get_close_matches(args[0], names, n=1) if args else ():
        error.message = f"{error.message.rstrip('.')}. Did you mean {near!r}?"


def _propose_nearest(error: Any) -> None:
    """Put the one nearest option in the message of an unknown one."""
    if getattr(error, "possibilities", None):
        from difflib import get_close_matches  # only a mistake needs it

        (near,) = get_close_matches(error.option_name, error.possibilities, n=1, cutoff=0)
        error.message = f"{error.message}. Did you mean {near}?"
        error.possibilities = None
