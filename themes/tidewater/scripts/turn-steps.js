/* A block's your turn as a list of steps, from the page's data alone: no page, no clock.

   TurnSteps.build(block, items) -> [step, ...]
   TurnSteps.ofSet(item, set) -> what that set asks for, where it is not the same for all
     block  as in the page's episode-data (see sitegen/pages/episode/turns.py)
     items  one for each item: {seconds, sides, heavy, skip, bySet}; skip leaves it out; bySet has for each
            set its dose, that of one side, and its seconds, where sets differ

   A step is one of
     {kind: "work", id, item, set, of, maybe, side, seconds, auto, heavy}   seconds 0: counted, not timed
     {kind: "minute", id, item, set, of, seconds, work, half, auto, heavy}  every minute on the minute: work is
                                                 its seconds of timed work, half those of the first side, or 0
     {kind: "count", id, seconds}                                           as many rounds as possible
     {kind: "rest", why, item, seconds, ready}   why: "exercise", "set", "side" or "after";
                                                 ready: seconds left from which one may go on
   "auto" steps begin by themselves after the pause before them; in a calm block none does. "maybe" marks sets beyond the fewest. */
(() => {
  "use strict";
  const SIDES = ["left", "right"];

  const rest = (why, [low, high], item) => (high ? [{ kind: "rest", why, item, seconds: high, ready: high - low }] : []);

  const otherHand = (hand) => (hand === "left" ? "right" : "left");

  /* Which hand has the heavier load: it changes with the side, or half way where the plan says so. */
  const heavyOf = (item, set, side) => {
    const plan = item.heavy && item.heavy[set - 1];
    if (!plan) return null;
    const [begins, swap, words] = plan;
    return { hand: side === "right" ? otherHand(begins) : begins, swap: side ? 0 : swap, words: side ? "" : words };
  };

  /* What a set asks for, where it is not the same for all. */
  const ofSet = (item, set) => item.bySet && item.bySet[Math.min(set, item.bySet.length) - 1];

  const oneSet = (block, items, index, set) => {
    const item = items[index];
    const seconds = (ofSet(item, set) || [])[2] ?? item.seconds ?? 0;
    const [fewest, most] = block.sets;
    const sides = item.sides === 2 ? SIDES : [""];
    return sides.flatMap((side, n) => [
      // Timed sides need a moment to change over; counted ones are ended by the viewer anyway.
      ...(n && seconds ? rest("side", block.side, index) : []),
      {
        kind: "work",
        id: [set, index, ...(side ? [side] : [])].join("."),
        item: index,
        set,
        of: most,
        maybe: set > fewest,
        side,
        seconds,
        auto: !block.calm,
        heavy: heavyOf(item, set, side),
      },
    ]);
  };

  const kept = (items) => items.map((_, index) => index).filter((index) => !items[index].skip);
  const numbers = (count) => Array.from({ length: count }, (_, index) => index + 1);

  const straight = (block, items) => kept(items).flatMap((index, n) => [
    ...(n ? rest("exercise", block.exchange, index) : []),
    ...numbers(block.sets[1]).flatMap((set) => [
      ...(set > 1 ? rest("set", block.break, index) : []),
      ...oneSet(block, items, index, set),
    ]),
  ]);

  const inRounds = (block, items) => numbers(block.sets[1]).flatMap((set) => kept(items).flatMap((index, n) => [
    ...(n ? rest("exercise", block.exchange, index) : set > 1 ? rest("set", block.break, index) : []),
    ...oneSet(block, items, index, set),
  ]));

  const workOfMinute = (item, turn) => {
    const seconds = item.skip ? 0 : (ofSet(item, turn) || [])[2] ?? item.seconds ?? 0;
    const work = Math.min(60, seconds * (item.sides === 2 ? 2 : 1));
    return { work, half: item.sides === 2 ? Math.min(seconds, 30) : 0 };
  };

  const byTheMinute = (block, items) => {
    const minutes = block.time ? Math.floor(block.time / 60) : block.sets[1] * items.length;
    return numbers(minutes).map((minute) => {
      const index = (minute - 1) % items.length;
      const turn = Math.ceil(minute / items.length);
      const heavy = heavyOf(items[index], turn, "");
      const step = { kind: "minute", id: String(minute), item: index, set: minute, of: minutes, seconds: 60, auto: true, heavy };
      return { ...step, ...workOfMinute(items[index], turn) };
    });
  };

  const asManyRounds = (block, items) => (kept(items).length ? [{ kind: "count", id: "rounds", seconds: block.time }] : []);

  const MAKERS = {
    "straight sets": straight,
    "every minute on the minute": byTheMinute,
    "as many rounds as possible": asManyRounds,
  };

  const build = (block, items) => {
    const steps = (MAKERS[block.format] || inRounds)(block, items);
    return steps.length ? [...steps, ...rest("after", [block.after, block.after], null)] : [];
  };

  window.TurnSteps = { build, ofSet };
})();
