"""Ready data for templates: an episode's blocks and items, an exercise's forms, in a reader's words.

Made once and used by the episode page, the sheet, the exercise pages and the pages by need.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from markupsafe import Markup

from sitegen.model import Block, Episode, Fault, Item, Kit, Picture
from sitegen.pages.adaptation import Adaptation
from sitegen.pages.anchors import Anchors
from sitegen.pages.cautions import short_caution
from sitegen.pages.drawings import AsksWords, Drawings, DrawnForm
from sitegen.pages.page import Gateway
from sitegen.pages.site import Site
from sitegen.pages.theme import plural
from sitegen.reading.markdown import inline_html
from sitegen.study.adapted import video_stretches
from sitegen.study.fetching import fetched, in_number
from sitegen.study.forms import Form
from sitegen.study.ladder import neighbours
from sitegen.study.span import Span
from sitegen.study.timing import block_time
from sitegen.system.noted_reads import Shared
from sitegen.vocabulary import AMRAP, CIRCUIT, EMOM, INTERVALS, told_apart

CARD, TOTAL = "card", "total"
"""Names of the fact, and of the one with its time alone."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FaultView:
    """A fault and its fix as HTML."""

    see: Markup
    fix: Markup


@dataclass(frozen=True, slots=True, kw_only=True)
class CautionView:
    """A caution as HTML, and short as plain text."""

    text: Markup
    short: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PictureView:
    """A picture's address below the site's root and its text alternative."""

    address: str
    alt: str


