"""A client's sessions in a reader's words."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from datetime import date

from markupsafe import Markup

from sitegen.clients.client import reference_of
from sitegen.clients.tailored import TailoredItem, TailoredSession
from sitegen.model import Block, Episode
from sitegen.notation import Duration, format_clock
from sitegen.pages.client.client_plan import ClientPlan
from sitegen.pages.client.fitted import instead_of
from sitegen.pages.drawings import DrawnForm
from sitegen.pages.episode.kit import FetchView, fetch_list, rotation_plans
from sitegen.pages.episode.video import VideoView, video_view
from sitegen.pages.version_words import VersionWords
from sitegen.pages.views import FaultView, fault_view, markup
from sitegen.study.adapted import is_by_the_clock, split_to_fit
from sitegen.study.timing import session_time
from sitegen.study.volume import COUNTED_KINDS
from sitegen.vocabulary import WARM_UP


@dataclass(frozen=True, slots=True, kw_only=True)
class HerItem:
    """An exercise as she does it, or the words for one that she leaves out."""

    gap: str = ""
    name: str = ""
    drawing: DrawnForm | None = None
    dose: str = ""
    load: str = ""
    tempo: str = ""
    effort: str = ""
    heavier: str = ""
    """Plan for two uneven loads."""
    filmed: str = ""
    """What the video shows instead."""
    said: str = ""
    """What is lost or changed against the video."""
    note: str = ""
    form_note: Markup = field(default_factory=Markup)
    """Whom or what the form is for, and how it is set up."""
    cautions: tuple[Markup, ...] = ()
    cues: tuple[Markup, ...] = ()
    faults: tuple[FaultView, ...] = ()
    link: str = ""
    clock: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class HerBlock:
    """A part of her session."""

    kind: str
    name: str
    how: str
    """Empty where nothing of it is left."""
    note: Markup
    paced: bool
    off_purpose: bool
    link: str
    clock: str
    items: tuple[HerItem, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LoggedItem:
    """An exercise whose load and repetitions she may write down."""

    id: str
    name: str
    asked: str


@dataclass(frozen=True, slots=True, kw_only=True)
class HerSession:
    """A session of hers."""

    slug: str
    number: int
    title: str
    note: Markup
    time: str
    too_long: str
    sittings: tuple[str, ...]
    video: str
    coming: str
    kit: tuple[FetchView, ...]
    cautions: tuple[Markup, ...]
    blocks: tuple[HerBlock, ...]
    logged: tuple[LoggedItem, ...]
    log: tuple[tuple[str, str], ...]
    """Key and title of a form for each time that she does it."""


class HerViews:
    """Makes the views of one client's plan. What comes out after ``today`` has no links yet."""

    def __init__(self, plan: ClientPlan, today: date) -> None:
        self._plan, self._today = plan, today
        self._site, self._views = plan.site, plan.views
        self._words = plan.site.theme.strings.client
        self._versions = VersionWords(plan.site)

    def sessions(self) -> list[HerSession]:
        """Every session, in order."""
        return [self._session(session) for session in self._plan.sessions]

    def _session(self, session: TailoredSession) -> HerSession:
        filmed, episode, client = session.filmed, session.episode, self._plan.client
        video, words = self._video(filmed), self._words.log
        times = range(1, client.repeat.get(filmed.slug, 1) + 1)
        too_long, parts = self._parts(episode)
        return HerSession(
            slug=filmed.slug,
            number=filmed.number,
            title=filmed.title,
            note=markup(client.notes.get(filmed.slug, "")),
            time=self._time(episode),
            too_long=too_long,
            sittings=parts,
            video=video.link(self._root, 0) if video else "",
            coming=self._coming(filmed),
            kit=fetch_list(self._site, self._views, episode),
            cautions=tuple(markup(caution.text) for caution in filmed.cautions),
            blocks=tuple(self._blocks(session, video)),
            logged=tuple(self._logged(session)),
            log=tuple(
                (f"{filmed.slug}-{n}", words.title_again.format(n=n) if n > 1 else words.title) for n in times
            ),
        )

    def _coming(self, episode: Episode) -> str:
        """When the video comes out; nothing once it is."""
        if episode.released is None or episode.released <= self._today:
            return ""
        return str(self._words.coming.format(day=self._site.phrases.day(episode.released)))

    @property
    def _root(self) -> str:
        return self._site.details.address

    def _video(self, episode: Episode) -> VideoView | None:
        """Links into the video, once it is out."""
        return None if episode.planned or self._coming(episode) else video_view(self._site, episode)

    def _time(self, episode: Episode) -> str:
        whole = session_time(self._site.details, self._site.forms, episode).whole
        return self._site.phrases.about(whole) if whole else ""

    def _parts(self, episode: Episode) -> tuple[str, tuple[str, ...]]:
        """How to split a session that is longer than she may train; nothing where it is not."""
        longest, site = self._plan.tailor.longest, self._site
        seconds = session_time(site.details, site.forms, episode).seconds
        if longest is None or seconds is None or seconds.high <= longest:
            return "", ()
        shared = split_to_fit(site.details, site.forms, episode, longest)
        warm = next((block.name for block in episode.blocks if block.kind == WARM_UP), "")
        limit, time = (site.phrases.minutes(Duration(int(end), int(end))) for end in (longest, seconds.high))
        lead = self._words.too_long.format(limit=limit, time=time, n=len(shared))
        return lead, tuple(self._sitting(episode, n, some, warm) for n, some in enumerate(shared, start=1))

    def _sitting(self, episode: Episode, n: int, numbers: Sequence[int], warm: str) -> str:
        """What is done in a sitting; a later one begins with the warm-up too, for nobody starts cold."""
        blocks = [episode.blocks[number] for number in numbers]
        cold = bool(warm) and all(block.kind != WARM_UP for block in blocks)
        words = self._words.sitting_warm if cold else self._words.sitting
        return str(words.format(n=n, warm=warm, blocks=", ".join(block.name for block in blocks)))

    # --- blocks and items ------------------------------------------------------------------

    def _blocks(self, session: TailoredSession, video: VideoView | None) -> Iterator[HerBlock]:
        kept = iter(enumerate(session.episode.blocks))
        plans = rotation_plans(self._site, session.episode)
        for filmed, items in session.blocks:
            left = any(one.version is not None for one in items)
            number, block = next(kept) if left else (-1, filmed)
            places = iter(range(len(block.items)))
            yield HerBlock(
                kind=self._site.phrases.words("kinds", filmed.kind),
                name=filmed.name,
                how=self._views.how(block) if left else "",
                note=markup(filmed.note),
                paced=left and is_by_the_clock(filmed) and not is_by_the_clock(block),
                off_purpose=filmed in session.off_purpose,
                link=video.link(self._root, filmed.at) if video and filmed.at is not None else "",
                clock=format_clock(filmed.at) if filmed.at is not None else "",
                items=tuple(
                    self._gap(one)
                    if one.version is None
                    else self._item(one, filmed, video, plans.get((number, next(places)), ""))
                    for one in items
                ),
            )

    def _name(self, exercise: str, variant: str | None) -> str:
        return str(self._site.form(exercise, variant).name)

    def _gap(self, one: TailoredItem) -> HerItem:
        name = self._name(one.asked.exercise, one.asked.variant)
        trainer = self._site.details.trainer.name
        return HerItem(gap=self._words.gap.format(name=name, trainer=trainer))

    def _item(self, one: TailoredItem, block: Block, video: VideoView | None, heavier: str) -> HerItem:
        """``block`` as filmed: without the clock its work time is the dose of what has none."""
        version = one.version
        assert version is not None
        view = self._views.form(*version.form.key)
        filmed = instead_of(self._plan, one)
        words = self._words.instead if video else self._words.instead_unfilmed
        words = self._words.exchanged if one.exchanged else words
        instead = words.format(name=filmed, trainer=self._site.details.trainer.name)
        at = None if one.exchanged else one.filmed.at
        return HerItem(
            name=view.name,
            drawing=view.drawing,
            dose=self._versions.dose(block, version),
            load=self._versions.load(version),
            tempo=self._versions.tempo(version),
            effort=self._versions.effort(version),
            heavier=heavier,
            filmed=instead if filmed else "",
            said="" if one.exchanged else self._versions.all_said(block, version),
            # What the trainer wrote of the form filmed may be wrong for another.
            note=markup(one.filmed.note) if not one.other_form else "",
            form_note=view.note,
            cautions=tuple(caution.text for caution in view.cautions),
            cues=view.how,
            faults=tuple(map(fault_view, version.faults(self._site.forms))),
            link=video.link(self._root, at) if video and at is not None else "",
            clock=format_clock(at) if at is not None else "",
        )

    def _logged(self, session: TailoredSession) -> Iterator[LoggedItem]:
        """Exercises of strength and conditioning, each form once."""
        told: set[str] = set()
        for block, items in session.blocks:
            for one in items if block.kind in COUNTED_KINDS else ():
                if one.version is None:
                    continue
                reference = reference_of(one.version.form.key)
                if reference not in told:
                    told.add(reference)
                    asked = (self._versions.dose(block, one.version), self._versions.short_load(one.version))
                    yield LoggedItem(
                        id=reference, name=one.version.form.name, asked=" · ".join(filter(None, asked))
                    )
