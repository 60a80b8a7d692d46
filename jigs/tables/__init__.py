"""Size tables: what a garment measures, by size."""
