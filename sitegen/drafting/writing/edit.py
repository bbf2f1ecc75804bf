"""Setting keys in a YAML file by editing its text, so that comments, order and spelling stay as they are."""

from itertools import accumulate

from yaml import Mark

from sitegen.reading.source import MappingNode, Node, ScalarNode, child_at


class TextEdits:
    """Changes to a text, collected first and made together."""

    def __init__(self, text: str) -> None:
        self.text = text
        self._starts = [0, *accumulate(len(line) + 1 for line in text.split("\n"))]
        self._changes: list[tuple[int, int, str]] = []

    def _offset(self, mark: Mark) -> int:
        return self._starts[mark.line] + mark.column

    def set(self, record: Node, key: str, value: str, after: tuple[str, ...], comment: str = "") -> None:
        """Give a key of a record a value; a new key is written behind the first of the keys ``after`` that
        is there.
        """
        if not isinstance(record, MappingNode):
            return
        old = child_at(record, key)
        if isinstance(old, ScalarNode):
            self._replace(old, value)
        elif record.flow_style:
            end = self._offset(self._anchor(record, after).end_mark)
            self._changes.append((end, end, f", {key}: {value}"))
            if comment:
                self.remark(record, comment)
        else:
            self._new_line(record, f"{key}: {value}" + (f"    # {comment}" if comment else ""), after)

    def remark(self, record: Node, comment: str) -> None:
        """Write a comment behind the record's first line (in braces: behind the record's last line)."""
        mark = record.end_mark if getattr(record, "flow_style", False) else record.start_mark
        end = self._starts[mark.line + 1] - 1
        line = self.text[self._starts[mark.line] : end]
        lead = "; " if " #" in line else "    # "
        self._changes.append((end, end, f"{lead}{comment}"))

    def _replace(self, old: ScalarNode, value: str) -> None:
        start, end = self._offset(old.start_mark), self._offset(old.end_mark)
        space = " " if start == end and self.text[start - 1 : start] == ":" else ""
        self._changes.append((start, end, f"{space}{value}"))

    def _new_line(self, record: MappingNode, text: str, after: tuple[str, ...]) -> None:
        anchor = self._anchor(record, after)
        column = record.value[0][0].start_mark.column
        line = anchor.end_mark.line
        if anchor.end_mark.column == 0 and line > anchor.start_mark.line:
            line -= 1  # A text over several lines ends at the start of the line behind it.
        end = self._starts[line + 1] - 1
        self._changes.append((end, end, "\n" + " " * column + text))

    def _anchor(self, record: MappingNode, after: tuple[str, ...]) -> Node:
        """The value behind which a new key goes."""
        for key in after:
            found = child_at(record, key)
            if isinstance(found, ScalarNode):
                return found
        first: Node = record.value[0][1]
        return first

    def done(self) -> str:
        """The text with all changes made."""
        text = self.text  # changed from its end on, so that the places before stay what they are
        for start, end, new in sorted(self._changes, key=lambda change: change[:2], reverse=True):
            text = text[:start] + new + text[end:]
        return text
