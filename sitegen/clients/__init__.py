"""One client: her file, and what the series becomes for her.

Her file lies in the folder ``clients`` beside the content folder, never in it. Nothing of a build or a
publication reads that folder; only ``sitegen client`` and ``sitegen check`` do.
"""
