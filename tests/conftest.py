"""Settings and fixtures that all tests share."""

import os
from pathlib import Path

# Before numpy is loaded: small matrices gain nothing from several threads, and test processes run side by side.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import pytest  # after the setting above
from hypothesis import settings

# No deadline: a test must not fail because the machine is busy. The usual run repeats itself exactly;
# `--hypothesis-profile searching` looks for new examples.
settings.register_profile("repeatable", deadline=None, derandomize=True)
settings.register_profile("searching", deadline=None, max_examples=1000, print_blob=True)
settings.load_profile("repeatable")

REPOSITORY = Path(__file__).resolve().parents[1]


@pytest.fixture(scope="session")
def repository() -> Path:
    """The folder that holds pyproject.toml."""
    return REPOSITORY


@pytest.fixture(scope="session")
def shared() -> Path:
    """The folder of outside data and tools beside the repository; tests that need it skip without it."""
    folder = REPOSITORY.parent / "shared"
    if not folder.is_dir():
        pytest.skip("needs the folder `shared` beside the repository, which is not part of it")
    return folder
