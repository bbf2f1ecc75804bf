"""Where the files of an episode are; the addresses are a contract, for they were sent to clients."""


def episode_address(slug: str) -> str:
    """The episode's page."""
    return f"episodes/{slug}/index.html"


def beside_page(slug: str, name: str) -> str:
    """A file beside the episode's page."""
    return f"episodes/{slug}/{name}"
