"""Values that are tried on a project, as they are given on the command line: KEY=VALUE."""

import re
import tomllib
from decimal import Decimal
from typing import NamedTuple

from finishcalc.intake.changes.change import Change
from finishcalc.intake.changes.shop_values import is_in_house, spec_at
from finishcalc.intake.keypaths import KeyPath
from finishcalc.intake.nesting import MOST_PARTS, too_deep
from finishcalc.intake.source import dotted
from finishcalc.measures.numbers import shorten
from finishcalc.model.files import ProjectFile, ShopFile
from finishcalc.model.section import KeySpec, Section, specs
from finishcalc.wording.sentence import Audience

NAME = "--set"
"""The name under which problems with these values are reported."""
_STEP = re.compile(r'(?:^|\.)(?:([A-Za-z0-9_-]+)|"([^"]*)")((?:\[[1-9][0-9]{0,3}\])*)')


class Setting(NamedTuple):
    """A value under a key path, None to take it out; `text` is the value as it was given."""

    path: KeyPath
    value: object
    text: str

    @property
    def in_house(self) -> bool:
        """Tell a value that gives away anything of the studio's alone."""
        return is_in_house(_file(self.path), self.path, self.value)


class Trial(NamedTuple):
    """One set of values to try; `choice` is the one of the key that was given several."""

    settings: tuple[Setting, ...]
    choice: Setting | None

    @property
    def change(self) -> Change:
        """The settings as a change: keys that only a shop file has replace the shop's."""
        project_puts, shop_puts = (
            tuple(
                (setting.path, setting.value)
                for setting in self.settings
                if setting.value is not None and _is_shops(setting.path) is of_the_shop
            )
            for of_the_shop in (False, True)
        )
        drops = tuple(setting.path for setting in self.settings if setting.value is None)
        return Change(NAME, drops, project_puts, shop_puts)

    def words(self, audience: Audience) -> dict[str, str]:
        """The values as they were given, by key. A customer's leave out the keys that are the studio's alone."""
        visible = [setting for setting in self.settings if audience == "studio" or not setting.in_house]
        return {dotted(setting.path): setting.text for setting in visible}


class NotASetting(ValueError):
    """Says what is wrong with a text that is no setting."""


def setting(text: str) -> Setting:
    """Read "backing.overage=3" or "top.borders[2].cut=4 1/2". A value is TOML if it is, and else text; `null` takes the
    key out of the project file.

    Raises NotASetting.
    """
    key, sign, value = text.partition("=")
    steps = key_path(key)
    if not sign or not steps:
        raise NotASetting(f'"{text}" is not KEY=VALUE: write it as backing.overage=3 or top.borders[2].cut=4')
    if len(steps) > MOST_PARTS:
        raise NotASetting(
            f'"{shorten(text)}" has more than {MOST_PARTS} parts in its key: write it as backing.overage=3'
        )
    text = value.strip()
    spec = spec_at(_file(steps), steps)
    is_taken_out = text == "null" and spec is not None and not _is_shops(steps)
    return Setting(steps, None if is_taken_out else _value(text, spec), text)


def key_path(text: str) -> KeyPath:
    """Read a key in dotted notation, with items counted from 1: `top.borders[2].cut`. Gives an empty path for a text
    that is no key."""
    text = text.strip()
    path, end = list[str | int](), 0
    while match := _STEP.match(text, end):
        path.append(match[1] or match[2])
        path += [int(number) - 1 for number in re.findall(r"[0-9]+", match[3])]
        end = match.end()
    return () if end < len(text) or text.startswith(".") else tuple(path)


def _file(path: KeyPath) -> type[Section]:
    return ShopFile if _is_shops(path) else ProjectFile


def _value(text: str, spec: KeySpec | None) -> object:
    """The value as TOML, or as text. A number is text too where the key wants text."""
    value = _toml(text)
    wants_text = spec is not None and spec.key is not None and spec.key.text
    return text if wants_text and not isinstance(value, str) else value


def _toml(text: str) -> object:
    line = f"x = {text}"
    if "\n" in text or too_deep(line):
        return text
    try:
        return tomllib.loads(line, parse_float=Decimal)["x"]
    except (ValueError, ArithmeticError):
        return text


def trials(texts: list[str]) -> list[Trial]:
    """One trial, or one for each value of the one key that is given several. They keep their order; all values of
    one key stand where its first stood. Raises NotASetting."""
    by_path: dict[KeyPath, list[Setting]] = {}
    for value in map(setting, texts):
        by_path.setdefault(value.path, []).append(value)
    several = [path for path, given in by_path.items() if len(given) > 1]
    if len(several) > 1:
        names = " and ".join(dotted(path) for path in several)
        raise NotASetting(f"{names} are given several times: only one key may be, so try them one after the other")
    if not several:
        return [Trial(tuple(given[0] for given in by_path.values()), None)]
    (key,) = several
    return [
        Trial(tuple(choice if path == key else given[0] for path, given in by_path.items()), choice)
        for choice in by_path[key]
    ]


def _is_shops(path: KeyPath) -> bool:
    return path[0] in specs(ShopFile) and path[0] not in specs(ProjectFile)
