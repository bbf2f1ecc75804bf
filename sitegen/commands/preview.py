"""Show the site on this computer. Save a file, and the page in your browser is renewed."""

import argparse
import sys
import threading
from datetime import date
from functools import partial
from pathlib import Path

from sitegen.building.build import Builder
from sitegen.cli import OK, PROBLEMS
from sitegen.commands.common import add_folders, content_folder, day, refuse
from sitegen.preview.ahead import Ahead
from sitegen.preview.beside_film import FilmPages
from sitegen.preview.handler import handler_for
from sitegen.preview.rebuild import rebuild_on_save
from sitegen.preview.server import SiteServer
from sitegen.preview.state import PreviewState
from sitegen.problems import ContentError
from sitegen.reading.folder import take_inventory
from sitegen.reading.reader import read_series
from sitegen.report.next_session_page import room_page
from sitegen.resources import themes_folder

OUT = ".preview"
"""The folder beside the content that holds what is shown. It has plans and what is not out yet, and what is
in ``build`` is what a trainer takes for her site."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_folders(parser)
    parser.add_argument(
        "--out",
        type=Path,
        metavar="FOLDER",
        help=f"where what is shown is put together (default: {OUT}, beside the content; build stays)",
    )
    parser.add_argument(
        "--today",
        type=day,
        metavar="DATE",
        help="show the site as it is published on that day, such as 2026-09-14 (default: everything, plans "
        "and what is not out yet included)",
    )
    parser.add_argument(
        "--port", type=int, default=8017, metavar="N", help="port on this computer (default: 8017)"
    )


def run(arguments: argparse.Namespace) -> int:
    content = content_folder(arguments)
    try:
        take_inventory(content)
    except ContentError as error:
        print(error.problems[0], file=sys.stderr)
        return PROBLEMS
    day: date | None = arguments.today
    out = arguments.out or content.parent / OUT
    builder = Builder(content, out, jobs=1, today=day, plans=day is None)
    state, ahead = PreviewState(), Ahead()
    # The trainer's page about the next session is made from what the folder says when it is asked for.
    pages = {"next-session": lambda: room_page(read_series(content), date.today())}
    try:
        handler = handler_for(state, ahead, FilmPages(content), pages)
        server = SiteServer(builder.out, arguments.port, handler)
    except OSError as error:
        return refuse(f"port {arguments.port}: {error.strerror}; choose another with --port", PROBLEMS)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    films = f"{server.address}-/film/"
    print(f"{server.address} shows {content}, {films} episodes beside films; Ctrl-C ends it", flush=True)
    watched = [path for path in (content, content.parent / "themes", themes_folder()) if path.is_dir()]
    try:
        rebuild_on_save(builder, state, ahead, watched, threading.Event(), partial(print, flush=True))
    except KeyboardInterrupt:
        pass
    server.shutdown()
    return OK
