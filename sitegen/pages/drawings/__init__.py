"""Drawings of poses for pages: ask :class:`Drawings` for a form, put what it gives into the theme's
macros of ``drawings.html``.
"""

from sitegen.pages.drawings.asks import AsksView, AsksWords
from sitegen.pages.drawings.drawn import Drawings, DrawnForm, DrawnPose
from sitegen.pages.drawings.picture import PosePicture

__all__ = ["AsksView", "AsksWords", "Drawings", "DrawnForm", "DrawnPose", "PosePicture"]
