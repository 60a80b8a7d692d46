"""Jig styles: one file each, from a template to a drawing."""

from jigs.registry import Registry
from jigs.styles._style import LEAST_INNER, LEAST_WEB, Style

__all__ = ["LEAST_INNER", "LEAST_WEB", "STYLES", "Style"]

STYLES: Registry[Style] = Registry("jigs.styles", "STYLE", Style, "jig style")
