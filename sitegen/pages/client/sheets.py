"""The sheets of a client's sessions, in one PDF file and inside her page."""

import base64
from collections.abc import Iterable, Iterator
from dataclasses import replace

from markupsafe import Markup

from sitegen.clients.tailored import TailoredItem, TailoredSession
from sitegen.model import Item
from sitegen.pages.client.client_plan import ClientPlan
from sitegen.pages.client.fitted import advice, fitted_to, instead_of, shows_other_forms
from sitegen.pages.episode import episode_address
from sitegen.pages.one_file import inlined_style, printed
from sitegen.pages.sheets.address import CODE, sheet_address, spoken_address
from sitegen.pages.sheets.code import code_svg
from sitegen.pages.sheets.fit import Fitter, SheetLayout
from sitegen.pages.sheets.pages import sheet_fitter
from sitegen.pages.sheets.views import SheetBlock, SheetItem, SheetView, sheet_view
from sitegen.pages.views import fault_view
from sitegen.printing.pdf_printer import PdfPrinter
from sitegen.study.version import Version

ADDRESS = "plan.html"
"""Of the document that is printed; it exists while it is printed only."""


def sheets_html(plan: ClientPlan) -> Markup:
    """Every sheet, one after the other, with the codes drawn into it."""
    fitter = sheet_fitter(plan.site)
    sheets = [_laid_out(fitter, client_sheet(plan, session)) for session in plan.sessions]
    template = plan.site.theme.environment.get_template("client_sheets.html")
    html = template.render(plan.site.context(ADDRESS, sheets=sheets, dated=True))
    for view, _ in sheets:
        code = code_svg(plan.site.public(episode_address(view.slug)))
        image = f"data:image/svg+xml;base64,{base64.b64encode(code).decode()}"
        html = html.replace(sheet_address(view.slug, CODE), image)
    return Markup(html)


def _laid_out(fitter: Fitter, sheet: SheetView) -> tuple[SheetView, SheetLayout]:
    """The sheet and how it is laid out; where only that makes it one page, without the names of the forms
    filmed."""
    layout = fitter.layout(sheet)
    if not layout.one_page:
        bare = _without_names_of_filmed(sheet)
        bare_layout = fitter.layout(bare)
        if bare_layout.one_page:
            return bare, bare_layout
    return sheet, layout


def _without_names_of_filmed(sheet: SheetView) -> SheetView:
    blocks = (
        replace(block, items=tuple(replace(item, instead="") for item in block.items))
        for block in sheet.blocks
    )
    return replace(sheet, blocks=tuple(blocks))


def client_sheet(plan: ClientPlan, session: TailoredSession) -> SheetView:
    """A sheet without easier and harder forms: nobody looked at those for her."""
    spoken = spoken_address(plan.public, session.filmed)
    sheet = sheet_view(plan.site, plan.views, session.episode, spoken, others="")
    kept = (items for _, items in session.blocks if any(one.version for one in items))
    blocks = tuple(
        replace(block, items=tuple(_items(plan, block, items)))
        for block, items in zip(sheet.blocks, kept, strict=True)
    )
    label, said = fitted_to(plan)
    if shows_other_forms(session):
        # The code leads to the session as filmed: an address with her needs would tell them to whoever keeps
        # the log of the web host.
        words = plan.site.theme.strings.client.fitted
        said = f"{said} {words.page if session.filmed.video is None else words.film}"
    advised = tuple(text for _, text in advice(plan))
    return replace(sheet, blocks=blocks, others=said, others_label=label, advice=advised)


def _items(plan: ClientPlan, block: SheetBlock, items: Iterable[TailoredItem]) -> Iterator[SheetItem]:
    """What she does, and in its place what she leaves out: the video shows it."""
    shown = iter(block.items)
    for one in items:
        yield _gap(plan, one.asked) if one.version is None else _item(plan, next(shown), one, one.version)


def _gap(plan: ClientPlan, asked: Item) -> SheetItem:
    gap = plan.site.theme.strings.sheet.gap
    name = plan.site.form(asked.exercise, asked.variant).name
    return SheetItem(name=name, dose=gap, amount=("", gap), cue=Markup())


def _item(plan: ClientPlan, item: SheetItem, one: TailoredItem, version: Version) -> SheetItem:
    faults = version.faults(plan.site.forms)
    return replace(
        item,
        easier="",
        harder="",
        instead=instead_of(plan, one),
        fault=fault_view(faults[0]) if faults else None,
        load=_load(plan, item, version),
        facts=_facts(plan, version),
    )


def _load(plan: ClientPlan, item: SheetItem, version: Version) -> str:
    """What is held, or the most that may be."""
    words = plan.views.adaptation.forms.words.short_load(version)
    return str(plan.site.theme.strings.sheet.holding.format(load=words)) if words else item.load


def _facts(plan: ClientPlan, version: Version) -> tuple[str, ...]:
    """Tempo, and effort as a bound where it is one."""
    words, strings = plan.views.adaptation.forms.words, plan.site.theme.strings.sheet
    tempo = words.tempo(version)
    said = (strings.tempo.format(tempo=tempo) if tempo else "", words.effort(version))
    return tuple(one.replace(" ", "\N{NO-BREAK SPACE}") for one in said if one)


def sheets_pdf(plan: ClientPlan, printer: PdfPrinter, sheets: Markup) -> bytes:
    """All sheets as one PDF file. Raises BrowserFailed where it cannot be printed."""
    style = inlined_style(plan.site.theme, ("styles/site.css", "styles/sheet.css", "client/client.css"))
    template = plan.site.theme.environment.get_template("client_paper.html")
    context = plan.site.context(ADDRESS, name=plan.client.name, style=style, sheets=sheets)
    return printed(plan.site, template.render(context).encode(), ADDRESS, printer)
