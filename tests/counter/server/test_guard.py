"""The guard lets in this machine's own browser with the key, and nobody else; every answer bears the headers."""

import json
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.counter.server.asking import COOKIE, HOST, KEY, OWN, PORT, POSTED, Answer, Headers, ask, guard

SITE = b"http://" + HOST


def with_host(host: bytes) -> Headers:
    return (b"host", host), (b"cookie", COOKIE)


def asked(*arguments, **named) -> Answer:
    answer = ask(*arguments, **named)
    assert answer is not None
    return answer


# --- who may ask -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("host", [b"127.0.0.1:8420", b"localhost:8420"])
def test_the_two_names_of_this_machine_are_served(host: bytes):
    assert asked(headers=with_host(host)).status == 200


@pytest.mark.parametrize(
    "host",
    [
        b"127.0.0.1",
        b"localhost",
        b"127.0.0.1:8421",
        b"localhost:84200",
        b"evil.example:8420",
        b"www.localhost:8420",
        b"127.0.0.1:8420.evil.example",
        b"evil.example@127.0.0.1:8420",
        b"[::1]:8420",
        b"",
        b"127.1:8420",
        b"LOCALHOST:8420",
    ],
)
def test_another_host_is_refused_even_with_the_key(host: bytes):
    """A site may have its own name lead to 127.0.0.1 once its page is loaded; the name stays in Host."""
    assert asked(headers=with_host(host)).status == 421
    assert asked(headers=with_host(host), query=b"key=" + KEY.encode()).status == 421


@pytest.mark.parametrize("headers", [(OWN[1],), (OWN[0], *OWN), (OWN[0], (b"host", b"evil.example"), OWN[1])])
def test_no_host_and_several_are_refused(headers: Headers):
    assert asked(headers=headers).status == 421


WRONG_COOKIES = [
    b"",
    b"counter-8420=",
    b"counter-8420=" + b"k" * 31,
    b"counter-8420=" + b"k" * 33,
    b"counter-8421=" + KEY.encode(),
    b"xcounter-8420=" + KEY.encode(),
    b"counter-8420=\xff",
    KEY.encode(),
    b"counter-8420",
]


@pytest.mark.parametrize("cookie", WRONG_COOKIES)
def test_without_the_key_nothing_is_shown(cookie: bytes):
    answer = asked(headers=((b"host", HOST), (b"cookie", cookie)))
    assert (answer.status, answer.body) == (401, b"Open the page by the address that the command printed.")
    assert answer.cookies == {}


@pytest.mark.parametrize(
    "cookie",
    [
        COOKIE + b"; theme=dark",
        b'state={"a": "b, c"}; ' + COOKIE,
        b"a b=[1]; =; ;; " + COOKIE,
        b"counter-8420=stale; " + COOKIE,
        b"\xff\xfe=\xfd;" + COOKIE,
    ],
)
def test_cookies_of_other_servers_on_this_machine_do_not_hide_the_key(cookie: bytes):
    """Browsers do not tell ports apart, and whatever the others write comes along."""
    assert asked(headers=((b"host", HOST), (b"cookie", cookie))).status == 200


def test_the_first_address_gives_the_key_to_the_browser_and_leads_to_one_without_it():
    answer = asked(headers=((b"host", HOST),), query=b"key=" + KEY.encode())
    assert (answer.status, answer.values(b"location")) == (303, [b"/"])
    assert answer.cookies[f"counter-{PORT}"] == KEY
    for cookie in answer.values(b"set-cookie"):
        assert cookie.endswith(b"; Path=/; HttpOnly; SameSite=Strict")


@pytest.mark.parametrize(
    ("method", "path", "query"),
    [
        ("GET", "/", b"key=wrong"),
        ("GET", "/", b"key="),
        ("GET", "/", b"key=%ff%00"),
        ("GET", "/other", b"key=" + KEY.encode()),
        ("GET", "//evil.example", b"key=" + KEY.encode()),
        ("HEAD", "/", b"key=" + KEY.encode()),
    ],
)
def test_another_address_gives_no_key_away(method: str, path: str, query: bytes):
    answer = asked(method, path, headers=((b"host", HOST),), query=query)
    assert (answer.status, answer.cookies, answer.values(b"location")) == (401, {}, [])


