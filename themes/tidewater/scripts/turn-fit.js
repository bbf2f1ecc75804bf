/* The largest type that fits. TurnFit.of(panel, parts) -> fit(fresh): to be called when what is shown changed;
   fresh where it is another step, which is then shown from its top.

   --big is the size of name, dose, side, set and load; the style sheet's (--least) can be read at two metres.
   What is to be done now is wholly in view, whatever that takes: --big falls below --least where it must. Where there
   is room, drawing, caution and cue follow in that order, then type and drawing grow into what is left; a drawing
   that finds no room below stands beside short lines. The first part that is not wholly in view begins
   below the edge, so that nothing is sliced; "More" leads there, and says so where the caution is among it. Where the buttons would take too much of the
   height, they scroll too. */
(() => {
  "use strict";
  const MOST = { rest: 1.3 }; // times the smallest, by kind of step: the clock of a rest shares the line with its word
  const MOST_ELSE = 2.2; // larger words would break
  const FLOOR = 0.28; // of the smallest: what is left on a screen enlarged four times
  const CLOCKS = [2.1, 1.45, 1]; // times the type: a large clock gives way before the words do
  const TRIES = 4;
  const FOOT = 0.34; // of the height: buttons that take more leave too little for the exercise
  const GAP = 14; // px around a drawing
  const DRAWING = [64, 420]; // px: a figure that can be told, and one that says no more for being larger
  const GOOD = 0.18; // of the height: a drawing that is told at some distance
  const SHOWN = (part) => part.offsetParent !== null && part.offsetHeight > 0;

  const of = (panel, parts) => {
    const { body, now, list, foot, more } = parts;
    // Only on what uses them: whatever inherits a property is styled anew with each try.
    const USERS = { "--big": ["now", "care", "cue", "list"], "--times": ["now"], "--drawing": ["drawing"], "--way": ["drawing"] };
    const set = (name, value) => USERS[name].forEach((user) => parts[user].style.setProperty(name, value));
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
      if (tries(high)) return high;
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

    /* What has to be seen: the largest clock with which it fits at the smallest size, else smaller type. Times of
       the smallest size at which it fits. */
    const must = (sized) => {
      for (const clock of parts.clock.hidden ? CLOCKS.slice(0, 1) : CLOCKS) {
        set("--times", clock);
        if (sized(1)) return 1;
      }
      return sized(FLOOR) ? largest(FLOOR, 1, sized) : FLOOR;
    };

    /* Lines of what is to be done in the last column, with how far their words go to the right. */
    const lines = () => {
      const found = [];
      for (const part of [...now.children].filter(SHOWN)) {
        const { left, top, bottom: end, right } = part.getBoundingClientRect();
        const words = document.createRange();
        words.selectNodeContents(part);
        const inner = part === parts.load ? [...part.children] : [part === parts.clock ? part : words];
        const reach = Math.max(...inner.map((one) => one.getBoundingClientRect().right));
        found.push({ left, top, end, reach: Math.min(reach, right) });
      }
      found.sort((one, other) => one.top - other.top);
      const edge = Math.max(...found.map(({ left, end, top }) => (end > top ? left : 0)));
      const column = getComputedStyle(now).columnCount === "auto" ? found : found.filter(({ left }) => left >= edge - 1);
      return column.reduce((rows, line) => {
        const last = rows[rows.length - 1];
        if (last && line.top < (last.top + last.end) / 2) {
          last.reach = Math.max(last.reach, line.reach);
          last.end = Math.max(last.end, line.end);
        } else rows.push({ ...line });
        return rows;
      }, []);
    };

    /* How tall figures of these shapes can be in a place, beside one another or one above the other. */
    const tallest = (shapes, wide, high) => {
      const sum = shapes.reduce((all, shape) => all + shape, 0);
      const row = Math.min(high, (wide - GAP * (shapes.length - 1)) / sum);
      const column = Math.min((high - GAP * (shapes.length - 1)) / shapes.length, wide / Math.max(...shapes));
      return row >= column ? { size: row, way: "row" } : { size: column, way: "column" };
    };

    /* The drawing in the largest place beside short lines; false where none is large enough. */
    const beside = () => {
      const { drawing } = parts;
      drawing.classList.add("panel-beside");
      const shapes = [...drawing.querySelectorAll("svg.drawing")].map(({ viewBox: { baseVal: box } }) => box.width / box.height);
      const rows = lines();
      const { right } = now.getBoundingClientRect();
      const room = body.getBoundingClientRect();
      let best = { size: 0 };
      rows.forEach((first, from) => rows.slice(from).forEach((last, further) => {
        const reach = Math.max(...rows.slice(from, from + further + 1).map((row) => row.reach));
        const place = tallest(shapes, right - reach - GAP, last.end - first.top);
        if (place.size > best.size) best = { ...place, top: first.top - room.top + body.scrollTop };
      }));
      if (!shapes.length || best.size < DRAWING[0]) {
        drawing.classList.remove("panel-beside");
        return false;
      }
      set("--drawing", `${Math.floor(Math.min(best.size, DRAWING[1]))}px`);
      set("--way", best.way);
      drawing.style.top = `${best.top}px`;
      return true;
    };

    /* What follows as far as it fits; then a drawing of a good size, larger type, and a drawing that fills the rest. */
    const grow = (least, times, first, following) => {
      const { drawing } = parts;
      const shown = [...first];
      const aside = following.includes(drawing) && !fits([...first, drawing]) && beside();
      for (const part of following) {
        if (aside && part === drawing) continue;
        if (!fits([...shown, part])) break;
        shown.push(part);
      }
      const drawn = (height) => {
        set("--drawing", `${height}px`);
        return fits(shown);
      };
      const has = shown.includes(drawing);
      const { sets } = parts;
      const good = Math.max(DRAWING[0], GOOD * panel.clientHeight);
      if (has) largest(DRAWING[0], good, drawn);
      if (shown.length > following.length && fits([...shown, sets])) shown.push(sets);
      const sized = type(least, shown);
      if (times === 1) largest(1, MOST[panel.dataset.kind] || MOST_ELSE, (further) => sized(further) && (!aside || beside()));
      if (has) largest(parseFloat(drawing.style.getPropertyValue("--drawing")), DRAWING[1], drawn);
      if (aside) beside();
    };

    /* The first part of each column that is not wholly in view begins below the edge. */
    const unslice = (all) => {
      const edge = body.getBoundingClientRect().bottom;
      const columns = new Set();
      for (const part of all) {
        const { left, top, bottom: end } = part.getBoundingClientRect();
        if (columns.has(Math.round(left)) || part.classList.contains("panel-beside") || end <= edge) continue;
        columns.add(Math.round(left));
        const own = parseFloat(getComputedStyle(part).marginTop);
        if (top < edge) part.style.marginTop = `${edge - top + own}px`;
      }
      return columns.size > 0;
    };

    /* What the button says: nobody shall take a screen without the caution for a form without one. */
    const label = () => {
      const { care } = parts;
      const hidden = SHOWN(care) && care.getBoundingClientRect().bottom > body.getBoundingClientRect().bottom + 1;
      more.textContent = body.scrollTop > 0 ? more.dataset.up : hidden ? more.dataset.care : more.dataset.down;
    };

    const choose = () => {
      for (const [name, users] of Object.entries(USERS)) users.forEach((user) => parts[user].style.removeProperty(name));
      panel.classList.remove("panel-flows", "panel-splits");
      const { drawing, care, cue, moment, sets, settings, last } = parts;
      const below = [drawing, care, cue, moment, sets, settings, last];
      for (const part of below) part.style.removeProperty("margin-top");
      drawing.classList.remove("panel-beside");
      const least = parseFloat(getComputedStyle(now).fontSize);
      set("--drawing", `${DRAWING[0]}px`);
      panel.classList.toggle("panel-flows", foot.offsetHeight > FOOT * panel.clientHeight);
      const rounds = panel.dataset.kind === "count";
      const first = rounds ? [now, list] : [now];
      let times = must(type(least, first));
      if (!fits(first)) {
        panel.classList.add("panel-splits");
        times = must(type(least, first));
      }
      if (!flows() && fits(first)) grow(least, times, first, rounds ? [] : [drawing, care, cue, moment].filter(SHOWN));
      more.hidden = flows() || !unslice((rounds ? [settings, last] : below).filter(SHOWN));
    };

    const fit = (fresh) => {
      if (body.hidden) return;
      const scrolled = [panel, body].map((part) => [part, fresh ? 0 : part.scrollTop]);
      body.scrollTop = 0; // what fits is measured from the top
      panel.scrollTop = 0;
      choose();
      for (const [part, top] of scrolled) part.scrollTop = top;
      label();
    };

    more.addEventListener("click", () => { body.scrollTop = body.scrollTop ? 0 : body.clientHeight; });
    body.addEventListener("scroll", label);
    return fit;
  };

  window.TurnFit = { of };
})();
