/* The exercises of a your turn as this viewer does them, from the page's data and the page itself.

   TurnItems.of(data, block, words) -> [item, …]: {id, name, dose, oneSide, sides, ways, seconds, bySet, load,
     amounts, setAmounts, heavy, why, how, care, cue, drawing, moment}, or {name, skip} where no version fits.
     Amounts are [number, unit, more] for each part of the load, the heavier first, setAmounts those of each set
     where sets differ; drawing is a <template> and moment {href, start, clock}, where there are any. */
(() => {
  "use strict";
  const { fill } = window.TurnWords;

  const leftOut = (item, reasons, words) => {
    const demands = Needs.words(reasons).join(", ");
    return fill(demands ? words.left_out : words.left_out_limits, { name: item.name, demands });
  };

  /* Cues of the trainer are HTML that the site's own program made. */
  const plain = (html) => {
    const made = document.createElement("template");
    made.innerHTML = html;
    return made.content.textContent;
  };

  const cueOf = (form, filmed, place) => {
    if (form.cues && form.cues.length) return plain(form.cues[0]);
    const cue = filmed && place ? place.querySelector(".filmed .cues li") : null;
    return cue ? cue.textContent : "";
  };

  const momentOf = (place) => {
    const link = place && (place.querySelector(".filmed a[data-start]")
      || place.closest(".block").querySelector(".block-kind a[data-start]"));
    const clock = link && link.textContent.match(/\d+(:\d\d)+/);
    return clock ? { href: link.getAttribute("href"), start: link.dataset.start, clock: clock[0] } : null;
  };

  const same = (one = [], other = []) => one.join() === other.join();

  /* Drawn for the load as filmed: another one would stand at another mark. */
  const vesselsOf = (anchor) => {
    const drawn = document.querySelector(`template[data-vessels="${anchor}"]`);
    return drawn ? [...drawn.content.children] : [];
  };

  const itemOf = (anchor, item, { form, filmed, reasons }, words) => {
    const inVideo = item.forms[0];
    if (!form) return { name: inVideo.name, skip: leftOut(inVideo, reasons, words) };
    const place = document.getElementById(anchor);
    const asDrawn = form.page === inVideo.page;
    const why = asDrawn ? words.adjusted : fill(words.instead, { name: inVideo.name });
    return {
      id: anchor,
      name: form.name,
      dose: form.dose || "",
      oneSide: form.one_side,
      sides: form.one_side ? 2 : 1,
      ways: Boolean(form.ways),
      seconds: form.seconds || 0,
      bySet: form.by_set,
      load: form.load || "",
      amounts: form.amounts || [],
      setAmounts: form.set_amounts || [],
      heavy: form.heavy && form.heavy.length ? form.heavy : null,
      why: filmed ? "" : why,
      how: [form.tempo && fill(words.tempo, { tempo: form.tempo }), form.effort].filter(Boolean).join(" · "),
      care: Needs.care(form, filmed && place && place.querySelector(".others")),
      cue: cueOf(form, asDrawn, place),
      drawing: asDrawn ? document.querySelector(`template[data-drawing="${anchor}"]`) : null,
      vessels: asDrawn && same(form.amounts, inVideo.amounts) ? vesselsOf(anchor) : [],
      moment: momentOf(place),
    };
  };

  const of = (data, block, words) => {
    const items = block.items.map((anchor) => data.items[anchor]);
    const choices = Needs.choose(items);
    return choices.map((choice, index) => itemOf(block.items[index], items[index], choice, words));
  };

  window.TurnItems = { of };
})();
