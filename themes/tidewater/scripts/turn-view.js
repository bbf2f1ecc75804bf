/* What the panel shows of a your turn. TurnView.create(panel, words) -> view
     view.list(turn, toggle)  the exercises with their marks, made once; gives their rows
     view.show(turn, carry)   everything that changes with the step; carry: the words of carrying on
     view.clock(run)          the countdown alone; true where it takes another room than before
     view.stops(on)           when to stop, in place of the exercise
     view.sentence(turn)      the step in words, for a screen reader
     view.spoken(turn)        the same in few words, to be said aloud
     view.parts               the panel's elements by their data-part
   turn is {block, items, steps, run}. */
(() => {
  "use strict";
  const TEXTS = ["count", "next", "name", "side", "dose", "weights", "how", "swap", "why", "care", "cue"];
  const { fill } = window.TurnWords;
  const element = (tag, className, text) => {
    const made = document.createElement(tag);
    made.className = className;
    made.textContent = text;
    return made;
  };

  const create = (panel, words) => {
    const told = window.TurnWords.create(words);
    const parts = {};
    for (const part of panel.querySelectorAll("[data-part]")) parts[part.dataset.part] = part;
    let marks = new Map();
    let stairs = new Map();

    /* Showing it */

    const put = (name, text) => {
      parts[name].textContent = text || "";
      parts[name].hidden = !text;
    };

    /* Hyphenated words are kept together; turn-fit.js lets one go that is wider than the screen. */
    const whole = (text) => text.split(/(\S*-\S*)/).map((piece) => (piece.includes("-") ? element("span", "whole", piece) : piece));

    const numberOf = ({ amount: [number], times }) => element("span", "amount", times ? `${times} × ${number}` : number);

    const unitOf = ({ amount: [, unit, more] }) => {
      const made = element("span", "panel-unit", unit);
      if (more) made.append(" ", element("small", "", more));
      return made;
    };

    const showLoads = (loads = []) => {
      parts.load.replaceChildren(...loads.map((load) => {
        const one = element("span", "panel-one-load", "");
        if (load.hand) one.append(element("span", "panel-hand", load.hand), " ");
        one.append(...(load.vessels || []).map((vessel) => vessel.cloneNode(true)), numberOf(load), " ", unitOf(load), " ");
        return one;
      }));
      parts.load.hidden = !loads.length;
    };

    const mainOf = (turn, carry) => {
      const { run } = turn;
      const step = run.step();
      if (run.away()) return told.goOnWith(turn);
      if (!step || step.why === "after") return carry;
      if (run.ready() && run.running()) return words.start_now;
      if (run.timed() && !run.running()) return run.left() < step.seconds && !run.ready() ? words.go_on : words.start;
      return { rest: words.go_now, minute: words.pause, count: words.add_round, work: words.done }[step.kind];
    };

    /* Whether that changed the room it takes. */
    const clock = (run) => {
      const shown = run.timed() && !run.away();
      const seconds = Math.ceil(run.left());
      const minutes = Math.floor(seconds / 60);
      const before = [parts.clock.dataset.long, parts.why.hidden].join();
      put("clock", shown ? (minutes ? `${minutes}:${String(seconds % 60).padStart(2, "0")}` : String(seconds)) : "");
      parts.clock.dataset.long = minutes ? "yes" : "no";
      const step = run.step();
      if (shown && step && step.ready && run.left() <= step.ready) put("why", words.ready);
      return before !== [parts.clock.dataset.long, parts.why.hidden].join();
    };

    const stops = (on) => {
      if (!parts.stops) return;
      parts.stops.hidden = !on;
      parts.body.hidden = on;
      parts.foot.hidden = on;
      parts.stops.scrollTop = 0;
      if (on) parts.unstop.focus({ preventScroll: true });
    };

    const helpOf = (item) => {
      parts.drawing.replaceChildren(...(item && item.drawing ? [item.drawing.content.cloneNode(true)] : []));
      parts.moment.hidden = !(item && item.moment);
      if (parts.moment.hidden) return;
      parts.moment.href = item.moment.href;
      parts.moment.dataset.start = item.moment.start;
      parts.moment.textContent = fill(words.moment, { clock: item.moment.clock });
    };

    /* A drawing that shows one side at work is turned about for the other one, its words with it. */
    const turnAbout = (item, side) => {
      const drawn = item && item.drawing ? item.drawing.dataset.side : "";
      const other = Boolean(drawn && side && drawn !== side && !item.ways);
      parts.drawing.classList.toggle("is-mirrored", other);
      const told = parts.drawing.querySelector("[aria-label]");
      if (!told) return;
      told.dataset.asDrawn = told.dataset.asDrawn || told.getAttribute("aria-label");
      told.setAttribute("aria-label", other ? fill(words.mirrored, { words: told.dataset.asDrawn }) : told.dataset.asDrawn);
    };

    let shownItem = null;
    const help = ({ items, run, steps }) => {
      const step = run.step();
      const item = step && !run.away() && !(items[step.item] || {}).skip ? items[step.item] : null;
      if (item !== shownItem) helpOf(item);
      shownItem = item;
      const following = step && step.kind === "rest" ? steps[run.at() + 1] : null;
      turnAbout(item, following ? following.side : run.side());
    };

    const buttons = (turn, carry) => {
      const { run } = turn;
      const step = run.step();
      const kind = step ? step.kind : "end";
      parts.main.textContent = mainOf(turn, carry);
      parts.pause.textContent = words.pause;
      parts.pause.hidden = kind === "minute" || !run.running() || run.ready();
      parts.skip.hidden = !step || kind === "rest" || Boolean(run.away());
      parts.end.hidden = !run.away();
      parts.back.disabled = run.at() === 0;
      parts.carry.hidden = !step || step.why === "after" || Boolean(run.away());
      parts.carry.textContent = carry;
    };

    const show = (turn, carry) => {
      const { block, run, steps } = turn;
      const text = told.textOf(turn);
      put("block", block.name);
      for (const name of TEXTS) put(name, text[name]);
      parts.name.replaceChildren(...whole(text.name || ""));
      showLoads(text.loads);
      const step = run.step();
      panel.dataset.why = (step && !run.away() && step.why) || "";
      panel.dataset.kind = run.away() ? "away" : step ? step.kind : "end";
      buttons(turn, carry);
      help(turn);
      clock(run);
      for (const [id, mark] of marks) {
        mark.setAttribute("aria-pressed", String(run.done(id)));
        stairs.get(id).className = run.done(id) ? "is-done" : "";
        if (step && step.id === id) mark.setAttribute("aria-current", "step");
        else mark.removeAttribute("aria-current");
        if (step && step.id === id) stairs.get(id).className = "is-now";
      }
      const all = steps.filter((one) => one.id);
      const n = all.filter((one) => run.done(one.id)).length;
      put("progress", all.length > 1 ? fill(words.progress, { n, of: all.length }) : "");
    };

    /* The list */

    const markOf = (step, item, toggle) => {
      const text = `${step.set}${step.side ? words[`${item.ways ? "way_" : ""}${step.side}_mark`] : ""}`;
      const mark = element("button", "mark", text);
      const label = step.side ? words.mark_side : words.mark;
      mark.type = "button";
      mark.setAttribute("aria-label", fill(label, { name: item.name, n: step.set, side: told.sideOf(item, step.side) }));
      mark.addEventListener("click", () => toggle(step.id));
      marks.set(step.id, mark);
      return mark;
    };

    const rowOf = (item, index, steps, toggle) => {
      const row = element("div", "panel-item", "");
      if (item.skip) {
        row.append(element("p", "quiet", item.skip));
        return row;
      }
      const title = element("p", "panel-item-name", item.name);
      title.append(" ", element("span", "panel-item-dose", item.dose));
      const mine = steps.filter((step) => step.item === index && step.id);
      const row_marks = element("p", "marks", "");
      row_marks.append(...mine.map((step) => markOf(step, item, toggle)));
      row.append(title, ...(mine.length ? [row_marks] : []));
      return row;
    };

    /* A stair for each set, each a little higher than the one before. */
    const line = (steps) => {
      const sets = steps.filter((step) => step.id);
      stairs = new Map(sets.map((step) => [step.id, document.createElement("i")]));
      [...stairs.values()].forEach((stair, n) => {
        stair.style.height = `${Math.round(30 + (70 * (n + 1)) / sets.length)}%`;
      });
      parts.stairs.replaceChildren(...stairs.values());
      parts.stairs.hidden = sets.length < 2;
    };

    const list = ({ items, steps }, toggle) => {
      marks = new Map();
      shownItem = null;
      parts.drawing.replaceChildren();
      line(steps);
      parts.list.replaceChildren(...items.map((item, index) => rowOf(item, index, steps, toggle)));
      return [...parts.list.children];
    };

    return { list, show, clock, stops, sentence: told.sentence, spoken: told.spoken, parts };
  };

  window.TurnView = { create };
})();
