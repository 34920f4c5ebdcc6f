import sys

import pytest


@pytest.fixture(autouse=True, scope="module")
def _nothing_is_remembered() -> None:
    """What another test had core remember would not be gone through, nor seen by coverage, in this one."""
    for name, module in list(sys.modules.items()):
        if name.startswith("core."):
            for each in vars(module).values():
                if hasattr(each, "cache_clear"):
                    each.cache_clear()
