"""The same PDF file for the same page: what the browser writes of its clock and system is put out."""

import re

DATE = b"D:20000101000000+00'00'"
"""Stands for the time of printing, which would make every build another. As long as what it replaces."""

# The moments of printing, which would make every print another.
_DATES = re.compile(rb"/(CreationDate|ModDate) \(D:\d{14}\+\d\d'\d\d'\)")
_CREATOR = re.compile(rb"/Creator \(((?:[^()\\]|\\.)*)\)")  # brackets in it are escaped


def steadied(pdf: bytes) -> bytes:
    """A file whose dates are fixed and whose creator does not tell of the trainer's system.

    Every replacement is as long as what it replaces, so that the table of offsets stays right. Only
    the information dictionary, which the browser writes uncompressed and first, is touched.
    """
    end = pdf.find(b"endobj")
    if end < 0:
        return pdf
    head = _DATES.sub(lambda match: b"/%s (%s)" % (match[1], DATE), pdf[:end])
    return _CREATOR.sub(_without_system, head) + pdf[end:]


def _without_system(match: re.Match[bytes]) -> bytes:
    name = b"/Creator (sitegen)"
    return name + b" " * (len(match[0]) - len(name))
