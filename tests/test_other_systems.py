"""The program can be loaded where the modules of POSIX systems are missing, as on Windows."""

import subprocess
import sys

import pytest

_AS_ON = """
import importlib, importlib.abc, os, pkgutil, sys, types
import sitegen

def load_all():
    for module in pkgutil.walk_packages(sitegen.__path__, "sitegen."):
        if module.name not in {optional!r} and module.name != "sitegen.__main__":
            importlib.import_module(module.name)

class Missing(importlib.abc.MetaPathFinder):
    def find_spec(self, name, path=None, target=None):
        if name in {missing!r}:
            raise ModuleNotFoundError(f"No module named {{name!r}}", name=name)

# Libraries have been loaded for this system and stay; our own modules are loaded again for the other.
load_all()
for name in [name for name in sys.modules if name in {missing!r} or name.startswith("sitegen.")]:
    del sys.modules[name]
sys.meta_path.insert(0, Missing())
sys.modules["msvcrt"] = types.ModuleType("msvcrt")
sys.platform = {platform!r}
for name in {calls!r}:
    if hasattr(os, name):
        delattr(os, name)
load_all()
from sitegen.printing.installed_browser import find_browser
print("engine:", find_browser())
"""

_OPTIONAL = ("sitegen.publishing.sftp", "sitegen.publishing.bucket")
"""They import libraries that choose by the system themselves."""


@pytest.mark.parametrize(
    ("platform", "missing", "calls"),
    [
        (
            "win32",
            ("fcntl", "grp", "pwd", "resource", "termios", "tty"),
            ("fork", "geteuid", "getuid", "killpg", "posix_spawn", "sched_getaffinity"),
        )
    ],
)
def test_every_module_loads(platform: str, missing: tuple[str, ...], calls: tuple[str, ...]) -> None:
    script = _AS_ON.format(platform=platform, missing=missing, calls=calls, optional=_OPTIONAL)
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=False)

    assert done.returncode == 0, done.stderr
    assert done.stdout == "engine: None\n"
