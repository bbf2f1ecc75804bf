"""The printable sheets of a session: what is on them, what fits, and their files."""
