"""Garment Jigs: 1:1 alignment templates for pressing transfers onto garments.

The public names are read, make, render, write_all and Plan; they are imported on first use, so
that `import jigs` stays light.
"""

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from jigs.pipeline import make, read, render, write_all
    from jigs.plan import Plan

__version__ = "0.1.0"
__all__ = ["Plan", "__version__", "make", "read", "render", "write_all"]


def __getattr__(name: str) -> Any:
    if name in {"make", "read", "render", "write_all"}:
        from jigs import pipeline

        return getattr(pipeline, name)
    if name == "Plan":
        from jigs.plan import Plan

        return Plan
    raise AttributeError(f"module 'jigs' has no attribute {name!r}")
