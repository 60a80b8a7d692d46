"""One file, one input format: each defines `READER`."""
