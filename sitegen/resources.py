"""Files that come with the program: themes, the demo series, the series to start from."""

from pathlib import Path

_PACKAGE = Path(__file__).parent


def _resource(inside: str, at_top: str) -> Path:
    """A folder inside an installed package, or at the top of the repository."""
    packaged = _PACKAGE / inside
    return packaged if packaged.is_dir() else _PACKAGE.parent / at_top


def program_folder() -> Path:
    """The folder of the program itself."""
    return _PACKAGE


def themes_folder() -> Path:
    """The folder that holds the themes."""
    return _resource("_themes", "themes")


def demo_folder() -> Path:
    """The content folder of the demo series."""
    return _resource("_demo", "content")


def starter_folder() -> Path:
    """The content folder that ``sitegen begin`` copies."""
    return _PACKAGE / "starter"


def code_fingerprint() -> str:
    """Tells one state of the program from another: what older code cached must not be used."""
    from sitegen import __version__
    from sitegen.pages.page import fingerprint

    stats = [(path, path.stat()) for path in sorted(_PACKAGE.rglob("*.py"))]
    return fingerprint(__version__, *((path.name, stat.st_size, stat.st_mtime_ns) for path, stat in stats))
