"""Jig styles: one file each, from a template to a drawing."""

from jigs.registry import Registry
from jigs.styles._style import Style

__all__ = ["STYLES", "Style"]

STYLES: Registry[Style] = Registry("jigs.styles", "STYLE", Style, "jig style")
