"""What lies in the output folder: files that builds wrote, and what belongs to somebody else.

Whatever no build wrote is *foreign*: a ``.git``, a note, an empty folder. It stays where it is, with
its rights, and a build that has no place beside it is refused instead.
"""

import json
import os
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import chain
from pathlib import Path

from sitegen.building.build_directory import BuildDirectory
from sitegen.building.site_state import FolderState, look_into
from sitegen.clients.folder import clients_folder
from sitegen.problems import ContentError, in_file
from sitegen.reading.suggestions import listed
from sitegen.system.file_states import FileState

_NAMED = 5
"""So many paths in the way are named; the message counts the others."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OutputFolder:
    """What was found in an output folder. Symbolic links count as files; none is followed."""

    files: Mapping[str, FileState]
    """Files that builds wrote, by address, but those in these folders."""
    folders: Mapping[str, FolderState]
    """Folders that were looked at as a whole."""
    foreign: tuple[str, ...]
    """Paths of everything else; a folder without a file of ours is one path, whatever is in it."""

    def in_the_way(self, planned: Collection[str]) -> list[str]:
        """Foreign paths where the site is to have a file or a folder of its own."""
        folders = folders_of(planned)
        return [
            path
            for path in self.foreign
            if path in planned or path in folders or any(parent in planned for parent in _parents(path))
        ]


def look_through(
    out: Path, known: Collection[str], planned: Collection[str], whole: Collection[str] = ()
) -> OutputFolder:
    """Tell the files of earlier builds (``known``) from foreign ones. Raises OSError.

    Session folders that are to be the ``whole`` of what an earlier build left there are told by one state.
    """
    files: dict[str, FileState] = {}
    folders: dict[str, FolderState] = {}
    foreign: list[str] = []
    own_folders = folders_of(chain(known, planned, whole))
    waiting = [(str(out), "")] if out.exists() else []
    while waiting:
        folder, prefix = waiting.pop()
        with os.scandir(folder) as entries:
            for entry in entries:
                path = prefix + entry.name
                if entry.is_dir(follow_symlinks=False):
                    if path in whole:
                        folders[path] = look_into(entry.path)
                    elif path in own_folders:
                        waiting.append((entry.path, f"{path}/"))
                    else:
                        foreign.append(path)
                elif path in known:
                    files[path] = FileState.of(entry.stat(follow_symlinks=False))
                else:
                    foreign.append(path)
    return OutputFolder(files=files, folders=folders, foreign=tuple(sorted(foreign)))


def folders_of(addresses: Iterable[str]) -> set[str]:
    """Every folder that holds one of the files, those above it included."""
    folders: set[str] = set()
    for address in addresses:
        folder = address.rpartition("/")[0]
        while folder and folder not in folders:
            folders.add(folder)
            folder = folder.rpartition("/")[0]
    return folders


def _parents(path: str) -> Iterator[str]:
    while path := path.rpartition("/")[0]:
        yield path


def refuse_overlap(content: Path, out: Path) -> None:
    """Raise ContentError where one of the two folders is, or lies in, the other; or where the site would mix
    with the clients' files, which must not go out."""
    real_content, real_out = Path(os.path.realpath(content)), Path(os.path.realpath(out))
    if _lies_in(real_out, real_content) or _lies_in(real_content, real_out):
        message = f"the site cannot be built there: it would mix with the content in {content}"
        raise _refusal(out, message, "name a folder beside the content with --out")
    clients = clients_folder(content)
    real_clients = Path(os.path.realpath(clients))
    if _lies_in(real_out, real_clients) or _lies_in(real_clients, real_out):
        message = f"the site cannot be built there: it would mix with the clients' files in {clients}"
        raise _refusal(out, message, "name another folder with --out")


def _lies_in(inner: Path, outer: Path) -> bool:
    """Whether a folder is another or lies in it, by whatever names they are called."""
    return any(
        place == outer or (place.exists() and outer.exists() and os.path.samefile(place, outer))
        for place in (inner, *inner.parents)
    )


def refuse_stranger(out: Path, foreign: Iterable[str]) -> None:
    """Raise ContentError for a folder that no build has written to and that is not empty.

    Hidden files are no sign of use: a new repository has a ``.git``, a folder kept in one a ``.gitkeep``.
    """
    visible = [path for path in foreign if not path.startswith(".")]
    if visible:
        message = f"the folder holds files that sitegen did not write ({listed(visible, _NAMED)})"
        advice = "name an empty or a new folder with --out; or use this one and keep its files: --take-over"
        raise _refusal(out, message, advice)


def refuse_in_the_way(out: Path, paths: list[str]) -> None:
    """Raise ContentError where foreign files or folders are at addresses of the site."""
    if paths:
        named = listed(paths, _NAMED)
        message = f"the site needs places that are taken by files sitegen did not write: {named}"
        folders = [path for path in paths if (out / path).is_dir() and not (out / path).is_symlink()]
        advice = "move them elsewhere; or let the build replace them: --take-over"
        raise _refusal(out, message, f"move {listed(folders, _NAMED)} elsewhere" if folders else advice)


def refuse_immovable(out: Path, foreign: Iterable[str]) -> None:
    """Raise ContentError where the site, or a foreign folder in it, could not be moved."""
    if os.path.ismount(out):
        message = "the folder is a drive of its own and cannot be exchanged for the new site"
        raise _refusal(out, message, "name a folder inside it with --out")
    for path in foreign:
        place = out / path
        # A folder that moves into another has its entry ".." rewritten: that takes the right to write.
        fixed = place.is_dir() and not place.is_symlink() and not os.access(place, os.W_OK)
        if fixed or os.path.ismount(place):
            message = f"the folder {path} in it was not made by sitegen and cannot be moved"
            raise _refusal(out, message, "move it elsewhere, or name another folder with --out")


def _refusal(out: Path, message: str, advice: str) -> ContentError:
    return ContentError([in_file("output-folder", str(out), message, advice)])


def note_foreign(directory: BuildDirectory, foreign: Iterable[str]) -> None:
    """Write down, before the swap, what has to move into the new site after it."""
    directory.foreign.write_text(json.dumps(list(foreign)), encoding="utf-8")


def move_foreign(directory: BuildDirectory) -> None:
    """Move what is foreign from the previous site into the site.

    After a swap, and at the start of a build, in case a crash came in between: what was moved is not
    moved twice. Moving a folder leaves everything in it as it is, and costs the same however much it holds.
    """
    try:
        paths = json.loads(directory.foreign.read_bytes())
    except (FileNotFoundError, ValueError):  # never written, or cut off before the swap
        paths = []
    for path in paths:
        source = directory.staging / path
        if os.path.lexists(source):
            place = directory.out / path
            if os.path.lexists(place):
                place = directory.kept / path
            place.parent.mkdir(parents=True, exist_ok=True)
            os.rename(source, place)
    directory.foreign.unlink(missing_ok=True)
