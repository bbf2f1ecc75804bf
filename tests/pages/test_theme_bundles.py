"""Scripts and styles that a theme joins, so that a page asks for few files."""

import re
from pathlib import Path

import yaml

from sitegen.pages.theme import Theme
from tests.conftest import ROOT

TIDEWATER = ROOT / "themes/tidewater"


def theme(folder: Path, files: dict[str, str]) -> Theme:
    """A theme with these files, by their names."""
    for name, text in {"strings/en/site.yaml": "nav: {}\n", **files}.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return Theme(folder, "en")


def test_parts_are_joined_in_the_order_listed_without_comment_lines(tmp_path: Path) -> None:
    made = theme(
        tmp_path,
        {
            "bundles.yaml": "scripts/page.js: [scripts/b.js, scripts/a.js]\nstyles/page.css: [styles/a.css]",
            "styles/a.css": """a, b > i::after {
  top: 0;
  content: "x: {1,  2; 3}";
}
@media print { p :is(a, b) { top: 0 } }""",
            "scripts/a.js": "/* About a.\n   More. */\n/* stays */ run(1); // with it\nrun(2);\n/* end */\n",
            "scripts/b.js": '  // about b\n  const url = "https://example.org/*";\n',
        },
    )

    assert made.assets["scripts/page.js"].data.split(b"\n") == [
        b'const url = "https://example.org/*";',
        b"",
        b"/* stays */ run(1); // with it",
        b"run(2);",
        b"",
    ]
    style = b'a,b > i::after{top:0;content:"x: {1,  2; 3}";}@media print{p :is(a,b){top:0}}'
    assert made.assets["styles/page.css"].data == style


def test_the_address_changes_with_any_part(tmp_path: Path) -> None:
    files = {"bundles.yaml": "styles/page.css: [styles/a.css, styles/b.css]\n", "styles/a.css": "a {}"}
    one = theme(tmp_path / "1", files | {"styles/b.css": "b {}"})
    two = theme(tmp_path / "2", files | {"styles/b.css": "b { top: 0 }"})

    assert one.assets["styles/page.css"].address != two.assets["styles/page.css"].address


def test_a_theme_may_do_without(tmp_path: Path) -> None:
    assert list(theme(tmp_path, {"scripts/a.js": "run(1);\n"}).assets) == ["scripts/a.js"]


def test_the_themes_own_list_names_files_that_are_there() -> None:
    listed = yaml.safe_load((TIDEWATER / "bundles.yaml").read_text("utf-8"))

    assert [part for parts in listed.values() for part in parts if not (TIDEWATER / part).is_file()] == []


def test_signs_of_the_styles_show_in_browsers_that_know_no_text_alternative_for_them() -> None:
    """Safari before 17.4 and Firefox before 128 drop ``content: "x" / ""``: a plain one comes before it."""
    for style in (TIDEWATER / "styles").glob("*.css"):
        for sign in re.finditer(r'content: ("[^"]+") / ""', style.read_text("utf-8")):
            before = sign.string[: sign.start()]
            assert before.endswith(f"content: {sign[1]}; "), f"{style.name}: {sign[0]}"
