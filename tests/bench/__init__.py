"""How long things take and how much memory; measured by hand, never in the tests."""
