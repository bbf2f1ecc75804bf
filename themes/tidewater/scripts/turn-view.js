/* What the panel shows of a your turn. TurnView.create(panel, words) -> view
     view.list(turn, toggle)  the exercises with their marks, made once; gives their rows
     view.show(turn, carry)   everything that changes with the step; carry: the words of carrying on
     view.clock(run)          the countdown alone
     view.sentence(turn)      the step in words, for a screen reader
     view.spoken(turn)        the same in few words, to be said aloud
     view.parts               the panel's elements by their data-part
   turn is {block, items, steps, run}. */
(() => {
  "use strict";
  const COUNTED_IN_ROUNDS = ["circuit", "intervals"];
  const TEXTS = ["count", "next", "name", "side", "dose", "weights", "how", "heavy", "why", "care", "cue"];
  const fill = (text, values) => text.replace(/\{(\w+)\}/g, (_, name) => values[name]);
  const plural = (forms, n) => {
    const [one, many] = forms.split("|");
    return fill(n === 1 ? one : many, { n });
  };
  const element = (tag, className, text) => {
    const made = document.createElement(tag);
    made.className = className;
    made.textContent = text;
    return made;
  };

  const create = (panel, words) => {
    const parts = {};
    for (const part of panel.querySelectorAll("[data-part]")) parts[part.dataset.part] = part;
    let marks = new Map();
    let stairs = new Map();

    /* Words of a step */

    const countOf = (block, step) => {
      if (step.kind === "minute") return fill(words.minute, { n: step.set, of: step.of });
      const inRounds = COUNTED_IN_ROUNDS.includes(block.format);
      if (step.maybe) return fill(inRounds ? words.round_maybe : words.set_maybe, { n: step.set });
      return fill(inRounds ? words.round : words.set, { n: step.set, of: step.of });
    };

    const sideOf = (item, side) => (side ? words[`${item.ways ? "way_" : ""}${side}`] : "");

    const doseOf = (item, { set, side }) => {
      const [dose, oneSide] = window.TurnSteps.ofSet(item, set) || [item.dose, item.oneSide];
      return side ? oneSide : dose;
    };

    const heavyOf = (heavy) => {
      if (!heavy) return "";
      const hand = words[`hand_${heavy.hand}`];
      return fill(heavy.words ? words.heavy_swap : words.heavy, { hand, amount: heavy.words });
    };

    /* The load in a few large words, heavier first: ["5 l"], ["2 × 3 l"], or one for each hand. */
    const loadOf = (item, heavy) => {
      const { amounts = [] } = item;
      if (amounts.length < 2 || (!heavy && amounts[0] === amounts[1])) {
        return amounts.length < 2 ? amounts.map((amount) => ({ amount })) : [{ amount: `2 × ${amounts[0]}` }];
      }
      if (!heavy) return amounts.map((amount) => ({ amount }));
      const [more, less] = amounts;
      const inLeft = heavy.hand === "left";
      return [
        { hand: words.hand_left, amount: inLeft ? more : less },
        { hand: words.hand_right, amount: inLeft ? less : more },
      ];
    };

    const lengthOf = (seconds) => (seconds < 90
      ? fill(words.length_seconds, { n: seconds })
      : fill(words.length_minutes, { n: Math.round(seconds / 60) }));

    const placeOf = (block, items, step) => {
      const item = items[step.item];
      const count = countOf(block, step);
      return item ? fill(words.place, { count, name: item.name }) : block.name;
    };

    const awayText = ({ block, items, run, steps }) => {
      const last = [...steps].reverse().find((step) => step.id && run.done(step.id));
      const told = last && last.kind !== "count" ? fill(words.away_last, { last: placeOf(block, items, last) }) : "";
      return {
        count: words.paused,
        name: fill(words.away, { length: lengthOf(run.away()) }),
        why: [told, words.away_nothing].filter(Boolean).join(" "),
      };
    };

    const restText = ({ block, items, run, steps }) => {
      const step = run.step();
      if (step.why === "after") return { count: words.rest, next: words.after };
      const why = { exercise: words.change, set: words.rest, side: words.change_side }[step.why];
      const following = steps[run.at() + 1];
      const next = items[step.item];
      if (!next || !following) return { count: why };
      const ready = step.ready && run.left() <= step.ready ? words.ready : "";
      const side = following.side;
      if (step.why === "side") return { count: why, name: fill(words.now_side, { side: sideOf(next, side) }), why: ready };
      const dose = doseOf(next, following);
      return {
        count: why,
        next: fill(words.next, { count: countOf(block, following) }),
        name: next.name,
        side: sideOf(next, side),
        dose,
        loads: loadOf(next, following.heavy),
        weights: next.load,
        heavy: heavyOf(following.heavy),
        swaps: Boolean(following.heavy && following.heavy.words),
        why: ready,
      };
    };

    /* What is shown, by part */
    const textOf = (turn) => {
      const { block, items, run } = turn;
      const step = run.step();
      if (run.away()) return awayText(turn);
      if (!step) return { count: words.finished, name: fill(words.finished_block, { name: block.name }) };
      if (step.kind === "rest") return restText(turn);
      const ready = run.ready() ? words.get_ready : "";
      if (step.kind === "count") return { count: ready || plural(words.rounds, run.rounds()) };
      const item = items[step.item];
      const count = ready || (run.resting() ? words.rest_minute : countOf(block, step));
      if (item.skip) return { count: countOf(block, step), name: words.rest_minute, why: item.skip };
      return {
        count,
        name: item.name,
        side: sideOf(item, run.side()),
        dose: doseOf(item, { set: step.set, side: run.side() }),
        loads: loadOf(item, step.heavy),
        weights: item.load,
        how: item.how,
        heavy: heavyOf(step.heavy),
        swaps: Boolean(step.heavy && step.heavy.words),
        why: item.why,
        care: item.care ? fill(words.care, { care: item.care }) : "",
        cue: item.cue,
      };
    };

    /* Showing it */

    const put = (name, text) => {
      parts[name].textContent = text || "";
      parts[name].hidden = !text;
    };

    const showLoads = (loads = []) => {
      parts.load.replaceChildren(...loads.map(({ hand, amount }) => {
        const one = element("span", "panel-one-load", "");
        if (hand) one.append(element("span", "panel-hand", hand), " ");
        one.append(element("span", "amount", amount), " ");
        return one;
      }));
      parts.load.hidden = !loads.length;
    };

    const mainOf = (turn, carry) => {
      const { run } = turn;
      const step = run.step();
      if (run.away()) return goOnWith(turn);
      if (!step || step.why === "after") return carry;
      if (run.ready() && run.running()) return words.start_now;
      if (run.timed() && !run.running()) return run.left() < step.seconds && !run.ready() ? words.go_on : words.start;
      return { rest: words.go_now, minute: words.pause, count: words.add_round, work: words.done }[step.kind];
    };

    /* "Go on with set 2" */
    const goOnWith = ({ block, run, steps }) => {
      const step = run.step();
      const next = step.kind === "rest" ? steps[run.at() + 1] : step;
      return next && next.set ? fill(words.go_on_with, { count: countOf(block, next) }) : words.go_on;
    };

    const clock = (run) => {
      const shown = run.timed() && !run.away();
      const seconds = Math.ceil(run.left());
      const minutes = Math.floor(seconds / 60);
      put("clock", shown ? (minutes ? `${minutes}:${String(seconds % 60).padStart(2, "0")}` : String(seconds)) : "");
      parts.clock.dataset.long = minutes ? "yes" : "no";
      const step = run.step();
      if (shown && step && step.ready && run.left() <= step.ready) put("why", words.ready);
    };

    const helpOf = (item) => {
      parts.drawing.replaceChildren(...(item && item.drawing ? [item.drawing.content.cloneNode(true)] : []));
      parts.moment.hidden = !(item && item.moment);
      if (parts.moment.hidden) return;
      parts.moment.href = item.moment.href;
      parts.moment.dataset.start = item.moment.start;
      parts.moment.textContent = fill(words.moment, { clock: item.moment.clock });
    };

    let shownItem = null;
    const help = ({ items, run }) => {
      const step = run.step();
      const item = step && !run.away() && !(items[step.item] || {}).skip ? items[step.item] : null;
      if (item !== shownItem) helpOf(item);
      shownItem = item;
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
      const text = textOf(turn);
      put("block", block.name);
      for (const name of TEXTS) put(name, text[name]);
      showLoads(text.loads);
      if (text.loads && text.loads.some((load) => load.hand) && !text.swaps) parts.heavy.hidden = true; // the hands say it
      const step = run.step();
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
      mark.setAttribute("aria-label", fill(label, { name: item.name, n: step.set, side: sideOf(item, step.side) }));
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

    const sentence = (turn) => {
      const { run } = turn;
      const text = textOf(turn);
      const step = run.step();
      const resting = step && step.kind === "rest" && !run.away();
      const first = resting ? fill(words.seconds_rest, { n: Math.ceil(run.left()) }) : text.count;
      // How to do it and what to take care of is said once: a screen reader shall not tell it set by set.
      const once = step && step.set === 1 && step.side !== "right" ? [text.how, text.care] : [];
      return [first, text.next, text.name, text.side, text.dose, text.weights, text.heavy, text.why, ...once].filter(Boolean).join(". ");
    };

    const spoken = (turn) => {
      const { run } = turn;
      const text = textOf(turn);
      const step = run.step();
      if (run.away()) return text.name;
      if (run.resting()) return words.rest_minute;
      return [step && step.kind === "rest" ? text.count : "", text.name, text.side, text.heavy].filter(Boolean).join(". ");
    };

    return { list, show, clock, sentence, spoken, parts };
  };

  window.TurnView = { create, fill };
})();
