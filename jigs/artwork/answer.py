"""The child's answer as one line of JSON; the preview follows it as it is."""

import json
from dataclasses import asdict, replace

from jigs.artwork.drawn import Drawn


def written(drawn: Drawn) -> bytes:
    """Return what was drawn, without its preview, as JSON."""
    said = asdict(replace(drawn, preview=b""))
    del said["preview"]
    return json.dumps(said).encode()


def read(head: bytes, preview: bytes) -> Drawn:
    """Return what `written` wrote, with its preview."""
    import cattrs

    return replace(cattrs.Converter().structure(json.loads(head), Drawn), preview=preview)
