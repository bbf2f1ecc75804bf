"""The pages on which an episode is put right beside its film: addresses below ``/-/film/``.

They change files, so a request must carry a token that only these pages know: a page of another site can
send requests to this computer, and cannot read the token.
"""

import html
import json
import secrets
from dataclasses import dataclass
from http import HTTPStatus
from importlib.resources import files
from pathlib import Path
from typing import Any
from urllib.parse import quote

from sitegen.reading.textfile import BadFile
from sitegen.watching.changes import ChangeRefused, RowChange
from sitegen.watching.edited_episodes import EditedEpisodes

MOST_BYTES = 20_000
"""Of a request; a change has some hundred."""

_LONGEST_S = 12 * 3600
"""Twelve hours: no film is longer, whatever a request says (our choice)."""


@dataclass(frozen=True, slots=True)
class FilmAnswer:
    """What is sent back: bytes, or a file of which parts may be asked for."""

    status: HTTPStatus
    body: bytes | Path
    kind: str = "application/json"


class FilmPages:
    """Answers for the pages of one content folder."""

    def __init__(self, content: Path) -> None:
        self.edited = EditedEpisodes(content)
        self.token = secrets.token_urlsafe(24)

    def get(self, path: str) -> FilmAnswer:
        """The answer to an address below ``/-/film/``: ``""``, ``NAME``, ``NAME/rows`` or ``NAME/film``."""
        name, _, what = path.rpartition("/") if path.endswith(("/rows", "/film")) else (path, "", "")
        if not path:
            return FilmAnswer(HTTPStatus.OK, self._list(), "text/html; charset=utf-8")
        film = self.edited.film(name)
        if what == "film" and film is not None:
            return FilmAnswer(HTTPStatus.OK, film)
        if what == "rows":
            try:
                return _json(self.edited.state(name))
            except (KeyError, BadFile) as error:
                return _refused(_words(error), HTTPStatus.NOT_FOUND)
        known = name in self.edited.episodes() or name in self.edited.films_without_episode()
        if what or not known:
            return FilmAnswer(HTTPStatus.NOT_FOUND, b"Not found", "text/plain")
        return FilmAnswer(HTTPStatus.OK, self._page(name), "text/html; charset=utf-8")

    def post(self, name: str, token: str, body: bytes) -> FilmAnswer:
        """Make one change. The token must be that of the page."""
        if not secrets.compare_digest(token.encode(), self.token.encode()):
            return _refused("this page is from an earlier preview; load it again", HTTPStatus.FORBIDDEN)
        try:
            return _json(self._do(name, json.loads(body)))
        except (ChangeRefused, BadFile) as error:
            return _refused(_words(error), HTTPStatus.CONFLICT)
        except KeyError:
            return _refused("there is no such episode", HTTPStatus.NOT_FOUND)
        except (ValueError, TypeError, AttributeError, OverflowError, RecursionError):
            return _refused("this request cannot be read", HTTPStatus.BAD_REQUEST)
        except OSError as error:
            return _refused(f"the file could not be written: {error.strerror}", HTTPStatus.CONFLICT)

    def _do(self, name: str, wish: Any) -> dict[str, Any]:
        action, value = str(wish["action"]), str(wish.get("value", ""))
        at = min(_LONGEST_S, max(0, int(wish.get("at", 0))))
        if any(ord(c) < 32 for c in value):  # the control characters of ASCII
            raise ValueError("a line break would be more than one value")
        if action == "begin":
            title = Path(name).stem.replace("-", " ").capitalize()
            begun = self.edited.begin(name, json.dumps(title, ensure_ascii=False), value, at)
            return {"page": f"/-/film/{quote(begun)}"}
        if action == "undo":
            return self.edited.undo(name)
        asked = RowChange(str(wish.get("row", "")), value, at)
        return self.edited.change(name, action, asked, str(wish.get("seen")))

    def _list(self) -> bytes:
        def links(names: list[str]) -> str:
            lines = (f'<li><a href="/-/film/{quote(n)}">{html.escape(n)}</a></li>' for n in names)
            return f"<ul>{''.join(lines)}</ul>" if names else "<p>None.</p>"

        page = own_file("films.html").decode()
        page = page.replace("EPISODES", links(self.edited.episodes()))
        return page.replace("FILMS", links(self.edited.films_without_episode())).encode()

    def _page(self, name: str) -> bytes:
        film = self.edited.film(name)
        data = {
            "name": name,
            "token": self.token,
            "film": f"/-/film/{quote(name)}/film" if film else None,
            "begun": name in self.edited.episodes(),
            "exercises": self.edited.exercises(),
        }
        # "<" could end the script element that the data stand in.
        written = json.dumps(data).replace("<", "\\u003c")
        page = own_file("beside_film.html").decode()
        return page.replace("NAME", html.escape(name)).replace("DATA", written).encode()


def own_file(name: str) -> bytes:
    """A file of the preview's own pages."""
    return (files("sitegen.preview") / "page" / name).read_bytes()


def _json(data: dict[str, Any], status: HTTPStatus = HTTPStatus.OK) -> FilmAnswer:
    return FilmAnswer(status, json.dumps(data).encode())


def _refused(why: str, status: HTTPStatus) -> FilmAnswer:
    return _json({"refused": why}, status)


def _words(error: Exception) -> str:
    return str(error.problem) if isinstance(error, BadFile) else str(error)
