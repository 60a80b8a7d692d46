"""Names of files: what the user may write, and what becomes one."""

import re
import unicodedata

_RESERVED = re.compile(r"(?:con|prn|aux|nul|com\d|lpt\d)(?:\.|$)", re.IGNORECASE)
_LONGEST_PART = 80


def path_problem(name: str) -> str | None:
    """Return why a path is not one of a file inside a folder on every system; None if it is.

    >>> path_problem("artwork/crest.svg"), path_problem("../crest.svg")
    (None, "'..' leaves the folder")
    """
    if not name or any(unicodedata.category(letter) in {"Cc", "Cs"} for letter in name):
        return "it is empty or holds control characters"
    if "\\" in name:
        return "it holds a backslash; a path has forward slashes"
    if name.startswith("/"):
        return "it starts at the root; a path starts beside the order file"
    if ":" in name:
        return "it holds a colon, which names a drive on Windows"
    parts = name.split("/")
    if ".." in parts:
        return "'..' leaves the folder"
    if any(_RESERVED.match(part) for part in parts):
        return "Windows keeps that name for a device"
    return None


def safe_name(text: str) -> str:
    """Return a file name of ASCII letters, digits, `.`, `_` and `-` that any system takes.

    A name that is safe already stays as it is.

    >>> safe_name("Crew Müller / back"), safe_name("nul.svg"), safe_name("...")
    ('Crew-Muller-back', '_nul.svg', 'unnamed')
    """
    letters = unicodedata.normalize("NFKD", text)
    name = "".join(letter for letter in letters if not unicodedata.combining(letter))
    name = re.sub(r"[^A-Za-z0-9._-]+", "-", name)
    name = re.sub(r"-{2,}", "-", re.sub(r"\.{2,}", ".", name)).lstrip(".-")
    name = f"_{name}" if _RESERVED.match(name) else name
    return name[:_LONGEST_PART].rstrip(".-") or "unnamed"
