"""Garment blocks: one file each, from a size's measurements to its flat."""

from jigs.garments._block import Block, Edge, Flat, Panel
from jigs.registry import Registry

__all__ = ["GARMENTS", "Block", "Edge", "Flat", "Panel"]

GARMENTS: Registry[Block] = Registry("jigs.garments", "BLOCK", Block, "garment")
