/* What the panel shows of a your turn. TurnView.create(panel, words) -> view
     view.list(block, items, steps, run, toggle)   the exercises with their marks, made once
     view.show(block, items, run, carry)           everything that changes with the step
     view.clock(run)                               the countdown alone
     view.sentence(block, items, run)              the step in words, for a screen reader
     view.parts                                    the panel's elements by their data-part */
(() => {
  "use strict";
  const COUNTED_IN_ROUNDS = ["circuit", "intervals"];
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
    const parts = Object.fromEntries(
      [...panel.querySelectorAll("[data-part]")].map((part) => [part.dataset.part, part]),
    );
    let marks = new Map();

    /* Words of a step */

    const countOf = (block, step) => {
      if (step.kind === "minute") return fill(words.minute, { n: step.set, of: step.of });
      const inRounds = COUNTED_IN_ROUNDS.includes(block.format);
      if (step.maybe) return fill(inRounds ? words.round_maybe : words.set_maybe, { n: step.set });
      return fill(inRounds ? words.round : words.set, { n: step.set, of: step.of });
    };

    const restOf = (step) => ({
      exercise: words.change,
      set: words.rest,
      side: words.change_side,
      after: words.after,
    })[step.why];

    const doseOf = (item, { set, side }) => {
      const [dose, oneSide] = window.TurnSteps.ofSet(item, set) || [item.dose, item.oneSide];
      return side ? `${oneSide} · ${words[side]}` : dose;
    };

    const heavyOf = (heavy) => {
      if (!heavy) return "";
      const hand = words[`hand_${heavy.hand}`];
      return fill(heavy.words ? words.heavy_swap : words.heavy, { hand, amount: heavy.words });
    };

    /* count, name, dose, load, how, heavy, why, care: what is shown large */
    const textOf = (block, items, run) => {
      const step = run.step();
      if (!step) return { count: words.finished, name: fill(words.finished_block, { name: block.name }) };
      if (step.kind === "count") return { count: plural(words.rounds, run.rounds()), name: block.name };
      if (step.kind === "rest") {
        const next = items[step.item];
        const ready = step.ready && run.left() <= step.ready ? words.ready : "";
        return { count: restOf(step), name: next ? fill(words.next, { name: next.name }) : "", why: ready };
      }
      const item = items[step.item];
      if (item.skip) return { count: countOf(block, step), name: words.rest_minute, why: item.skip };
      return {
        count: countOf(block, step),
        name: item.name,
        dose: doseOf(item, step),
        load: item.load,
        how: item.how,
        heavy: heavyOf(step.heavy),
        care: item.care ? fill(words.care, { care: item.care }) : "",
        why: item.why,
      };
    };

    /* Showing it */

    const put = (name, text) => {
      parts[name].textContent = text || "";
      parts[name].hidden = !text;
    };

    const mainOf = (run, carry) => {
      const step = run.step();
      if (!step || step.why === "after") return carry;
      if (run.timed() && !run.running()) return run.left() < step.seconds ? words.go_on : words.start;
      return { rest: words.go_now, minute: words.pause, count: words.add_round, work: words.done }[step.kind];
    };

    const clock = (run) => {
      const seconds = Math.ceil(run.left());
      const minutes = Math.floor(seconds / 60);
      put("clock", run.timed() ? (minutes ? `${minutes}:${String(seconds % 60).padStart(2, "0")}` : String(seconds)) : "");
      const step = run.step();
      if (step && step.ready && run.left() <= step.ready) put("why", words.ready);
    };

    const show = (block, items, run, carry) => {
      const text = textOf(block, items, run);
      put("block", block.name);
      for (const name of ["count", "name", "dose", "load", "how", "heavy", "why", "care"]) put(name, text[name]);
      const step = run.step();
      const kind = step ? step.kind : "end";
      panel.dataset.kind = kind;
      parts.main.textContent = mainOf(run, carry);
      parts.pause.textContent = run.running() ? words.pause : words.go_on;
      parts.pause.hidden = kind === "minute" || !run.running();
      parts.skip.hidden = !step || kind === "rest";
      parts.back.disabled = run.at() === 0;
      parts.carry.hidden = !step || step.why === "after";
      parts.carry.textContent = carry;
      clock(run);
      for (const [id, mark] of marks) {
        mark.setAttribute("aria-pressed", String(run.done(id)));
        if (step && step.id === id) mark.setAttribute("aria-current", "step");
        else mark.removeAttribute("aria-current");
      }
    };

    /* The list */

    const markOf = (step, item, toggle) => {
      const text = `${step.set}${step.side ? words[`${step.side}_mark`] : ""}`;
      const mark = element("button", "mark", text);
      const label = step.side ? words.mark_side : words.mark;
      mark.type = "button";
      mark.setAttribute("aria-label", fill(label, { name: item.name, n: step.set, side: words[step.side] }));
      mark.addEventListener("click", () => toggle(step.id));
      marks.set(step.id, mark);
      return mark;
    };

    const list = (block, items, steps, toggle) => {
      marks = new Map();
      const rows = items.map((item, index) => {
        const row = element("div", "panel-item", "");
        if (item.skip) {
          row.append(element("p", "quiet", item.skip));
          return row;
        }
        const title = element("p", "panel-item-name", item.name);
        title.append(" ", element("span", "dose", item.dose));
        const mine = steps.filter((step) => step.item === index && step.id);
        const row_marks = element("p", "marks", "");
        row_marks.append(...mine.map((step) => markOf(step, item, toggle)));
        row.append(title, ...(mine.length ? [row_marks] : []));
        return row;
      });
      parts.list.replaceChildren(...rows);
    };

    const sentence = (block, items, run) => {
      const text = textOf(block, items, run);
      const step = run.step();
      const first = step && step.kind === "rest" ? fill(words.seconds_rest, { n: Math.ceil(run.left()) }) : text.count;
      // How to do it and what to take care of is said once: a screen reader shall not tell it set by set.
      const once = step && step.set === 1 && step.side !== "right" ? [text.how, text.care] : [];
      return [first, text.name, text.dose, text.load, text.heavy, text.why, ...once].filter(Boolean).join(". ");
    };

    return { list, show, clock, sentence, parts };
  };

  window.TurnView = { create, fill };
})();
