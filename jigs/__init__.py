"""Garment Jigs: 1:1 alignment templates for pressing transfers onto garments."""

__version__ = "0.1.0"
