"""A client's plan as a site of its own: the templates, phrases and views of the series, with her sessions."""

from dataclasses import dataclass, replace

from sitegen.clients.client import Client
from sitegen.clients.tailored import Tailor, TailoredSession
from sitegen.model import Episode, Kit, Series
from sitegen.pages.site import Site
from sitegen.pages.views import Views


@dataclass(frozen=True, slots=True, kw_only=True)
class ClientPlan:
    """Everything that her page, her sheets and her calendar are made from."""

    client: Client
    tailor: Tailor
    sessions: tuple[TailoredSession, ...]
    """Those with something left in them, in their order."""
    site: Site
    """With her sessions as its episodes, and no needs to choose."""
    views: Views
    public: Site
    """The series' own site: links and media are there."""

    code: str
    """Of the plan; see ``clients.folder.plan_code``."""


class _HerViews(Views):
    """The views of her sessions; nobody tells her to fetch what is there with her needs."""

    def __init__(self, site: Site, brought: frozenset[str]) -> None:
        super().__init__(site)
        self._brought = brought

    def fetched(self, episode: Episode) -> tuple[tuple[Kit, int], ...]:
        """What is to be fetched, with how many of each piece."""
        return tuple(one for one in super().fetched(episode) if one[0].id not in self._brought)


def client_plan(public: Site, series: Series, client: Client, code: str) -> ClientPlan:
    """The plan of one client, known by ``code``. ``series`` has every session that she may do."""
    tailor = Tailor(series, client)
    sessions = tuple(one for one in tailor.sessions() if one.episode.blocks)
    hers = replace(
        series,
        details=replace(tailor.details, needs={}),
        episodes=tuple(one.episode for one in sessions),
        upcoming=(),
        pages=(),
    )
    site = Site(hers, {}, public.theme, public.key)
    return ClientPlan(
        client=client,
        tailor=tailor,
        sessions=sessions,
        site=site,
        views=_HerViews(site, tailor.brought),
        public=public,
        code=code,
    )
