/* Every item shows the version that fits the viewer's needs first, and says what changed and why. */
(() => {
  "use strict";
  const data = JSON.parse(document.getElementById("episode-data").textContent);
  const texts = document.getElementById("adapted-words");
  const share = document.querySelector(".needs-share");
  if (!share) return; // a series without needs
  const words = JSON.parse(texts.textContent);
  const root = texts.dataset.root;
  const summary = document.querySelector(".needs > summary");

  const fill = (text, values) => text.replace(/\{(\w+)\}/g, (_, name) => values[name]);
  const list = (things) => things.join(words.between);

  const element = (tag, className, text) => {
    const made = document.createElement(tag);
    if (className) made.className = className;
    made.textContent = text || "";
    return made;
  };

  /* Notes and cues are HTML that the site's own program made of the trainer's Markdown. */
  const rich = (tag, className, html) => {
    const made = element(tag, className);
    made.innerHTML = html;
    return made;
  };

  const heading = (form) => {
    const made = element("h4");
    if (form.change) made.append(element("span", "change", form.change), " ");
    const link = element("a", "", form.name);
    link.href = root + form.page;
    made.append(link, " ", element("span", "dose", form.dose));
    return made;
  };

  const why = (choice, filmed) => {
    const parts = [fill(words.instead, { name: filmed.name })];
    const spared = choice.reasons.filter((demand) => !choice.form.demands.includes(demand));
    if (spared.length) parts.push(fill(words.spares, { demands: list(Needs.words(spared)) }));
    if (choice.own) parts.push(fill(words.own_choice, words));
    if (choice.form.kit) parts.push(fill(words.kit, { kit: list(choice.form.kit) }));
    return element("p", "why", parts.join(" "));
  };

  const version = (choice, filmed) => {
    const made = element("div", "for-you");
    made.append(heading(choice.form), why(choice, filmed));
    if (choice.form.note) made.append(rich("p", "item-note", choice.form.note));
    if (choice.form.cues) {
      const cues = element("ul", "cues");
      cues.append(...choice.form.cues.map((cue) => rich("li", "", cue)));
      made.append(cues);
    }
    return made;
  };

  const gap = (choice) => {
    const text = fill(words.gap, { ...words, demands: list(Needs.words(choice.reasons)) });
    return element("p", "for-you gap", text);
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

  const adapt = (place, item) => {
    restore(place);
    const choice = Needs.choose(item);
    const filmed = item.forms[0];
    if (choice.form === filmed) return;
    foldAway(place, filmed.name);
    place.prepend(choice.form ? version(choice, filmed) : gap(choice));
  };

  const show = () => {
    for (const [anchor, item] of Object.entries(data.items)) adapt(document.getElementById(anchor), item);
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
      output.textContent = `${yourself} ${address()}`; // no clipboard on pages opened as files
    }
  };

  share.querySelector("button").addEventListener("click", copy);
  Needs.onChange(show);
  show();
})();
