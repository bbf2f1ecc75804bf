"""Putting an episode right beside its film: what the file says, one change at a time, and the way back.

The pages are served by :mod:`sitegen.preview`, on this computer only; nothing here is part of a site.
"""
