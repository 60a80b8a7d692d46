"""Plane geometry, exact where it can be; lengths in mm, y down."""

from jigs.geometry.path import Path, Segment
from jigs.geometry.point import Affine, Box, Point
from jigs.geometry.segments import Arc, Cubic, Line

__all__ = ["Affine", "Arc", "Box", "Cubic", "Line", "Path", "Point", "Segment"]
