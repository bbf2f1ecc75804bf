/* What a your turn says in words, step by step. No page.

   TurnWords.fill(text, values)   a sentence of the theme with its {places} filled in
   TurnWords.create(words) -> {textOf, sentence, spoken, goOnWith, sideOf}
     textOf(turn)        the texts shown, by part of the panel; "loads" is [{hand, amount, times, vessels}, …]
     sentence(turn)      the step for a screen reader
     spoken(turn)        the same in few words, to be said aloud
     goOnWith(turn)      what the large button says to somebody who was away
     sideOf(item, side)  "left side", or "one way" for circles
   turn is {block, items, steps, run}. */
(() => {
  "use strict";
  const COUNTED_IN_ROUNDS = ["circuit", "intervals"];
  const fill = (text, values) => text.replace(/\{(\w+)\}/g, (_, name) => values[name]);
  const plural = (forms, n) => {
    const [one, many] = forms.split("|");
    return fill(n === 1 ? one : many, { n });
  };

  const same = (one, other) => one.join() === other.join();

  const create = (words) => {
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

    const OTHER = { left: "right", right: "left" };

    /* What is held, left before right: [{hand, amount: [number, unit, more], times, vessel}, ...]. The plan of the set
       says which hand has the heavier of two unequal loads; nothing else here orders hands. */
    const loadOf = (item, { heavy, set }, swapped = false) => {
      const { amounts = [], setAmounts = [], vessels = [] } = item;
      const now = setAmounts.length ? setAmounts[Math.min(set, setAmounts.length) - 1] : amounts;
      const one = (place, hand = "") => ({ hand, amount: now[place], vessels: vessels.slice(place, place + 1) });
      if (!heavy && now.length === 2 && same(now[0], now[1])) return [{ hand: "", amount: now[0], times: 2, vessels }];
      if (!heavy || now.length < 2) return now.map((_, place) => one(place));
      const hand = swapped ? OTHER[heavy.hand] : heavy.hand;
      const inLeft = hand === "left" ? 0 : 1;
      return [one(inLeft, words.hand_left), one(1 - inLeft, words.hand_right)];
    };

    const loadWords = ({ hand, amount: [number, unit, more], times }) => {
      const held = fill(words[times ? "held_twice" : "held"], { number, unit });
      return [hand, more ? fill(words.held_more, { held, more }) : held].filter(Boolean).join(" ");
    };

    const swapWords = (heavy) => (heavy && heavy.words ? fill(words.swap, { when: heavy.words }) : "");

    /* "left 3 litres (water, 3 kg), right 5 litres (water, 5 kg)": for the ear. */
    const heldWords = (text) => (text.loads || []).map(loadWords).join(", ") || text.weights;

    const carrying = (item, step, swapped) => {
      const loads = loadOf(item, step, swapped);
      return { loads, weights: loads.length ? "" : item.load, swap: swapped ? "" : swapWords(step.heavy) };
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

    const helpWords = (item) => ({ care: item.care ? fill(words.care, { care: item.care }) : "", cue: item.cue });

    const restText = ({ block, items, run, steps }) => {
      const step = run.step();
      if (step.why === "after") return { count: words.rest, next: words.after };
      const following = steps[run.at() + 1];
      const next = items[step.item];
      if (!next || !following) return { count: words.rest };
      const sides = next.ways ? words.change_way : words.change_side;
      const why = { exercise: words.change, set: words.rest, side: sides }[step.why];
      const ready = step.ready && run.left() <= step.ready ? words.ready : "";
      const { side } = following;
      if (step.why === "side") {
        const now = next.ways ? words.now_way : fill(words.now_side, { side: sideOf(next, side) });
        return { count: why, name: now, ...(following.heavy ? carrying(next, following) : {}), why: ready, ...helpWords(next) };
      }
      const dose = doseOf(next, following);
      return {
        count: why,
        next: fill(words.next, { count: countOf(block, following) }),
        name: next.name,
        side: sideOf(next, side),
        dose,
        ...carrying(next, following),
        why: ready,
        ...helpWords(next),
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
        ...carrying(item, step, run.swapped()),
        how: item.how,
        why: item.why,
        ...helpWords(item),
      };
    };

    /* "Go on with set 2" */
    const goOnWith = ({ block, run, steps }) => {
      const step = run.step();
      const next = step.kind === "rest" ? steps[run.at() + 1] : step;
      return next && next.set ? fill(words.go_on_with, { count: countOf(block, next) }) : words.go_on;
    };

    const sentence = (turn) => {
      const { run } = turn;
      const text = textOf(turn);
      const step = run.step();
      const resting = step && step.kind === "rest" && !run.away();
      const first = resting ? fill(words.seconds_rest, { n: Math.ceil(run.left()) }) : text.count;
      // How to do it and what to take care of is said once: a screen reader shall not tell it set by set.
      const once = step && step.set === 1 && step.side !== "right" ? [text.how, text.care] : [];
      return [first, text.next, text.name, text.side, text.dose, heldWords(text), text.swap, text.why, ...once].filter(Boolean).join(". ");
    };

    const spoken = (turn) => {
      const { run } = turn;
      const text = textOf(turn);
      const step = run.step();
      if (run.away()) return text.name;
      if (run.resting()) return words.rest_minute;
      const hands = (text.loads || []).some((load) => load.hand) ? heldWords(text) : "";
      return [step && step.kind === "rest" ? text.count : "", text.name, text.side, hands, text.swap].filter(Boolean).join(". ");
    };

    return { textOf, sentence, spoken, goOnWith, sideOf };
  };

  window.TurnWords = { create, fill };
})();
