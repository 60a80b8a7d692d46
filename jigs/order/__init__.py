"""The order as data, and the order file it is read from."""
