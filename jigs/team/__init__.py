"""Names and numbers: the rules of their sizes, the list, the lettering, and how it fits."""
