"""Set-up that every test shares: how hard Hypothesis looks."""

from hypothesis import settings

settings.register_profile("quick", deadline=None, max_examples=20)
# The gate must say the same of the same tree whenever it runs, so its examples are derived from the tests alone.
# Looking further is left to the quick profile, which draws others at every run and keeps what it found wrong.
settings.register_profile("full", deadline=None, max_examples=100, derandomize=True)
settings.load_profile("quick")
