"""`python -m jigs`."""

from jigs.cli import main

main()
