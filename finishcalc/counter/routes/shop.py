"""The rates of the shop, while the studio's view of a project is open: the shop file in use as a form, and saved."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import NamedTuple

from starlette.requests import Request
from starlette.responses import HTMLResponse, Response
from starlette.routing import BaseRoute, Route

from finishcalc.counter.answers import form_of, to_list, to_project
from finishcalc.counter.folder.drafts import hash_of
from finishcalc.counter.pages import page
from finishcalc.counter.routes.studio import session_of
from finishcalc.counter.side_by_side import rows_of
from finishcalc.counter.state import Counter
from finishcalc.counter.studio.rates import Rates, Rewritten
from finishcalc.counter.studio.shop_file import ShopOnDisk, shop_on_disk, source_in
from finishcalc.counter.studio.views import View
from finishcalc.counter.working import usual_for
from finishcalc.intake.source import Source
from finishcalc.wording.plain import plain

WAS = "was:"
"""The start of the name of a field that tells what stood in another when it was sent."""


NOTHING: Mapping[str, str] = MappingProxyType({})
AS_IT_IS = Rewritten("")
"""The result of a form that has not been posted."""


class Opened(NamedTuple):
    """A shop file as it was read, with its rates."""

    shop: ShopOnDisk
    data: bytes
    source: Source
    rates: Rates

    @property
    def mark(self) -> str:
        """The mark of its bytes, by which the form says what it was filled in from."""
        return hash_of(self.data)


class ShopRoutes:
    """The routes of the shop's rates. Without an open view there are none: the list of projects is shown."""

    def __init__(self, counter: Counter) -> None:
        self._projects, self._views, self._alone = counter.projects, counter.views, counter.alone

    @property
    def routes(self) -> list[BaseRoute]:
        """The routes with their address."""
        return [Route("/shop", self.show, methods=["GET"]), Route("/shop", self.save, methods=["POST"])]

    async def show(self, request: Request) -> Response:
        """Show the rates as a form, once: a reload shows the customer's page."""
        session = session_of(request)
        open_view = self._views.of(session)
        view = self._views.shows_rates(session)
        if view is None:
            return to_project(open_view.project) if open_view else to_list()
        return await self._alone(self._shown, view)

    async def save(self, request: Request) -> Response:
        """Save the rates, and show what they come to in the studio's view."""
        session, form = session_of(request), await form_of(request)
        view = self._views.stay(session)
        if view is None:
            return to_list()
        answer = await self._alone(self._saved, view, {name: texts[0] for name, texts in form.items()})
        if answer is None:
            self._views.open(session, view.project, view.seconds)
        return answer or to_project(view.project)

    def _opened(self, view: View) -> Opened | None:
        """Read the shop file of the project in view; None where it is quoted with the sample shop."""
        usual = usual_for(self._projects, self._projects.draft(view.project))
        shop = shop_on_disk(usual.resolved.shop_file, self._projects.path)
        if shop is None:
            return None
        data = shop.read()
        source = source_in(shop, data)
        return Opened(shop, data, source, Rates(source, self._projects.reader))

    def _shown(self, view: View) -> Response:
        return _form_page(view, self._opened(view))

    def _saved(self, view: View, form: Mapping[str, str]) -> Response | None:
        """Save what was changed in the form. Gives a page where that cannot be: the form again with the mistakes, or
        the file as it is now beside what would be saved."""
        opened, typed = self._opened(view), typed_in(form)
        if opened is None:
            return _form_page(view, opened)
        if next(opened.rates.changed(typed), None) is None:
            return None
        rewritten, mark = opened.rates.rewritten(typed), form.get("mark", "")
        if not rewritten.is_sound:
            return _form_page(view, opened, typed, rewritten, mark)
        if mark != opened.mark:
            return _conflict_page(view, opened, typed, rewritten)
        if not opened.shop.save(rewritten.text, opened.data):
            return self._saved(view, form)  # it has changed in this very moment
        return None


def typed_in(form: Mapping[str, str]) -> dict[str, str]:
    """Give the answers that were changed in the form. Laid on another text of the file they change no others."""
    return {
        name.removeprefix(WAS): form[name.removeprefix(WAS)]
        for name, was in form.items()
        if name.startswith(WAS) and form.get(name.removeprefix(WAS), was).strip() != was.strip()
    }


def _form_page(
    view: View,
    opened: Opened | None,
    typed: Mapping[str, str] = NOTHING,
    rewritten: Rewritten = AS_IT_IS,
    mark: str = "",
) -> Response:
    """Show the rates with what was typed, and the mistakes in it. The `mark` of the text that was shown first stays, so
    that a file that has changed since is told of."""
    rates = [
        (rate, typed.get(rate.question.name, rate.text), rewritten.mistakes.get(rate.question.name, ""))
        for rate in (opened.rates.rates if opened else ())
    ]
    context = {
        "view": view,
        "opened": opened,
        "rates": rates,
        "mark": mark or (opened.mark if opened else ""),
        "elsewhere": [plain(f"{each.path}: {each.message}: {each.hint}") for each in rewritten.elsewhere],
        "was": WAS,
    }
    return HTMLResponse(page("shop.html", **context), status_code=200 if rewritten.is_sound else 422)


def _conflict_page(view: View, opened: Opened, typed: Mapping[str, str], rewritten: Rewritten) -> Response:
    """Set the file as it is now beside what would be saved."""
    was = {rate.question.name: rate.text for rate in opened.rates.changed(typed)}
    rows = rows_of(
        *([plain(line) for line in text.rstrip("\n").split("\n")] for text in (opened.source.text, rewritten.text))
    )
    context = {"view": view, "opened": opened, "rows": rows, "typed": typed, "was": was, "WAS": WAS}
    return HTMLResponse(page("shop-conflict.html", **context), status_code=409)
