"""Write JSON Schemas of the content files, from which many editors complete keys and words."""

import argparse
import json
from pathlib import Path

from sitegen.cli import OK
from sitegen.clients.file_schema import CLIENT
from sitegen.commands.common import add_folders, content_folder
from sitegen.reading.schemas.json_schema import schema_of, schemas


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "folder", nargs="?", type=Path, metavar="FOLDER", help="where to write them (default: content/schema)"
    )
    add_folders(parser)


def run(arguments: argparse.Namespace) -> int:
    folder = arguments.folder or content_folder(arguments) / "schema"
    folder.mkdir(parents=True, exist_ok=True)
    for name, schema in {**schemas(), "client.schema.json": schema_of(CLIENT)}.items():
        (folder / name).write_text(json.dumps(schema, indent=2, ensure_ascii=False) + "\n", encoding="utf-8")
        print(folder / name)
    print("Tell your editor which schema a file has, or put this on a file's first line:")
    print("# yaml-language-server: $schema=../schema/episode.schema.json")
    return OK
