"""The episode: its page, its chapters and captions as files, its texts to paste."""

from sitegen.pages.episode.address import episode_address
from sitegen.pages.episode.episode_page import Neighbours
from sitegen.pages.episode.pages import episode_pages, made_posters

__all__ = ["Neighbours", "episode_address", "episode_pages", "made_posters"]
