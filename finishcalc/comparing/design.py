"""A design: the project file that is worked out in several sizes."""

from functools import cache, cached_property
from pathlib import PurePath

from finishcalc.intake.changes.change import Change, changed
from finishcalc.intake.changes.sizes import SizeContext
from finishcalc.intake.keypaths import value_at
from finishcalc.intake.resolve import LOGO, Resolved, Run, folder_of, resolve_run
from finishcalc.intake.source import Source, read
from finishcalc.intake.words import understood
from finishcalc.problems import ProblemsFound


class Design:
    """A project that is worked out in several sizes: with `widen`, the last border of a pieced top may be cut wider to
    fit. Raises ProblemsFound where the file itself has mistakes."""

    def __init__(self, run: Run, widen: bool = True) -> None:
        self._run = run._replace(reader=cache(run.reader))
        self.source, self.shop, self.folder, self.widen = run.source, run.shop, run.folder, widen
        self.tried = run.change or Change("")

    @classmethod
    def of_file(cls, name: str, shop: str | None = None, widen: bool = True, tried: Change | None = None) -> "Design":
        """Read the file of a design, with values to try on it."""
        return cls(Run(read(name), shop, folder_of(name), read, tried), widen)

    @classmethod
    def of(cls, resolved: Resolved, widen: bool = True) -> "Design":
        """Take a design that is resolved already, from wherever its text and the change to it came."""
        design = cls(resolved.run, widen)
        design.unchanged = resolved
        return design

    @cached_property
    def unchanged(self) -> Resolved:
        """The project without a change of size."""
        return resolve_run(self._run)

    def changed(self, change: Change) -> Resolved:
        """Resolve the project with a change, which is laid over the values to try. Raises ProblemsFound."""
        return resolve_run(self._run._replace(change=change))

    @cached_property
    def known(self) -> SizeContext:
        """The names and tables by which a size may be asked for."""
        return SizeContext(self.unchanged, self.unchanged.project.units, changed(self.source.table, self.tried)[0])

    def cloth_named(self, word: str) -> str:
        """Give the name of the cloth that a word means; the word itself where it means none or several."""
        return understood(word, *self.known.names("fabrics"), ["none"]) or word

    @property
    def own_shop(self) -> dict[str, str | bytes]:
        """The text of the shop file that the project itself names, and its logo, by their names, if they can be
        read."""
        named = value_at(self.known.table, ("shop",))
        if not isinstance(named, str):
            return {}
        try:
            shop = self._run.reader(str(self.folder / named))
            return {named: shop.text, **_logo_of(shop, PurePath(named).parent)}
        except ProblemsFound:
            return {}


def _logo_of(shop: Source, folder: PurePath) -> dict[str, bytes]:
    """The logo that a shop file names, by its name from the `folder` that the shop file is named in."""
    named = value_at(shop.table, LOGO)
    if not named or not isinstance(named, str):
        return {}
    from finishcalc.intake.logo.reading import logo_at
    from finishcalc.intake.logo.refused import PictureRefused

    try:
        return {str(folder / named): logo_at(named, PurePath(shop.name).parent).content}
    except PictureRefused:
        return {}
