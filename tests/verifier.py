"""The outside verifier of pattern files, kept beside the repository: loaded by path, never imported by the project."""

import importlib.util
import json
import sys
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest


def load_verifier(shared: Path) -> ModuleType:
    """The module `verify_pattern`; skips the test with a clear line when it is absent."""
    tool = shared / "tools" / "verify_pattern.py"
    if not tool.is_file():
        pytest.skip("needs tools/verify_pattern.py in the folder `shared` beside the repository")
    if "verify_pattern" not in sys.modules:
        spec = importlib.util.spec_from_file_location("verify_pattern", tool)
        assert spec is not None
        assert spec.loader is not None
        module = importlib.util.module_from_spec(spec)
        sys.modules["verify_pattern"] = module  # its dataclasses look themselves up by module name
        spec.loader.exec_module(module)
    return sys.modules["verify_pattern"]


def violations(shared: Path, document: dict[str, Any]) -> list[str]:
    """One line a violated rule, after a trip through JSON text as a file would make it."""
    verifier = load_verifier(shared).Verifier(json.loads(json.dumps(document)))
    return [str(violation) for violation in verifier.violations]