def test_a_key_for_once_opens_the_page_a_single_time():
    """It gives the browser the key itself, and whoever reads it in the list of processes comes too late."""
    guarded = guard("o" * 32)
    for query, status in ((b"key=p", 401), (b"key=" + b"o" * 32, 303), (b"key=" + b"o" * 32, 401)):
        answer = asked(headers=((b"host", HOST),), query=query, guarded=guarded)
        assert answer.status == status
        assert (answer.cookies.get(f"counter-{PORT}") == KEY) == (status == 303)


# --- the session -------------------------------------------------------------------------------------------------


def test_each_browser_has_a_session_of_its_own_that_it_keeps():
    opened = [asked(headers=((b"host", HOST),), query=b"key=" + KEY.encode()).cookies for _ in range(2)]
    sessions = [cookies[f"counter-session-{PORT}"] for cookies in opened]
    assert sessions[0] != sessions[1]
    assert all(re.fullmatch("[A-Za-z0-9_-]{32}", session) for session in sessions)
    kept = (b"cookie", f"counter-session-{PORT}={sessions[0]}".encode())
    answer = asked(headers=(*OWN, kept))
    assert (json.loads(answer.body)["session"], answer.cookies) == (sessions[0], {})
    again = asked(headers=((b"host", HOST), kept), query=b"key=" + KEY.encode())
    assert set(again.cookies) == {f"counter-{PORT}"}


@pytest.mark.parametrize("value", [b"", b"short", b"x" * 33, b"\xff" * 32, b"a" * 31 + b"/"])
def test_a_session_that_is_none_of_ours_is_replaced(value: bytes):
    answer = asked(headers=(*OWN, (b"cookie", b"counter-session-8420=" + value)))
    session = json.loads(answer.body)["session"]
    assert re.fullmatch("[A-Za-z0-9_-]{32}", session)
    assert answer.cookies == {f"counter-session-{PORT}": session}


# --- other sites -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("site", [b"cross-site", b"same-site", b"", b"anything"])
@pytest.mark.parametrize("method", ["GET", "POST"])
def test_a_request_of_another_site_is_refused(method: str, site: bytes):
    """Another port of this machine is the same site, for a browser, and another one for us."""
    assert asked(method, headers=(*POSTED, (b"sec-fetch-site", site))).status == 403


@pytest.mark.parametrize("site", [b"same-origin", b"none"])
def test_a_request_of_the_page_or_of_the_address_line_is_answered(site: bytes):
    assert asked(headers=(*OWN, (b"sec-fetch-site", site))).status == 200


OTHERS = [
    b"null",
    b"",
    b"http://evil.example",
    b"http://127.0.0.1",
    b"http://127.0.0.1:8421",
    b"https://127.0.0.1:8420",
    b"http://localhost:8420",
    SITE + b"/",
    SITE + b" http://evil.example",
]


@pytest.mark.parametrize("origin", OTHERS)
def test_a_form_of_another_origin_is_refused(origin: bytes):
    assert asked("POST", headers=(*OWN, (b"origin", origin))).status == 403
    assert asked("POST", headers=(*OWN, (b"origin", SITE), (b"origin", origin))).status == 403
    assert asked("GET", headers=(*OWN, (b"origin", origin))).status == 403


def test_a_form_without_an_origin_is_refused():
    assert asked("POST", headers=OWN).status == 403


@pytest.mark.parametrize("method", ["PUT", "DELETE", "OPTIONS", "TRACE", "CONNECT", "PATCH", "get", "X"])
def test_other_methods_are_refused(method: str):
    answer = asked(method, headers=POSTED)
    assert (answer.status, answer.values(b"allow")) == (405, [b"GET, HEAD, POST"])


# --- bodies ------------------------------------------------------------------------------------------------------


def test_the_page_gets_the_fields_in_order_with_plain_line_ends():
    body = b"notes=two%0D%0Alines&top.width=60+1%2F2&empty=&tick=a&tick=b&caf%C3%A9=%E2%9C%93"
    answer = asked("POST", headers=POSTED, pieces=(body[:10], body[10:]))
    assert json.loads(answer.body)["fields"] == [
        ["notes", "two\nlines"],
        ["top.width", "60 1/2"],
        ["empty", ""],
        ["tick", "a"],
        ["tick", "b"],
        ["café", "✓"],
    ]


