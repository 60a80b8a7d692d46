"""Data as JSON text, the same bytes for the same data."""

import json
from typing import Any


def as_json(data: Any) -> bytes:
    """Return data as indented JSON; lengths keep a hundred-thousandth of a millimetre."""
    return (json.dumps(_rounded(data), indent=2, ensure_ascii=False) + "\n").encode()


def _rounded(data: Any) -> Any:
    if isinstance(data, float):
        return round(data, 5) + 0.0
    if isinstance(data, dict):
        return {key: _rounded(value) for key, value in data.items()}
    if isinstance(data, (list, tuple)):
        return [_rounded(value) for value in data]
    return data
