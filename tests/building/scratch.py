"""What a build from scratch would write, without writing it: one that remembers nothing of the content."""

import hashlib
import tempfile
from datetime import date
from pathlib import Path

import pytest

from sitegen.building import build
from sitegen.building.build import Builder
from sitegen.pages.page import CopyOf, Page
from sitegen.system.cache_folders import template_cache


def made_from_scratch(content: Path, today: date | None = None, *, pictures: bool = False) -> dict[str, str]:
    """Digests as `tests.trees.tree` gives them of every file of the site, PDF files left out.

    With ``pictures`` those for links are drawn, as a build does that is to print PDF files.

    Nothing that an earlier build found out about the content is at hand. A theme that is loaded already
    stays: it depends on nothing of a site, and loading it takes as long as making the pages.
    """
    with (
        tempfile.TemporaryDirectory(prefix="sitegen-scratch-") as folder,
        pytest.MonkeyPatch.context() as patch,
    ):
        compiled = template_cache()
        patch.setenv("XDG_CACHE_HOME", folder)
        patch.setattr(build, "template_cache", lambda: compiled)
        builder = Builder(content, Path(folder, "never-written"), jobs=1, today=today, pdf=pictures)
        pages = builder.plan(builder.read())
        return {page.address: hashlib.blake2b(_made(page), digest_size=12).hexdigest() for page in pages}


def _made(page: Page) -> bytes:
    return page.make.path.read_bytes() if isinstance(page.make, CopyOf) else page.make()
