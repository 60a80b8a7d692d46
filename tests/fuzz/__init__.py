"""Small honest files of every format, broken in many ways: each is artwork or one clear line."""
