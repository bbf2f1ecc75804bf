/* Every item shows the version that fits the viewer's needs first, and says what changed and why; what is to be
   fetched and the notes of each part follow. */
(() => {
  "use strict";
  const data = JSON.parse(document.getElementById("episode-data").textContent);
  const texts = document.getElementById("adapted-words");
  const share = document.querySelector(".needs-share");
  // a series without needs
  if (!share) return;
  const words = JSON.parse(texts.textContent);
  const root = texts.dataset.root;
  const summary = document.querySelector(".needs > summary");

  const fill = (text, values) => text.replace(/\{(\w+)\}/g, (_, name) => values[name]);
  const list = (things) => things.join(words.between);

  const element = (tag, className, ...content) => {
    const made = document.createElement(tag);
    if (className) made.className = className;
    made.append(...content);
    return made;
  };

  /* Notes, cues and cautions are HTML that the site's own program made of the trainer's Markdown. */
  const rich = (tag, className, html) => {
    const made = element(tag, className);
    made.innerHTML = html;
    return made;
  };

  /* --- one item ------------------------------------------------------------------------------ */

  const heading = (form) => {
    const made = element("h4");
    if (form.change) made.append(element("span", "change", form.change), " ");
    const link = element("a", "", form.name);
    link.href = root + form.page;
    made.append(link, " ", element("span", "dose", form.dose || ""));
    return made;
  };

  const facts = (form) => {
    const told = [
      ["holding", form.load && fill(words.holding, { load: form.load })],
      ["", form.tempo && fill(words.tempo, { tempo: form.tempo })],
      ["", form.effort],
    ].filter(([, text]) => text);
    return element("p", "item-facts", ...told.flatMap(([name, text]) => [element("span", name, text), " "]));
  };

  const why = (choice, filmed) => {
    const { form } = choice;
    const parts = [form.page === filmed.page ? words.adjusted : fill(words.instead, { name: filmed.name })];
    const spared = [...choice.reasons, ...choice.rather].filter((demand) => !form.demands.includes(demand));
    if (spared.length) parts.push(fill(words.spares, { demands: list(Needs.words(spared)) }));
    if (choice.own) parts.push(fill(words.own_choice, words));
    const own = new Set([...Needs.has()].map((id) => data.kit[id].name));
    const kit = (form.kit || []).filter((name) => !own.has(name));
    if (kit.length) parts.push(fill(words.kit, { kit: list(kit) }));
    return element("p", "why", parts.join(" "));
  };

  const care = (form) => {
    const cautions = form.cautions || [];
    const lines = cautions.map(([html]) => rich("span", "", html));
    return element("p", "caution", element("strong", "", words.care), ...lines.flatMap((line) => [" ", line]));
  };

  /* How the form is done: its own cues, or those of the video where only dose or load changes. */
  const howTo = (form, filmed, place) => {
    if (form.cues) return [element("ul", "cues", ...form.cues.map((cue) => rich("li", "", cue)))];
    const shown = form.page === filmed.page && place.querySelector(".filmed .cues");
    return shown ? [shown.cloneNode(true)] : [];
  };

  const version = (choice, filmed, place) => {
    const { form } = choice;
    const made = element("div", "for-you", heading(form), facts(form), why(choice, filmed));
    const harder = form.harder && (choice.own ? fill(words.chosen, words) : form.harder);
    const lost = [...(harder ? [harder] : []), ...(form.said || []), ...(choice.again ? [words.again] : [])];
    if (form.less) lost.push(fill(words.changes, { changes: list(form.less) }));
    if (lost.length) made.append(element("p", "lost", lost.join(" ")));
    if (form.plan) made.append(element("p", "heavier", element("strong", "", words.heavier_item), ` ${form.plan}`));
    if (form.cautions) made.append(care(form));
    if (form.note) made.append(rich("p", "item-note", form.note));
    made.append(...howTo(form, filmed, place));
    return made;
  };

  const gap = (choice) => {
    const text = choice.reasons.length ? words.gap : words.gap_limits;
    return element("p", "for-you gap", fill(text, { ...words, demands: list(Needs.words(choice.reasons)) }));
  };

  /* The form of the video steps back: it stays, folded away. */
  const foldAway = (place, name) => {
    const filmed = place.querySelector(".filmed");
    const details = element("details", "as-filmed");
    filmed.before(details);
    details.append(element("summary", "", fill(words.filmed, { name })), filmed);
  };

  const restore = (place) => {
    place.querySelector(".for-you")?.remove();
    const details = place.querySelector(".as-filmed");
    if (details) details.replaceWith(details.querySelector(".filmed"));
  };

  const adapt = (place, item, choice) => {
    restore(place);
    if (choice.filmed) return;
    foldAway(place, item.forms[0].name);
    place.prepend(choice.form ? version(choice, item.forms[0], place) : gap(choice));
  };

  /* --- one part ------------------------------------------------------------------------------ */

  const partNotes = (block, choices) => {
    const notes = [];
    if (choices.every(({ form }) => !form)) notes.push(fill(words.nothing_left, words));
    else if (!Needs.serves(block.kind, choices)) notes.push(words.other_purpose);
    if (block.paced && Needs.unhurried()) notes.push(words.paced);
    return notes;
  };

  /* The line under the name: rounds at one's own pace where the video goes by the clock. */
  const showCourse = (section, block) => {
    const how = section.querySelector(".how");
    how.dataset.filmed ??= how.textContent;
    const paced = block.paced && Needs.unhurried();
    how.textContent = paced ? block.paced.how : how.dataset.filmed;
    const note = section.querySelector(".block-note");
    note?.querySelector(".in-video")?.remove();
    if (paced) note?.prepend(element("strong", "in-video", `${words.in_video} `));
  };

  const adaptPart = (anchor, block) => {
    const items = block.items.map((one) => data.items[one]);
    const choices = Needs.choose(items);
    block.items.forEach((one, index) => adapt(document.getElementById(one), items[index], choices[index]));
    const section = document.getElementById(anchor);
    showCourse(section, block);
    section.querySelector(".part-for-you")?.remove();
    const notes = partNotes(block, choices);
    if (notes.length) section.querySelector(".how").after(element("p", "part-for-you", notes.join(" ")));
    return choices;
  };

  /* --- what to fetch ------------------------------------------------------------------------- */

  const shelf = document.querySelector(".kit-list");
  const uneven = document.querySelector(".kit-uneven");
  const asBuilt = shelf && { list: [...shelf.children], uneven: [...uneven.children] };

  const pieceOf = (id) => {
    const built = asBuilt.list.find((one) => one.dataset.kit === id);
    if (built) {
      const copy = built.cloneNode(true);
      copy.querySelectorAll(".kit-load").forEach((load) => load.remove());
      return copy;
    }
    return element("li", "for-version", element("span", "kit-why", words.fetch), " ", element("strong", "", data.kit[id].name));
  };

  /* A load that the session asks for as filmed has its drawing; another is told in words. */
  const loadOf = (id, load) => {
    const built = asBuilt.list.find((one) => one.dataset.kit === id);
    const same = built && [...built.querySelectorAll(".kit-load")].find((one) => one.textContent === load);
    return same ? same.cloneNode(true) : element("span", "kit-load", load);
  };

  /* What will do instead is told for what is fetched only. */
  const standIns = document.querySelector(".kit-instead");
  const standInsAsBuilt = standIns && [...standIns.querySelectorAll("[data-kit]")];

  const standInOf = (id) => {
    const built = standInsAsBuilt.find((row) => row.dataset.kit === id);
    const { name, or } = data.kit[id];
    return built || (or.length && element("div", "", element("dt", "", name), element("dd", "", `${words.or} ${list(or)}`)));
  };

  const showStandIns = (rows) => {
    standIns.querySelector("dl").replaceChildren(...rows.filter(Boolean));
    standIns.hidden = rows.every((row) => !row);
  };

  const fetchFor = (forms) => {
    const held = forms.flatMap((form) => form.held || []);
    const has = Needs.has();
    const ids = [...new Set(forms.flatMap((form) => form.pieces || []))].filter((id) => !has.has(id));
    const pieces = ids.map((id) => {
      const loads = new Set(held.filter(([piece]) => piece === id).map(([, load]) => load));
      const made = pieceOf(id);
      made.append(...[...loads].map((load) => loadOf(id, load)));
      return made;
    });
    const plans = new Map(forms.filter((form) => form.plan).map((form) => [form.name, form.plan]));
    const lines = [...plans].map(([name, plan]) =>
      element("p", "heavier", element("strong", "", fill(words.heavier, { name })), ` ${plan}`));
    shelf.replaceChildren(...(pieces.length ? pieces : [element("li", "", words.no_kit)]));
    if (standIns) showStandIns(ids.map(standInOf));
    uneven.replaceChildren(...lines);
  };

  const showFetch = (choices) => {
    if (!shelf) return;
    if (choices.every((choice) => choice.filmed)) {
      shelf.replaceChildren(...asBuilt.list);
      if (standIns) showStandIns(standInsAsBuilt);
      uneven.replaceChildren(...asBuilt.uneven);
    } else fetchFor(choices.map(({ form }) => form).filter(Boolean));
  };

  /* --- how long ------------------------------------------------------------------------------ */

  const lengthOf = (block, choices) => {
    const { length, turns } = (block.paced && Needs.unhurried() && block.paced) || block;
    const more = choices.map(({ form }, index) => ((form || {}).secs || 0) - (data.items[block.items[index]].forms[0].secs || 0));
    return length + turns * more.reduce((sum, one) => sum + one, 0);
  };

  const minutes = (seconds) => fill(words.minutes, { n: Math.ceil(seconds / 60) });

  /* Blocks in order, as many in a sitting as fit into the longest session (see sitegen/study/adapted.py). */
  const sittings = (blocks, lengths, longest) => {
    const shared = [];
    let room = 0;
    blocks.forEach((block, index) => {
      if (!shared.length || lengths[index] > room) {
        shared.push([]);
        room = longest;
      }
      shared[shared.length - 1].push(block.name);
      room -= lengths[index];
    });
    return shared;
  };

  const timeNotes = (choices) => {
    const longest = Needs.session();
    if (longest === Infinity) return [];
    const blocks = Object.values(data.blocks);
    const lengths = blocks.map((block, index) => lengthOf(block, choices[index]));
    const shared = sittings(blocks, lengths, longest);
    if (shared.length < 2) return [];
    const time = lengths.reduce((sum, one) => sum + one, 0);
    const head = fill(words.too_long, { limit: minutes(longest), time: minutes(time), n: shared.length });
    return [head, ...shared.map((names, index) => fill(words.sitting, { n: index + 1, blocks: list(names) }))];
  };

  /* --- advice and cautions ------------------------------------------------------------------- */

  const advice = document.querySelector(".needs-advice");

  const showAdvice = () => {
    if (!advice) return;
    const chosen = Needs.chosen();
    const lines = [...advice.querySelectorAll("[data-need]")];
    lines.forEach((line) => { line.hidden = !chosen.includes(line.dataset.need); });
    advice.hidden = lines.every((line) => line.hidden);
  };

  const cautions = [...document.querySelectorAll(".care:not(.needs-advice) [data-about]")];

  /* A caution about demands that no chosen form makes is left out; where a demand, or what a form asks, is not
     known, it stays. */
  const showCautions = (choices) => {
    const made = new Set(choices.flatMap(({ form }) => (form ? form.demands : [])));
    const untold = Needs.untold().some((demand) => made.has(demand));
    const concerns = (demand) => made.has(demand) || untold || !Needs.tells(demand);
    cautions.forEach((line) => { line.hidden = !line.dataset.about.split("|").some(concerns); });
    const care = cautions[0]?.closest(".care");
    if (care) care.hidden = [...care.querySelectorAll("li")].every((line) => line.hidden);
  };

  /* --- the way on, once something is chosen ---------------------------------------------------- */

  const go = document.querySelector(".needs-go");
  const told = go.querySelector("span");
  go.querySelector("a").addEventListener("click", () => { summary.parentElement.open = false; });

  const showChanged = (choices) => {
    const number = choices.filter((choice) => !choice.filmed).length;
    go.hidden = Needs.chosen().length === 0;
    told.textContent = number ? fill(told.dataset.changed, { n: number }) : told.dataset.unchanged;
  };

  /* --- all of it ----------------------------------------------------------------------------- */

  const note = document.querySelector(".needs-note");

  const show = () => {
    const choices = Object.entries(data.blocks).map(([anchor, block]) => adaptPart(anchor, block));
    showFetch(choices.flat());
    showAdvice();
    showCautions(choices.flat());
    const effort = document.querySelector(".effort");
    // it supposes the pace of the video
    if (effort) effort.hidden = Needs.unhurried();
    showChanged(choices.flat());
    const notes = timeNotes(choices);
    note.hidden = notes.length === 0;
    note.textContent = notes.join(" ");
    const names = Needs.names();
    summary.textContent = names.length ? fill(summary.dataset.chosen, { names: list(names) }) : summary.dataset.title;
    summary.parentElement.classList.toggle("chosen", names.length > 0);
    share.querySelector("output").textContent = "";
  };

  const address = () => Needs.link(document.querySelector("link[rel=canonical]").href);

  const copy = async (event) => {
    const output = share.querySelector("output");
    const { copied, yourself } = event.currentTarget.dataset;
    try {
      await navigator.clipboard.writeText(address());
      output.textContent = copied;
    } catch {
      // no clipboard on pages opened as files
      output.textContent = `${yourself} ${address()}`;
    }
  };

  share.querySelector("button").addEventListener("click", copy);
  Needs.onChange(show);
  show();
})();
