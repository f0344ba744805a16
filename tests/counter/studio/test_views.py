"""Who sees the studio's view, and for how long."""

from finishcalc.counter.studio.views import MOST_VIEWS, Views


class Clock:
    """A clock that is set by hand."""

    def __init__(self) -> None:
        self.now = 1000.0

    def __call__(self) -> float:
        return self.now


def opened(seconds: int = 60) -> tuple[Views, Clock]:
    clock = Clock()
    views = Views(clock)
    views.open("hers", "bed.toml", seconds)
    return views, clock


def test_view_is_shown_once_and_the_next_look_is_the_customers() -> None:
    views, _ = opened()
    assert views.shows("hers", "bed.toml")
    assert views.of("hers"), "what hangs on the view, as the work order does, is answered while it is open"
    assert views.shows("hers", "bed.toml") is None
    assert views.of("hers") is None


def test_another_browser_has_no_view_and_closes_none() -> None:
    views, _ = opened()
    assert views.of("theirs") is None
    assert views.shows("theirs", "bed.toml") is None
    assert views.shows("hers", "bed.toml")


def test_look_at_another_project_is_the_customers_and_closes_the_view() -> None:
    views, _ = opened()
    assert views.shows("hers", "table.toml") is None
    assert views.shows("hers", "bed.toml") is None


def test_view_closes_after_its_seconds_without_a_use() -> None:
    views, clock = opened(60)
    clock.now += 60
    assert views.of("hers")
    clock.now += 1
    assert views.of("hers") is None
    clock.now -= 30
    assert views.of("hers") is None, "once closed it stays so"


def test_each_use_begins_the_seconds_anew() -> None:
    views, clock = opened(60)
    for _ in range(5):
        clock.now += 50
        assert views.stay("hers")
    clock.now += 61
    assert views.stay("hers") is None


def test_showing_counts_as_a_use() -> None:
    views, clock = opened(60)
    clock.now += 50
    views.shows("hers", "bed.toml")
    clock.now += 50
    assert views.of("hers")


def test_clock_put_back_closes_the_view() -> None:
    views, clock = opened()
    clock.now -= 3600
    assert views.of("hers") is None


def test_another_project_of_the_same_browser_takes_its_place() -> None:
    views, _ = opened()
    views.open("hers", "table.toml", 60)
    assert views.shows("hers", "bed.toml") is None
    views.open("hers", "table.toml", 60)
    assert views.shows("hers", "table.toml")


def test_closing_tells_the_project_to_go_back_to() -> None:
    views, _ = opened()
    assert views.close("hers") == "bed.toml"
    assert views.close("hers") == ""
    assert views.of("hers") is None


def test_request_without_a_session_opens_nothing() -> None:
    views, _ = opened()
    views.open("", "bed.toml", 60)
    assert views.of("") is None


def test_oldest_view_is_closed_where_there_are_too_many() -> None:
    views, _ = opened()
    for number in range(MOST_VIEWS):
        views.open(f"another {number}", "bed.toml", 60)
    assert views.of("hers") is None
    assert views.of("another 0")
