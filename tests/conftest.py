"""Settings of the whole test run."""

import pytest
from hypothesis import settings

# No deadline: the first use of a heavy library is slow. Derandomised: a run repeats exactly.
settings.register_profile("jigs", deadline=None, derandomize=True, max_examples=60)
settings.load_profile("jigs")


def pytest_addoption(parser: pytest.Parser) -> None:
    """Add the one way in which a golden file changes."""
    parser.addoption(
        "--update-golden",
        action="store_true",
        help="write the golden files anew, then look at them",
    )


@pytest.fixture
def update_golden(request: pytest.FixtureRequest) -> bool:
    """Whether golden files are to be written instead of compared."""
    return bool(request.config.getoption("--update-golden"))