@dataclass(frozen=True, slots=True, kw_only=True)
class VariantView:
    """A variant as shown with its exercise."""

    name: str
    change: str
    """``regression`` and so on, for marking up; ``change_word`` is for reading."""
    change_word: str
    note: Markup
    dose_change: str
    kit: tuple[str, ...]
    spares: tuple[str, ...]
    """Demands of the main form that it does not make, the few that matter, as words."""
    adds: tuple[str, ...]
    """Demands that the main form does not make, as words."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FormView:
    """What to do and what to avoid, for one form."""

    drawing: DrawnForm | None
    """None where nothing is said about its poses."""
    move: str
    """What moves, in the trainer's words: where there is no drawing it stands alone."""
    name: str
    note: Markup
    """Whom or what the form is for, and how it is set up."""
    cues: tuple[Markup, ...]
    how: tuple[Markup, ...]
    """The cues, or what stands in their place where there are none."""
    faults: tuple[FaultView, ...]
    cautions: tuple[CautionView, ...]
    kit: tuple[str, ...]
    demands: tuple[str, ...]
    pictures: tuple[PictureView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ItemView:
    """One item of a block."""

    anchor: str
    exercise: str
    form: FormView
    variants: tuple[VariantView, ...]
    dose: str
    tempo: str
    effort: str
    load: str
    note: Markup
    others: str
    """Who does it in another form, or does less of it; empty for nobody."""
    at: int | None
    """When it is shown; None where that is not marked."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockView:
    """One block of an episode."""

    anchor: str
    name: str
    kind: str
    kind_word: str
    how: str
    """Format, sets and rests in one line."""
    minutes: str
    """How long it takes in all; empty where nobody knows yet."""
    note: Markup
    at: int | None
    """None in a plan."""
    your_turn: int | None
    items: tuple[ItemView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class EpisodeCard:
    """An episode in a list."""

    slug: str
    number: int
    title: str
    summary: Markup
    released: str
    total: str
    poster: PictureView | None
    """The trainer's own; None where the episode gives none."""
    kit: tuple[str, ...]
    """What to fetch, with how many of it: ``2 × Food tin``."""


_SPARED = 4
"""A longer list of what a form does without hides the difference that matters (our judgement, no source).
What it adds is always told in full: to leave that out could hurt."""


def markup(text: str) -> Markup:
    """Inline Markdown as HTML."""
    return Markup(inline_html(text))


class Views(Gateway):
    """Makes views for one site; what depends on an exercise alone is made once."""

    def __init__(self, site: Site) -> None:
        self.site = site
        self._forms: Shared[FormView] = Shared()
        self._variants: Shared[tuple[VariantView, ...]] = Shared()
        self._neighbours: Shared[tuple[Form | None, Form | None]] = Shared()

    @cached_property
    def adaptation(self) -> Adaptation:
        """Forms by need, for the scripts."""
        return Adaptation(self.site)

    @cached_property
    def drawings(self) -> Drawings:
        """Draws any form: ``drawings.of(form)``."""
        return Drawings(self.site.theme.strings.drawings, self.site.posed)

    @cached_property
    def asks(self) -> AsksWords:
        """Says what a form asks of the joints: ``asks.of(form)``, ``asks.compared(form, other)``."""
        return AsksWords(self.site.theme.strings.drawings, self.site.posed)

    # --- exercises -------------------------------------------------------------------------

    def form(self, exercise: str, variant: str | None) -> FormView:
        """What to do and avoid in one form of an exercise."""
        return self._forms.get((exercise, variant), lambda: self._form(self.site.form(exercise, variant)))

    def _form(self, form: Form) -> FormView:
        return FormView(
            drawing=self.drawings.of(form),
            move=form.move,
            name=form.name,
            note=markup(form.note),
            cues=tuple(map(markup, form.cues)),
            how=tuple(map(markup, form.how)),
            faults=tuple(map(fault_view, form.faults)),
            cautions=tuple(
                CautionView(text=markup(one.text), short=short_caution(one)) for one in form.cautions
            ),
            kit=self.kit_names(form.kit),
            demands=self.demand_words(form.demands),
            pictures=self.pictures(form.pictures),
        )

    def neighbours(self, exercise: str, variant: str | None) -> tuple[Form | None, Form | None]:
        """The next easier and the next harder form than one of an exercise."""
        return self._neighbours.get(
            (exercise, variant), lambda: neighbours(self.site.exercise(exercise), variant, self.site.forms)
        )

    def variants(self, exercise: str, shown: str | None = None) -> tuple[VariantView, ...]:
        """The variants of an exercise, without the one that is shown as the main form."""
        return self._variants.get((exercise, shown), lambda: self._all_variants(exercise, shown))

    def _all_variants(self, exercise: str, shown: str | None) -> tuple[VariantView, ...]:
        main = self.site.form(exercise, shown)
        others = [v.id for v in self.site.exercise(exercise).variants if v.id != shown]
        return tuple(self._variant(self.site.form(exercise, other), main) for other in others)

    def _variant(self, form: Form, main: Form) -> VariantView:
        return VariantView(
            name=form.name,
            change=form.change,
            change_word=self.site.phrases.words("changes", form.change),
            note=markup(form.note),
            dose_change=self.site.phrases.change(form.dose),
            kit=self.kit_names(form.kit),
            spares=self.spared_words(told_apart(main.demands, form.demands)),
            adds=self.demand_words(told_apart(form.demands, main.demands)),
        )

    def demand_words(self, demands: tuple[str, ...]) -> tuple[str, ...]:
        """Demands as a reader sees them."""
        return tuple(self.site.phrases.words("demands", demand) for demand in demands)

    def spared_words(self, spared: tuple[str, ...]) -> tuple[str, ...]:
        """The few that matter of the demands that a form does without: those that most needs avoid."""
        avoided = [demand for need in self.site.details.needs.values() for demand in need.avoids]
        first = sorted(spared, key=lambda demand: -avoided.count(demand))[:_SPARED]
        return self.demand_words(tuple(demand for demand in spared if demand in first))

    def kit_names(self, kit: tuple[str, ...]) -> tuple[str, ...]:
        """Names of pieces of kit."""
        return tuple(self.site.details.kit[piece].name for piece in kit)

    def pictures(self, pictures: tuple[Picture, ...]) -> tuple[PictureView, ...]:
        """Pictures with the addresses they have in the site."""
        return tuple(PictureView(address=self.site.media(p.file), alt=p.alt) for p in pictures)

    # --- episodes --------------------------------------------------------------------------

    def card(self, episode: Episode) -> EpisodeCard:
        """An episode as it stands in lists."""
        phrases = self.site.phrases
        total = self.site.time_of(episode).whole
        return EpisodeCard(
            slug=episode.slug,
            number=episode.number,
            title=episode.title,
            summary=markup(episode.summary),
            released=phrases.day(episode.released) if episode.released else "",
            total=phrases.about(total) if total else "",
            poster=self.pictures((episode.poster,))[0] if episode.poster else None,
            kit=tuple(in_number(n, piece.name) for piece, n in self.fetched(episode)),
        )

    def kit(self, episode: Episode) -> tuple[Kit, ...]:
        """What to fetch for the forms that are shown, in the order it is first needed."""
        return tuple(piece for piece, _ in self.fetched(episode))

    def fetched(self, episode: Episode) -> tuple[tuple[Kit, int], ...]:
        """What :meth:`kit` gives, with how many of each piece."""
        pieces = fetched(self.site.details, self.site.forms, episode)
        return tuple((self.site.details.kit[piece], number) for piece, number in pieces.items())

    def blocks(self, episode: Episode, others: Sequence[Sequence[str]]) -> tuple[BlockView, ...]:
        """The blocks of an episode; anchors are unique on a page that shows them all.

        ``others`` says for each item of each block who does it in another form (``pages.other_forms``).
        """
        anchors, stretches = Anchors(), video_stretches(episode)
        return tuple(
            self._block(block, anchors, lines, stretch)
            for block, lines, stretch in zip(episode.blocks, others, stretches, strict=True)
        )

    def _block(self, block: Block, anchors: Anchors, others: Sequence[str], stretch: float) -> BlockView:
        return BlockView(
            anchor=anchors.take(block.name),
            name=block.name,
            kind=block.kind,
            kind_word=self.site.phrases.words("kinds", block.kind),
            how=self.how(block),
            minutes=self._minutes(block, stretch),
            note=markup(block.note),
            at=block.at,
            your_turn=block.your_turn,
            items=tuple(
                self._item(item, block, anchors, line) for item, line in zip(block.items, others, strict=True)
            ),
        )

    def _minutes(self, block: Block, stretch: float) -> str:
        """Its stretch of the video and its your turn."""
        if block.your_turn is None:
            return self.site.phrases.about(Span(stretch, stretch)) if stretch else ""
        turn = block_time(self.site.details, self.site.forms, block).seconds
        return self.site.phrases.about(Span(stretch + turn.low, stretch + turn.high))

    def _item(self, item: Item, block: Block, anchors: Anchors, others: str) -> ItemView:
        phrases = self.site.phrases
        return ItemView(
            anchor=anchors.take(item.exercise),
            exercise=item.exercise,
            form=self.form(item.exercise, item.variant),
            variants=self.variants(item.exercise, item.variant),
            dose=phrases.dose_or_work(item.dose, block),
            tempo=phrases.tempo(item.tempo),
            effort=phrases.effort(item.effort),
            load=phrases.load(item.load),
            note=markup(item.note),
            others=others,
            at=item.at,
        )

    def how(self, block: Block) -> str:
        """``Tri-set · 3 sets · rest 15 s between exercises, 60–90 s between sets``."""
        words, phrases = self.site.theme.strings.notation, self.site.phrases
        rounds = block.format in (CIRCUIT, INTERVALS)
        parts = [phrases.words("formats", block.format)]
        if block.format in (AMRAP, EMOM) and block.time is not None:
            parts.append(phrases.duration(block.time))
        else:
            parts.append(self._sets(words.rounds if rounds else words.sets, block))
        if block.work is not None:
            parts.append(words.work.format(time=phrases.duration(block.work)))
        rests = [
            text.format(time=phrases.duration(rest))
            for text, rest in (
                (words.rest_exercises, block.rest.between_exercises),
                (words.rest_rounds if rounds else words.rest_sets, block.rest.between_sets),
                (words.rest_after, block.rest.after),
            )
            if rest is not None and rest.high
        ]
        return " · ".join([*parts, *([words.rest.format(rests=", ".join(rests))] if rests else [])])

    def _sets(self, forms: str, block: Block) -> str:
        return plural(forms, block.sets.high).replace("#", self.site.phrases.count(block.sets))


def fault_view(fault: Fault) -> FaultView:
    """A fault as HTML."""
    return FaultView(see=markup(fault.see), fix=markup(fault.fix))


def total_of(card: EpisodeCard) -> str:
    """How long it takes, for pages that show no more of it: a fact that follows from the card."""
    return card.total
