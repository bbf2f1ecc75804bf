"""``python -m sitegen``."""

from sitegen.cli import program

program()
