"""Pages as PDF files, printed by a browser of this computer."""
