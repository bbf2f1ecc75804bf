/* The largest type that fits. TurnFit.of(panel, parts) -> fit(fresh): to be called when what is shown changed;
   fresh where it is another step, which is then shown from its top.

   --big is the size of name, dose, side, set and load; the smallest is that of the style sheet (--least), which
   can be read at two metres. It grows while what is to be done now, and the drawing if there is room for it too,
   still fit; below it the panel scrolls. Where the buttons would take too much of the height, they scroll too. */
(() => {
  "use strict";
  const MOST = { rest: 1.3 }; // times the smallest, by kind of step: the clock of a rest shares the line with its word
  const MOST_ELSE = 2.2; // larger words would break
  const TRIES = 6;
  const FOOT = 0.34; // of the height: buttons that take more leave too little for the exercise

  const of = (panel, { body, now, help, list, foot }) => {
    const fits = (parts) => {
      const bottom = Math.max(...parts.map((part) => part.getBoundingClientRect().bottom));
      const room = body.getBoundingClientRect();
      return bottom <= room.bottom + 1 && [now, list].every((part) => part.scrollWidth <= part.clientWidth + 1);
    };

    const grow = (least, parts) => {
      const set = (times) => panel.style.setProperty("--big", `${least * times}px`);
      set(1);
      if (!fits(parts)) return false;
      let low = 1;
      let high = MOST[panel.dataset.kind] || MOST_ELSE;
      for (let n = 0; n < TRIES; n++) {
        const middle = (low + high) / 2;
        set(middle);
        if (fits(parts)) low = middle;
        else high = middle;
      }
      set(low);
      return true;
    };

    const choose = () => {
      panel.style.removeProperty("--big");
      panel.classList.remove("panel-flows");
      const least = parseFloat(getComputedStyle(now).fontSize);
      panel.classList.toggle("panel-flows", foot.offsetHeight > FOOT * panel.clientHeight);
      if (panel.classList.contains("panel-flows")) return;
      if (panel.dataset.kind === "count") {
        if (!grow(least, [now, list])) grow(least, [now]);
        return;
      }
      const beside = help.getBoundingClientRect().left >= now.getBoundingClientRect().right;
      if (!grow(least, beside ? [now] : [now, help])) grow(least, [now]);
    };

    return (fresh) => {
      const scrolled = [panel, body].map((part) => [part, fresh ? 0 : part.scrollTop]);
      body.scrollTop = 0; // what fits is measured from the top
      choose();
      for (const [part, top] of scrolled) part.scrollTop = top;
    };
  };

  window.TurnFit = { of };
})();
