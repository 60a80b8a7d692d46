"""The demo order, planned and rendered once for all tests that look at it."""

from functools import cache
from importlib import resources
from pathlib import Path

from jigs.files import Output
from jigs.pipeline import make, read, render
from jigs.plan import Plan


def folder() -> Path:
    """Return the folder of the demo order in the package."""
    return Path(str(resources.files("jigs").joinpath("demo")))


@cache
def plan() -> Plan:
    """Return the demo order's plan."""
    return make(read(folder() / "order.toml"))


@cache
def outputs() -> tuple[Output, ...]:
    """Return every file of the demo order."""
    return tuple(render(plan()))


def output(name: str) -> bytes:
    """Return one file of the demo order."""
    return next(one.data for one in outputs() if one.name == name)
