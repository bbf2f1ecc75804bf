"""What her plan takes into account, in words for her page and her sheets.

A plan in which nothing had to change looks like one for which nothing was known: so it is said which it is.
"""

from collections.abc import Iterator, Sequence

from sitegen.clients.client import form_key
from sitegen.clients.tailored import TailoredItem, TailoredSession
from sitegen.model import Limits
from sitegen.pages.client.client_plan import ClientPlan
from sitegen.pages.needs.limit_words import limit_words


def fitted_to(plan: ClientPlan) -> tuple[str, str]:
    """A label and what follows it: her needs, what she avoids, that she has limits; or that none is known.

    In few words, for a sheet has little room.
    """
    limits = [plan.site.theme.strings.client.fitted.limits] if plan.client.limits != Limits() else []
    return _said(plan, [*_needs(plan), *limits])


def fitted_in_full(plan: ClientPlan) -> tuple[str, str]:
    """The same with her limits, what was left out for her and the kit that she has."""
    words, limits = plan.site.theme.strings.client.fitted, limit_words(plan.site, plan.client.limits)
    most = [words.most.format(limits=words.comma.join(limits))] if limits else []
    return _said(plan, [*_needs(plan), *most], list(_wishes(plan)))


def advice(plan: ClientPlan) -> tuple[tuple[str, str], ...]:
    """Name and advice of each need of hers that has any."""
    needs = (plan.tailor.details.needs[need] for need in plan.client.needs)
    return tuple((need.name, " ".join(need.advice.split())) for need in needs if need.advice)


def shows_other_forms(session: TailoredSession) -> bool:
    """Whether the video of a session shows anything that she does in another form, or not at all."""
    return any(one.version is None or one.other_form for _, items in session.blocks for one in items)


def instead_of(plan: ClientPlan, one: TailoredItem) -> str:
    """Name of the form filmed where she does another; empty where it goes by the same name."""
    filmed = plan.site.form(one.filmed.exercise, one.filmed.variant).name
    same = one.version is not None and one.version.form.name == filmed
    return "" if same or not one.other_form else filmed


def _said(plan: ClientPlan, needs: Sequence[str], wishes: Sequence[str] = ()) -> tuple[str, str]:
    words = plan.site.theme.strings.client.fitted
    if needs:
        return words.label, words.end.format(what=words.between.join([*needs, *wishes]))
    unknown = words.unknown.format(trainer=plan.site.details.trainer.name)
    more = words.end.format(what=words.between.join(wishes)) if wishes else ""
    return words.unknown_label, " ".join(filter(None, [unknown, more[:1].upper() + more[1:]]))


def _needs(plan: ClientPlan) -> Iterator[str]:
    words, client = plan.site.theme.strings.client.fitted, plan.client
    yield from (plan.tailor.details.needs[need].name for need in client.needs)
    if client.avoids:
        yield words.without.format(demands=words.comma.join(plan.views.demand_words(client.avoids)))


def _wishes(plan: ClientPlan) -> Iterator[str]:
    words, client, details = plan.site.theme.strings.client.fitted, plan.client, plan.site.details
    if client.leave_out:
        names = (plan.site.forms[form_key(one)].name for one in client.leave_out)
        yield words.left_out.format(names=words.comma.join(names))
    if client.kit is not None:
        kit = words.comma.join(details.kit[piece].name for piece in client.kit)
        yield words.kit.format(kit=kit) if kit else words.no_kit
