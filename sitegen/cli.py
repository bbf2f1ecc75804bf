"""The command line: which command, its words in, its words out.

Each command is a module of ``sitegen.commands`` with ``add_arguments(parser)`` and
``run(arguments) -> exit status``. Only the one that is called is imported, which keeps
``sitegen --help`` fast.
"""

import argparse
import importlib
import io
import os
import sys
from collections.abc import Sequence
from typing import NoReturn

from sitegen import __version__
from sitegen.system.terminal import PlainStream

COMMANDS = {
    "begin": "start a new series in a folder",
    "draft": "make a draft episode from the captions of a recording",
    "episode": "write the next episode's file, ready to edit",
    "plan": "plan whole weeks of sessions, to be edited",
    "propose": "propose the next session, with the reason of every choice",
    "check": "look for problems in the content",
    "build": "compile the content into the site",
    "report": "show times, sets, balance and recovery in the terminal",
    "client": "make the page, sheets and calendar of a client; read the logs that come back",
    "filming": "prepare a filming day: the shot list of a session, to print",
    "calendar": "note the calendar as published, so that changed sessions are noticed",
    "preview": "show the site on this computer, renewed on every save",
    "publish": "send the site to where clients open it",
    "schema": "write a JSON Schema that editors complete keys from",
}
"""Each command with its help; the module has the same name."""

OK, PROBLEMS, USAGE, STOPPED = 0, 1, 2, 130
"""Exit statuses: all well; the content (or the disk) has problems; the command was mistyped; Ctrl-C, which
shells tell so."""


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command and return its exit status."""
    words = list(sys.argv[1:] if argv is None else argv)
    if words and words[0] in COMMANDS:
        return _run(words[0], words[1:])
    parser = _front_parser()
    parser.parse_args(words)
    parser.print_help()
    return USAGE


def program() -> NoReturn:
    """The program as it is installed: run one command and end with its exit status."""
    _print_plainly()
    try:
        status = main()
    except Exception as error:
        status = _own_fault(error)
    try:
        sys.stdout.flush()
        sys.stderr.flush()
    except BrokenPipeError:  # nobody reads any more, and Python would try once more at the end
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    except ValueError:  # closed already
        pass
    sys.exit(status)


def _print_plainly() -> None:
    for name in ("stdout", "stderr"):
        stream = getattr(sys, name)
        if isinstance(stream, io.TextIOWrapper):  # else there is none, as in a program without a window
            setattr(sys, name, PlainStream.over(stream))


def _own_fault(error: Exception) -> int:
    """Say that the program, not the content, is at fault, and where the details are for who mends it."""
    import tempfile
    import traceback

    with tempfile.NamedTemporaryFile("w", prefix="sitegen-", suffix=".txt", delete=False) as details:
        details.write(f"sitegen {__version__}, {sys.version}\n{' '.join(sys.argv)}\n\n")
        details.writelines(traceback.format_exception(error))
    what = f"{type(error).__name__}: {error}".splitlines()[0]
    print(f"sitegen: an internal error, not a fault of your content ({what})", file=sys.stderr)
    print(f"    please send {details.name} to whoever looks after sitegen", file=sys.stderr)
    return PROBLEMS


def _front_parser() -> argparse.ArgumentParser:
    width = max(map(len, COMMANDS))
    listing = "\n".join(f"  {name:<{width}}  {help_line}" for name, help_line in COMMANDS.items())
    parser = argparse.ArgumentParser(
        prog="sitegen",
        description="Compile a folder about a series of home workouts into a complete web site.",
        epilog=f"commands:\n{listing}\n\n`sitegen COMMAND --help` says more about one of them.",
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("--version", action="version", version=f"sitegen {__version__}")
    parser.add_argument("command", metavar="COMMAND", nargs="?", choices=tuple(COMMANDS), help="what to do")
    return parser


def _run(name: str, words: list[str]) -> int:
    module = importlib.import_module(f"sitegen.commands.{name}")
    parser = argparse.ArgumentParser(prog=f"sitegen {name}", description=module.__doc__)
    module.add_arguments(parser)
    arguments = parser.parse_args(words)
    try:
        return int(module.run(arguments))
    except KeyboardInterrupt:
        print("\nstopped; what was finished stays, and no file is half written", file=sys.stderr)
        return STOPPED
    except BrokenPipeError:  # the reader of our output went away, as with `| head`
        sys.stderr.close()
        return OK
    except OSError as error:
        print(f"sitegen: {describe(error)}", file=sys.stderr)
        return PROBLEMS


def describe(error: OSError) -> str:
    """What the system refused, in words, with the file it is about."""
    where = f"{error.filename}: " if error.filename else ""
    return f"{where}{error.strerror or error}"
