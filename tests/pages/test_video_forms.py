"""One film in several forms: a browser takes the first that suits it (HTML, the source element)."""

from pathlib import Path

import pytest

from tests.pages.episode_folder import EpisodeFolder

MP4, WEBM = "video/mp4", "video/webm"
FORMS = {
    "one file": ("media/a.webm", [("a.webm", WEBM, None)]),
    "the trainer's order": ("[media/a.mp4, media/b.webm]", [("a.mp4", MP4, None), ("b.webm", WEBM, None)]),
    "an ending nobody knows has no type": ("media/a.xyz", [("a.xyz", None, None)]),
    # 360 lines at 16:9 are 640 pixels wide: a wider window would show them enlarged.
    "smaller ones first, for windows that show no more": (
        "[{file: media/a.mp4, height: 1080}, {file: media/b.webm, height: 1080},"
        " {file: media/c.mp4, height: 720}, {file: media/d.mp4, height: 360}]",
        [
            ("d.mp4", MP4, "(max-width: 640px)"),
            ("c.mp4", MP4, "(max-width: 1280px)"),
            ("a.mp4", MP4, None),
            ("b.webm", WEBM, None),
        ],
    ),
    "one without a height is for all": (
        "[{file: media/a.mp4, height: 360}, media/b.webm, {file: media/c.mp4, height: 720}]",
        [("a.mp4", MP4, "(max-width: 640px)"), ("b.webm", WEBM, None), ("c.mp4", MP4, None)],
    ),
}


@pytest.fixture(scope="module")
def series(tmp_path_factory: pytest.TempPathFactory) -> EpisodeFolder:
    folder = EpisodeFolder(tmp_path_factory.mktemp("forms"))
    for name in ("a.mp4", "a.webm", "a.xyz", "b.webm", "c.mp4", "d.mp4"):
        folder.write(f"media/{name}", name.encode())
    return folder


@pytest.mark.parametrize(("file", "offered"), FORMS.values(), ids=FORMS)
def test_forms(series: EpisodeFolder, file: str, offered: list[tuple[str, str | None, str | None]]) -> None:
    series.video(f"{{file: {file}, length: '8:30'}}")
    sources = series.page().select("video source")

    def name(address: object) -> str:
        stem, _, ending = Path(str(address)).name.rpartition(".")
        return f"{stem.partition('.')[0]}.{ending}"

    assert [(name(s["src"]), s.get("type"), s.get("media")) for s in sources] == offered
    for source in sources:
        assert (series.out / "episodes/first-steps" / str(source["src"])).is_file()
