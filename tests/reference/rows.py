"""Reads the outside values that lie in this folder."""

import csv
from pathlib import Path


def rows(name: str) -> list[dict[str, str]]:
    """Return the rows of one of the CSV files; lines that start with # name its source."""
    text = (Path(__file__).parent / name).read_text(encoding="utf-8")
    lines = [line for line in text.splitlines() if not line.startswith("#")]
    return list(csv.DictReader(lines))
