"""The system's own headless Chromium, which proofs drive by Playwright; nothing is downloaded for it."""

import shutil

CHROMIUM = shutil.which("chromium-headless-shell")
NO_BROWSER = "there is no chromium-headless-shell, or no playwright, so nothing was tried in a browser"
SWITCHES = [
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync",
]  # fmt: skip
