/* One go through the steps of a your turn: where one is, what is done, and the countdown. No page.

   Only time that the page was awake and seen is counted. Whoever was away is asked: nothing goes on by itself.

   TurnRun.create(steps, saved, now, getReady) -> run; saved as run.state() gave it, or {}; now() in
   milliseconds; getReady() in seconds, 0 to do without
     run.step()       the current step, or null when all are through
     run.at()         its index
     run.left()       seconds left on the countdown that is shown
     run.timed()      true where the step has a countdown
     run.running()    true while that runs
     run.ready()      true in the seconds of getting ready before timed work
     run.resting()    true in what is left of a minute after its work
     run.side()       "left", "right" or ""
     run.swapped()    true once two unequal loads have changed hands within the step
     run.away()       seconds the viewer was away and has not answered for, or 0
     run.sign()       text that changes whenever something else is to be shown
     run.done(id)     true where that set is done
     run.rounds()     rounds counted
     run.main()       what the large button does: start, go on, done, go now, one more round, pause a minute
     run.pause() run.skip() run.back() run.toggle(id)
     run.tick()       let the time pass that passed since the last look
     run.hide()       the page is not seen any more;  run.show()  it is again
     run.halt()       stop the countdown, without a question later
     run.state()      plain data to keep */
(() => {
  "use strict";
  const AWAKE = 3000; // ms: a page that is seen looks five times a second, and once in a second at worst
  const LONG = 120000; // ms: who stood so long at a set without a countdown may have lost her place
  const isWork = (step) => step.kind !== "rest";

  const create = (steps, saved, now, getReady = () => 0) => {
    const done = new Set(saved.done || []);
    let at = Math.min(saved.at || 0, steps.length);
    let rounds = saved.rounds || 0;
    let clock = null; // {left: seconds, then: seconds of work after getting ready or null, running}
    let away = null; // {since, back}: milliseconds
    let seen = now();
    let hidden = false;

    const step = () => steps[at] || null;
    const running = () => Boolean(clock && clock.running);
    const ready = () => Boolean(clock && clock.then !== null);

    /* Inside a minute: seconds of it that are rest, and the seconds at which the side changes. */
    const spare = () => (step() && step().work ? step().seconds - step().work : 0);
    const resting = () => Boolean(spare() && clock && !ready() && clock.left <= spare());
    const turning = () => (step() && step().half ? step().seconds - step().half : 0);

    const side = () => {
      const current = step();
      if (!current || !isWork(current)) return "";
      if (!current.half) return current.side || "";
      if (resting()) return "";
      return !clock || ready() || clock.left > turning() ? "left" : "right";
    };

    /* Half way through timed work the loads change hands, where the plan says so. */
    const swapped = () => {
      const current = step();
      const swap = current && current.heavy && current.seconds ? current.heavy.swap : 0;
      return Boolean(swap && clock && !ready() && current.seconds - clock.left >= swap);
    };

    const left = () => {
      if (!clock) return 0;
      if (ready() || resting() || !spare()) return Math.max(0, clock.left);
      return Math.max(0, clock.left - (clock.left > turning() && turning() ? turning() : spare()));
    };

    const start = () => {
      const work = clock.then === null ? clock.left : clock.then;
      const before = isWork(step()) ? getReady() : 0;
      clock = before ? { left: before, then: work, running: true } : { left: work, then: null, running: true };
    };

    /* how: "stand" waits for the viewer; "flow" begins as a countdown ended; "press" as the viewer asked. */
    const enter = (index, how) => {
      at = Math.max(0, Math.min(index, steps.length));
      const next = step();
      clock = next && next.seconds ? { left: next.seconds, then: null, running: false } : null;
      if (!clock || how === "stand" || !(next.auto || next.kind === "rest")) return;
      if (how === "press") start();
      else clock.running = true;
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

    const finish = (how) => {
      const current = step();
      if (current && isWork(current)) done.add(current.id);
      enter(following(at + 1), how);
    };

    /* Who was away begins the interrupted set again; a rest was long enough; rounds go on with what is left. */
    const goOn = () => {
      away = null;
      const current = step();
      if (!current || !clock || current.why === "after") return;
      if (!isWork(current)) enter(following(at + 1), "press");
      else {
        if (current.kind !== "count") clock = { left: current.seconds, then: null, running: false };
        start();
      }
    };

    const main = () => {
      const current = step();
      if (away) goOn();
      else if (!current) return;
      else if (ready() && running()) clock = { left: clock.then, then: null, running: true };
      else if (current.kind === "count" && running()) rounds += 1;
      else if (clock && !running()) start();
      else if (current.kind === "minute") pause();
      else finish("press");
    };

    const pause = () => {
      if (!clock) return;
      if (running()) clock.running = false;
      else start();
    };

    const back = () => {
      away = null;
      let index = at - 1;
      while (index > 0 && !isWork(steps[index])) index -= 1;
      if (index < 0) return;
      done.delete(steps[index].id);
      enter(index, "stand");
    };

    const skip = () => {
      away = null;
      enter(at + 1, "press");
    };

    const toggle = (id) => {
      if (!done.delete(id)) done.add(id);
      const current = step();
      if (!current || !done.has(id)) return;
      if (current.id === id) enter(following(at + 1), "press");
      else if (!isWork(current) && steps[at + 1] && steps[at + 1].id === id) enter(following(at), "press");
    };

    const leave = (since) => {
      const begun = running() || (now() - since > LONG && (done.size || at));
      if (!step() || !(away || begun)) return;
      away = { since: away ? away.since : since, back: now() };
      if (clock) clock.running = false;
    };

    const tick = () => {
      if (hidden) return;
      const since = seen;
      seen = now();
      if (seen - since > AWAKE) leave(since);
      if (!running()) return;
      clock.left -= Math.max(0, seen - since) / 1000; // a clock that was set back takes nothing away
      while (running() && clock.left <= 0) {
        const over = clock.left;
        if (ready()) clock = { left: clock.then, then: null, running: true };
        else finish("flow");
        if (running()) clock.left += over;
      }
    };

    const hide = () => {
      tick();
      hidden = true;
    };

    const show = () => {
      if (!hidden) return;
      hidden = false;
      const since = seen;
      seen = now();
      leave(since);
    };

    const halt = () => {
      if (clock) clock.running = false;
    };

    const kept = saved.clock;
    if (step() && kept && Number.isFinite(kept.left)) {
      const then = Number.isFinite(kept.then) ? kept.then : null;
      clock = { left: kept.left, then, running: Boolean(kept.running) };
    }
    if (!clock && step()) enter(following(at), "stand");
    if (Number.isFinite(saved.seen)) leave(Math.min(saved.seen, now()));
    halt();

    return {
      step,
      at: () => at,
      left,
      running,
      ready,
      resting,
      side,
      swapped,
      timed: () => clock !== null,
      away: () => (away ? Math.max(1, Math.round((away.back - away.since) / 1000)) : 0),
      sign: () => [at, ready(), resting(), side(), Boolean(away)].join(),
      done: (id) => done.has(id),
      rounds: () => rounds,
      main,
      pause,
      skip,
      back,
      toggle,
      tick,
      hide,
      show,
      halt,
      state: () => ({ at, done: [...done], rounds, clock: clock && { ...clock }, seen }),
    };
  };

  window.TurnRun = { create };
})();
