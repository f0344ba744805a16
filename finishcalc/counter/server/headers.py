"""The headers of every answer, whoever gives it: the page, the guard, or the server for a request that is none."""

CONTENT_SECURITY_POLICY = "; ".join(
    (
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self'",
        "connect-src 'self'",
        "form-action 'self'",
        "base-uri 'none'",
        "frame-ancestors 'none'",
    )
)
"""Files of our own and nothing else: a script or a style in a text that a customer gave does nothing."""

HEADERS = {
    "content-security-policy": CONTENT_SECURITY_POLICY,
    "cache-control": "no-store",  # neither the disk nor the browser's way back keeps the studio's view
    "referrer-policy": "same-origin",  # under no-referrer browsers send `Origin: null` with a plain form
    "x-content-type-options": "nosniff",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
}

RawHeaders = list[tuple[bytes, bytes]]


def raw_headers(*more: tuple[str, str]) -> RawHeaders:
    """Give the headers of every answer, and some more, as they go over the wire."""
    return [(name.encode("latin-1"), value.encode("latin-1")) for name, value in (*HEADERS.items(), *more)]


MAY_DIFFER = (b"cache-control", b"content-security-policy")
"""The headers that the page may give otherwise: a sheet to be printed has a style of its own, and a policy for it."""


def completed(headers: RawHeaders) -> RawHeaders:
    """Add the headers of every answer. Of them the page may itself decide those that may differ."""
    own = {name.lower() for name, _ in headers}
    ours = raw_headers()
    kept = [(name, value) for name, value in headers if name.lower() not in dict(ours) or name.lower() in MAY_DIFFER]
    return kept + [(name, value) for name, value in ours if name not in MAY_DIFFER or name not in own]
