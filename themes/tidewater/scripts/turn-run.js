/* One go through the steps of a your turn: where one is, what is done, and the countdown. No page.

   TurnRun.create(steps, saved, now) -> run; saved as run.state() gave it, or {}; now() in milliseconds
     run.step()       the current step, or null when all are through
     run.at()         its index
     run.left()       seconds left on its countdown
     run.timed()      true where it has a countdown
     run.running()    true while that runs
     run.done(id)     true where that set is done
     run.rounds()     rounds counted
     run.main()       what the large button does: start, go on, done, go now, one more round, pause a minute
     run.pause() run.skip() run.back() run.toggle(id)
     run.tick()       move on where a countdown has ended; true where it did
     run.state()      plain data to keep */
(() => {
  "use strict";
  const FORGET_AFTER = 60000; // milliseconds
  const isWork = (step) => step.kind !== "rest";

  const create = (steps, saved, now) => {
    const done = new Set(saved.done || []);
    let at = Math.min(saved.at || 0, steps.length);
    let rounds = saved.rounds || 0;
    let clock = saved.clock || null; // {until: ms} while it runs, {left: s} while it stands

    const step = () => steps[at] || null;
    const running = () => Boolean(clock && clock.until);
    const left = () => (!clock ? 0 : running() ? Math.max(0, (clock.until - now()) / 1000) : clock.left);

    const enter = (index, from) => {
      at = Math.max(0, Math.min(index, steps.length));
      const next = step();
      if (!next || !next.seconds) clock = null;
      else if (from !== null && (next.auto || next.kind === "rest")) clock = { until: from + next.seconds * 1000 };
      else clock = { left: next.seconds };
    };

    /* The next step that is still to do; the pause before a set that is done already is left out. */
    const following = (index) => {
      let next = index;
      while (next < steps.length) {
        const work = isWork(steps[next]) ? next : next + 1;
        if (!steps[work] || !done.has(steps[work].id)) break;
        next = work + 1;
      }
      return next;
    };

    const finish = (from) => {
      const current = step();
      if (current && isWork(current)) done.add(current.id);
      enter(following(at + 1), from);
    };

    const start = () => {
      clock = { until: now() + clock.left * 1000 };
    };

    const main = () => {
      const current = step();
      if (!current) return;
      if (current.kind === "count" && running()) rounds += 1;
      else if (clock && !running()) start();
      else if (current.kind === "minute") pause();
      else finish(now());
    };

    const pause = () => {
      if (!clock) return;
      if (running()) clock = { left: left() };
      else start();
    };

    const back = () => {
      let index = at - 1;
      while (index > 0 && !isWork(steps[index])) index -= 1;
      if (index < 0) return;
      done.delete(steps[index].id);
      enter(index, null);
    };

    const toggle = (id) => {
      if (!done.delete(id)) done.add(id);
      const current = step();
      if (current && current.id === id && done.has(id)) enter(following(at + 1), now());
    };

    const tick = () => {
      let moved = false;
      while (running() && clock.until <= now()) {
        finish(clock.until); // counted from where the last one ended: a sleeping page catches up
        moved = true;
      }
      return moved;
    };

    // Who comes back after a while was not training meanwhile: the countdown begins anew, when told to.
    if (running() && clock.until < now() - FORGET_AFTER) clock = { left: step() ? step().seconds : 0 };
    if (!clock && step()) enter(following(at), null);

    return {
      step,
      at: () => at,
      left,
      running,
      timed: () => clock !== null,
      done: (id) => done.has(id),
      rounds: () => rounds,
      main,
      pause,
      skip: () => enter(at + 1, now()),
      back,
      toggle,
      tick,
      state: () => ({ at, done: [...done], rounds, clock }),
    };
  };

  window.TurnRun = { create };
})();
