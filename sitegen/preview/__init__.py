"""The site on this computer while it is being written."""
