"""What the customer sent, measured.

`read` takes a file's bytes and returns its `Artwork`. What a file is, is decided by its first
bytes; each format is one file in `readers/`. Every limit is in `guard`. Vectors are drawn in a
process of their own (`child`), so that a file that makes a renderer crash or hang costs one
clear error and nothing else.
"""

from jigs.artwork.artwork import Artwork
from jigs.artwork.readers._reader import Reader
from jigs.artwork.recognise import READERS, read

__all__ = ["READERS", "Artwork", "Reader", "read"]
