"""JSON Merge Patch (RFC 7396): a change of an item that can be written down and posted."""

from collections.abc import Mapping
from typing import Any, cast


def merged(target: Any, patch: Any) -> Any:
    """The target with the patch applied; neither is changed. Objects merge key by key, null takes away."""
    if not isinstance(patch, Mapping):
        return patch
    changed: dict[str, Any] = {**cast(Mapping[str, Any], target)} if isinstance(target, Mapping) else {}
    for key, value in cast(Mapping[str, Any], patch).items():
        if value is None:
            changed.pop(key, None)
        else:
            changed[key] = merged(changed.get(key), value)
    return changed


def difference(old: Mapping[str, Any], new: Mapping[str, Any]) -> dict[str, Any]:
    """The patch that makes ``new`` of ``old``; neither has a null."""
    patch: dict[str, Any] = {key: None for key in old if key not in new}
    for key, value in new.items():
        before = old.get(key)
        if isinstance(before, Mapping) and isinstance(value, Mapping):
            inner = difference(cast(Mapping[str, Any], before), cast(Mapping[str, Any], value))
            if inner:
                patch[key] = inner
        elif key not in old or before != value or isinstance(before, bool) is not isinstance(value, bool):
            patch[key] = value
    return patch