@pytest.mark.parametrize(
    ("size", "status"),
    [(64 * 1024, 200), (64 * 1024 + 1, 413)],
)
def test_a_body_has_at_most_64_kib(size: int, status: int):
    body = b"a=" + b"x" * (size - 2)
    assert asked("POST", headers=POSTED, pieces=(body,)).status == status
    assert (
        asked("POST", headers=POSTED, pieces=tuple(body[at : at + 1000] for at in range(0, size, 1000))).status
        == status
    )
    told = (*POSTED, (b"content-length", str(size).encode()))
    assert asked("POST", headers=told, pieces=(body,)).status == status


@pytest.mark.parametrize("told", [b"65537", b"99999999999999999999", b"-1", b"0x10", b"", b"1_0", "²".encode()])
def test_a_length_that_is_too_large_or_none_is_refused_at_once(told: bytes):
    """Nothing of the body has come."""
    status = 413 if told.isdigit() else 400
    assert asked("POST", headers=(*POSTED, (b"content-length", told)), pieces=(60.0,)).status == status


@pytest.mark.parametrize(("count", "status"), [(200, 200), (201, 413), (5000, 413)])
def test_a_form_has_at_most_200_fields(count: int, status: int):
    assert asked("POST", headers=POSTED, pieces=(b"&".join([b"a=1"] * count),)).status == status


def test_a_body_that_does_not_end_is_given_up():
    """The guard of these tests waits 0.3 s, and a byte each 0.1 s would keep it for 10 s."""
    slow = tuple(part for _ in range(100) for part in (0.1, b"x"))
    assert asked("POST", headers=POSTED, pieces=slow).status == 408


def test_a_browser_that_goes_while_it_posts_gets_no_answer():
    assert ask("POST", headers=POSTED, pieces=(b"a=1", 0.01)) is None


@pytest.mark.parametrize("kind", [b"multipart/form-data; boundary=x", b"text/plain", b"application/json", b""])
def test_a_body_that_is_no_form_is_refused(kind: bytes):
    """Other sites may post the first two without being asked whether they may."""
    headers = (*OWN, (b"origin", SITE), (b"content-type", kind))
    assert asked("POST", headers=headers, pieces=(b"a=1",)).status == 415


# --- every answer ------------------------------------------------------------------------------------------------

EXPECTED = {
    b"content-security-policy": b"default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; "
    b"connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'",
    b"cache-control": b"no-store",
    b"referrer-policy": b"same-origin",
    b"x-content-type-options": b"nosniff",
    b"cross-origin-opener-policy": b"same-origin",
    b"cross-origin-resource-policy": b"same-origin",
}


def assert_bears_the_headers(answer: Answer) -> None:
    for name, value in EXPECTED.items():
        assert answer.values(name) == [value]


def test_a_mistake_of_ours_bears_the_headers_too():
    answer = asked(path="/broken")
    assert answer.status == 500
    assert_bears_the_headers(answer)


ANYTHING = st.binary(max_size=30)
METHODS = st.sampled_from(["GET", "HEAD", "POST", "PUT", "OPTIONS"]) | st.text("GETPOSX-", min_size=1, max_size=8)
NAMES = st.sampled_from(
    [b"host", b"cookie", b"origin", b"sec-fetch-site", b"content-type", b"content-length", b"transfer-encoding", b"x"]
)
VALUES = ANYTHING | st.sampled_from(
    [HOST, COOKIE, SITE, POSTED[-1][1], b"counter-session-8420=" + b"a" * 32, b"same-origin"]
)
SOME_HEADERS = st.lists(st.tuples(NAMES, VALUES), max_size=6).map(tuple)
BODIES = st.lists(ANYTHING | st.sampled_from([b"a=1&", b"&" * 300, b"x" * 70_000, b"%zz%ff%00"]), max_size=4).map(tuple)


@given(METHODS, st.text(max_size=20), st.sampled_from([(), OWN, POSTED]), SOME_HEADERS, BODIES, ANYTHING)
def test_whatever_is_asked_is_answered_and_bears_the_headers(
    method: str, path: str, first: Headers, more: Headers, pieces: tuple[bytes, ...], query: bytes
):
    """No error of ours, and nothing of the page for whoever has not all of host, key and origin."""
    answer = asked(method, path, (*first, *more), pieces, query)
    assert answer.status in (200, 303, 400, 401, 403, 404, 405, 413, 415, 421)
    assert_bears_the_headers(answer)
    if not first and (b"host", HOST) not in more:
        assert answer.status == 421
    if answer.status == 200:
        assert COOKIE in b"; ".join(value for name, value in (*first, *more) if name == b"cookie")
    assert not any(b"\n" in value or b"\r" in value for _, value in answer.headers)
