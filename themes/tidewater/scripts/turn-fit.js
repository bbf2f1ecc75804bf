/* The largest type that fits. TurnFit.of(panel, parts) -> fit(fresh): to be called when what is shown changed;
   fresh where it is another step, which is then shown from its top.

   --big is the size of name, dose, side, set and load; the style sheet's (--least) can be read at two metres.
   What is to be done now is wholly in view, whatever that takes: --big falls below --least where it must. Where there
   is room, drawing, caution and cue follow in that order, then type and drawing grow into what is left. The first part
   that is not wholly in view begins below the edge, so that nothing is sliced; "More" leads there. Where
   the buttons would take too much of the height, they scroll too. */
(() => {
  "use strict";
  const MOST = { rest: 1.3 }; // times the smallest, by kind of step: the clock of a rest shares the line with its word
  const MOST_ELSE = 2.2; // larger words would break
  const FLOOR = 0.36; // of the smallest: what is left on a screen enlarged four times
  const CLOCKS = [2.1, 1.45, 1]; // times the type: a large clock gives way before the words do
  const TRIES = 6;
  const FOOT = 0.34; // of the height: buttons that take more leave too little for the exercise
  const DRAWING = [76, 420]; // px: a figure that can be told, and one that says no more for being larger
  const SHOWN = (part) => part.offsetParent !== null && part.offsetHeight > 0;

  const of = (panel, parts) => {
    const { body, now, list, foot, more } = parts;
    const set = (name, value) => panel.style.setProperty(name, value);
    const flows = () => panel.classList.contains("panel-flows");
    const bottom = () => (flows() ? panel.getBoundingClientRect().bottom : body.getBoundingClientRect().bottom - 3);
    const split = () => panel.classList.contains("panel-splits");

    const fits = (shown) => {
      const most = bottom() + 1;
      const wide = [now, list].some((part) => part.scrollWidth > part.clientWidth + 1);
      const broken = !split() && [...now.querySelectorAll(".whole")].some((word) => word.offsetWidth > now.clientWidth + 1);
      return !wide && !broken && shown.every((part) => part.getBoundingClientRect().bottom <= most);
    };

    /* The largest value between low, which fits, and high. */
    const largest = (low, high, tries) => {
      let [most, least] = [high, low];
      for (let n = 0; n < TRIES; n++) {
        const middle = (least + most) / 2;
        if (tries(middle)) least = middle;
        else most = middle;
      }
      tries(least);
      return least;
    };

    const type = (least, shown) => (times) => {
      set("--big", `${least * times}px`);
      return fits(shown);
    };

    /* What has to be seen: the largest clock with which it fits at the smallest size, else smaller type. */
    const must = (least, shown) => {
      const sized = type(least, shown);
      for (const clock of parts.clock.hidden ? CLOCKS.slice(0, 1) : CLOCKS) {
        set("--times", clock);
        if (sized(1)) return true;
      }
      if (sized(FLOOR)) largest(FLOOR, 1, sized);
      return false;
    };

    /* What follows as far as it fits, then larger type, then a larger drawing. */
    const grow = (least, first, following) => {
      const shown = [...first];
      for (const part of following) {
        if (!fits([...shown, part])) break;
        shown.push(part);
      }
      largest(1, MOST[panel.dataset.kind] || MOST_ELSE, type(least, shown));
      if (shown.includes(parts.drawing)) {
        largest(DRAWING[0], DRAWING[1], (height) => {
          set("--drawing", `${height}px`);
          return fits(shown);
        });
      }
    };

    /* The first part of each column that is not wholly in view begins below the edge. */
    const unslice = (all) => {
      const edge = bottom();
      const columns = new Set();
      for (const part of all) {
        const { left, top, bottom: end } = part.getBoundingClientRect();
        if (columns.has(Math.round(left)) || end <= edge + 1) continue;
        columns.add(Math.round(left));
        if (top < edge) part.style.marginTop = `${edge - top + 6}px`;
      }
      return columns.size > 0;
    };

    const choose = () => {
      for (const name of ["--big", "--times", "--drawing"]) panel.style.removeProperty(name);
      panel.classList.remove("panel-flows", "panel-splits");
      const { drawing, care, cue, moment, sets, settings, last } = parts;
      const below = [drawing, care, cue, moment, sets, settings, last];
      for (const part of below) part.style.removeProperty("margin-top");
      const least = parseFloat(getComputedStyle(now).fontSize);
      set("--drawing", `${DRAWING[0]}px`);
      panel.classList.toggle("panel-flows", foot.offsetHeight > FOOT * panel.clientHeight);
      const rounds = panel.dataset.kind === "count";
      const first = rounds ? [now, list] : [now];
      let whole = must(least, first);
      if (!fits(first)) {
        panel.classList.add("panel-splits");
        whole = must(least, first);
      }
      if (whole && !flows()) grow(least, first, rounds ? [] : [drawing, care, cue, moment, sets].filter(SHOWN));
      more.hidden = flows() || !unslice((rounds ? [settings, last] : below).filter(SHOWN));
      more.textContent = more.dataset.down;
    };

    const fit = (fresh) => {
      if (body.hidden) return;
      const scrolled = [panel, body].map((part) => [part, fresh ? 0 : part.scrollTop]);
      body.scrollTop = 0; // what fits is measured from the top
      panel.scrollTop = 0;
      choose();
      for (const [part, top] of scrolled) part.scrollTop = top;
    };

    more.addEventListener("click", () => { body.scrollTop = body.scrollTop ? 0 : body.clientHeight; });
    body.addEventListener("scroll", () => {
      more.textContent = body.scrollTop > 0 ? more.dataset.up : more.dataset.down;
    });
    return fit;
  };

  window.TurnFit = { of };
})();
