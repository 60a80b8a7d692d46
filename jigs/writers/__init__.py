"""Output formats: one file here is one format."""

from collections.abc import Sequence
from io import BytesIO

from jigs.drawing.drawing import Page
from jigs.drawing.lower import lowered
from jigs.registry import Registry
from jigs.writers._writer import Writer

__all__ = ["WRITERS", "Writer", "as_bytes"]

WRITERS = Registry("jigs.writers", "WRITER", Writer, "output format")


def as_bytes(format: str, pages: Sequence[Page]) -> bytes:  # noqa: A002 - the word for it
    """Return pages as a file of a format.

    Raises:
        Unknown: there is no such format.
        ValueError: no pages, more than the format takes, or something it cannot hold.
    """
    writer = WRITERS.get(format)
    if not pages or (len(pages) > 1 and not writer.pages):
        raise ValueError(f"{format} takes {'pages' if writer.pages else 'one page'}")
    out = BytesIO()
    writer.write([lowered(page, writer.holds) for page in pages], out)
    return out.getvalue()
