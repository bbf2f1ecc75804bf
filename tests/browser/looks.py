"""The looks in which pages are audited: both widths, both colour schemes, each at least once.

The four combinations differ in nothing that the two do not show: colours do not depend on the
width, and layout does not depend on the colours.
"""

LOOKS = {"phone, light": (320, "light"), "desktop, dark": (1280, "dark")}
