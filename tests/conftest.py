"""Settings of the whole test run."""

from hypothesis import settings

# No deadline: the first use of a heavy library is slow. Derandomised: a run repeats exactly.
settings.register_profile("jigs", deadline=None, derandomize=True, max_examples=60)
settings.load_profile("jigs")
