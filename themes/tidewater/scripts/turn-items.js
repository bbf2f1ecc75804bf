/* The exercises of a your turn as this viewer does them, from the page's data and the page itself.

   TurnItems.of(data, block, words) -> [item, …]: {id, name, dose, oneSide, sides, ways, seconds, bySet, load,
     heavy, why, how, care, cue, drawing, moment}, or {name, skip} where no version fits. Drawing is a <template>
     and moment {href, start, clock}, where there are any. */
(() => {
  "use strict";
  const { fill } = window.TurnView;

  const leftOut = (item, reasons, words) => (
    fill(words.left_out, { name: item.name, demands: Needs.words(reasons).join(", ") })
  );

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

  const itemOf = (data, anchor, words) => {
    const item = data.items[anchor];
    const { form, reasons } = Needs.choose(item);
    const inVideo = item.forms[0];
    if (!form) return { name: inVideo.name, skip: leftOut(inVideo, reasons, words) };
    const filmed = form === inVideo;
    const held = form.without_kit ? null : data.held[anchor];
    const place = document.getElementById(anchor);
    return {
      id: anchor,
      name: form.name,
      dose: form.dose,
      oneSide: form.one_side,
      sides: form.one_side ? 2 : 1,
      ways: form.ways,
      seconds: form.seconds,
      bySet: form.by_set,
      load: held ? held.load : "",
      heavy: held && held.heavy.length ? held.heavy : null,
      why: filmed ? "" : fill(words.instead, { name: inVideo.name }),
      cue: cueOf(form, filmed, place),
      drawing: filmed ? document.querySelector(`template[data-drawing="${anchor}"]`) : null,
      moment: momentOf(place),
    };
  };

  const of = (data, block, words) => block.items.map((anchor) => itemOf(data, anchor, words));

  window.TurnItems = { of };
})();
