"""The text of a size table file, written from its values."""

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

#: What a length is in the file: a number, or a text such as `18 1/2` or `5 mm`.
Written = float | str


@dataclass(frozen=True, slots=True)
class TableFile:
    """What a size table file says, as it says it."""

    title: str
    cut: str
    age: str
    unit: str
    source: str
    sizes: Sequence[str]
    measurements: Mapping[str, Sequence[Written]]
    tolerances: Mapping[str, Written]

    def text(self) -> str:
        """Return the file's text: the same for the same table."""
        words = [(key, getattr(self, key)) for key in ("title", "cut", "age", "unit", "source")]
        lines = [f"{key} = {_value(said)}" for key, said in words]
        lines += [f"sizes = {_list(self.sizes)}", "", "[measurements]"]
        widest = max(map(len, self.measurements), default=0)
        lines += [f"{key:{widest}} = {_list(row)}" for key, row in self.measurements.items()]
        if self.tolerances:
            lines += ["", "[tolerances]"]
            lines += [f"{key} = {_value(one)}" for key, one in self.tolerances.items()]
        return "\n".join(lines) + "\n"


def _list(values: Sequence[Written]) -> str:
    return f"[{', '.join(map(_value, values))}]"


def _value(value: Written) -> str:
    if isinstance(value, str):
        # A JSON text is a TOML text but for the one control letter that JSON leaves as it is.
        return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")
    return f"{value:.10g}"
