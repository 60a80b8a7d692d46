"""The command line answers at once: help is printed before anything heavy is imported."""

import subprocess
import sys

import pytest

from jigs.cli import COMMANDS
from tests.test_architecture import HEAVY

_LOADED = """
import sys
from jigs.cli import main
try:
    main(sys.argv[1:])
finally:
    print(*sorted({name.partition(".")[0] for name in sys.modules}), file=sys.stderr)
"""


def run(*arguments: str) -> "subprocess.CompletedProcess[str]":
    """Run the command line in a fresh interpreter, which says at the end what it has imported."""
    command = [sys.executable, "-c", _LOADED, *arguments]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    return done


@pytest.mark.parametrize(
    "arguments", [["--help"], ["--version"], *([one, "-h"] for one in COMMANDS)]
)
def test_help_imports_nothing_heavy(arguments: list[str]) -> None:
    """Neither the program's help nor a command's loads a library that takes long."""
    assert not set(run(*arguments).stderr.split()) & HEAVY


def test_help_lists_every_command_with_its_line() -> None:
    """The help shows the name of every command, and the beginning of its line."""
    lines = [line.split() for line in run("--help").stdout.splitlines()]
    for name, says in COMMANDS.items():
        assert [name, *says.split()[:2]] in [line[:3] for line in lines]


@pytest.mark.parametrize(("name", "says"), COMMANDS.items())
def test_a_command_says_of_itself_what_the_list_says(name: str, says: str) -> None:
    """The first paragraph of a command's help is its line in the list of commands."""
    paragraphs = run(name, "--help").stdout.split("\n\n")
    assert " ".join(paragraphs[1].split()) == says


def test_a_package_user_gets_the_same_lightness() -> None:
    """`import jigs` loads none of the heavy libraries, and no command line."""
    code = "import sys, jigs; print(*sorted({name.partition('.')[0] for name in sys.modules}))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert not set(done.stdout.split()) & (HEAVY | {"click"})
