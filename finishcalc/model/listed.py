"""Presets as a list shows them: each with its key figures in words, and the text to paste where it is changed."""

from typing import Any, NamedTuple


class ListedPreset(NamedTuple):
    """A preset, or a thing of the shop's own: its `kind` and `name`, the `label` that papers call it by, its key
    figures as texts by their headings, and the `place` it comes from."""

    kind: str
    name: str
    label: str
    figures: dict[str, str]
    place: str
    is_own: bool = False


class PresetDetail(NamedTuple):
    """A preset in full: its `values` as the file has them, the `sources` of those that name one, the file's notes on
    all of its kind, and the TOML of it for a project in `units`."""

    listed: ListedPreset
    units: str
    values: dict[str, Any]
    sources: dict[str, str]
    notes: tuple[str, ...]
    toml: str
