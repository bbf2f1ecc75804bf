/* Your turn: opens the panel where the video stops or a button asks for it, and leads through the steps.

   Keys in the panel: space or enter press the button that has the focus (the large one at first),
   right arrow skips, left arrow goes back, escape returns to the page. */
(() => {
  "use strict";
  const TICK = 200; // milliseconds
  const SOON = 10; // seconds left when the countdown is announced once more
  const data = JSON.parse(document.getElementById("episode-data").textContent);
  const words = JSON.parse(document.getElementById("turn-words").textContent);
  const panel = document.getElementById("turn-panel");
  const view = TurnView.create(panel, words);
  const { says, sound } = view.parts;
  const { fill } = TurnView;
  const carryWords = Player.hasFile ? words.carry_on : words.close;
  const blocks = Object.entries(data.blocks);
  const of = blocks.filter(([, block]) => block.stop !== null).length;
  let turn = null; // {anchor, block, items, steps, run, opener}
  let timer = 0;
  let warned = null; // the step whose last seconds were announced
  let swapped = null; // the step whose change of hands was announced

  /* The items as this viewer does them */

  const leftOut = (item, reasons) => {
    const demands = Needs.words(reasons).join(", ");
    return fill(demands ? words.left_out : words.left_out_limits, { name: item.name, demands });
  };

  const itemOf = (item, { form, filmed, reasons }) => {
    const inVideo = item.forms[0];
    if (!form) return { name: inVideo.name, skip: leftOut(inVideo, reasons) };
    const why = form.page === inVideo.page ? words.adjusted : fill(words.instead, { name: inVideo.name });
    return {
      name: form.name,
      dose: form.dose || "",
      oneSide: form.one_side,
      sides: form.one_side ? 2 : 1,
      seconds: form.seconds || 0,
      bySet: form.by_set,
      load: form.load || "",
      how: [form.tempo && fill(words.tempo, { tempo: form.tempo }), form.effort].filter(Boolean).join(" · "),
      heavy: form.heavy && form.heavy.length ? form.heavy : null,
      care: (form.cautions || []).map(([, short]) => short).join(" "),
      why: filmed ? "" : why,
    };
  };

  const itemsOf = (block) => {
    const items = block.items.map((one) => data.items[one]);
    return Needs.choose(items).map((choice, index) => itemOf(items[index], choice));
  };

  /* A part that is driven by the clock, at one's own pace for somebody who does nothing against it. */
  const courseOf = (block) => (block.paced && Needs.unhurried() ? { ...block, ...block.paced, calm: true } : block);

  const needed = (steps) => steps.filter((step) => step.id && !step.maybe).length;

  /* Keeping and showing */

  const keep = () => {
    const { anchor, steps, run } = turn;
    Progress.keep(data.slug, of, anchor, { ...run.state(), need: needed(steps) });
  };

  const say = (text) => { says.textContent = text; };

  const refresh = () => {
    view.show(turn.block, turn.items, turn.run, carryWords);
    const focused = panel.contains(document.activeElement) ? document.activeElement : null;
    if (!focused || focused.hidden) view.parts.main.focus();
  };

  const changed = () => {
    keep();
    refresh();
    if (!turn.steps.length) say(nothingLeft());
    else say(view.sentence(turn.block, turn.items, turn.run));
  };

  const nothingLeft = () => fill(words.nothing_left, { trainer: panel.dataset.trainer });

  /* The countdown */

  const ring = () => {
    if (sound.checked) TurnHelp.tone(turn.run.step() ? 1 : 2);
  };

  const announceSoon = () => {
    const { run } = turn;
    const step = run.step();
    if (!step || !run.running()) return;
    if (warned !== step && step.seconds > SOON * 1.5 && run.left() <= SOON) {
      warned = step;
      say(fill(words.seconds_left, { n: SOON }));
    }
    const swap = step.heavy && step.seconds ? step.heavy.swap : 0;
    if (swap && swapped !== step && step.seconds - run.left() >= swap) {
      swapped = step;
      say(words.change_hands);
      if (sound.checked) TurnHelp.tone(1);
    }
  };

  const tick = () => {
    if (!turn) return;
    if (turn.run.tick()) {
      ring();
      changed();
      return;
    }
    view.clock(turn.run);
    announceSoon();
  };

  /* Opening and closing */

  const open = (anchor, opener, again) => {
    const block = courseOf(data.blocks[anchor]);
    const items = itemsOf(block);
    const steps = TurnSteps.build(block, items);
    const saved = again ? {} : Progress.turn(data.slug, anchor) || {};
    const run = TurnRun.create(steps, saved, Date.now);
    turn = { anchor, block, items, steps, run, opener };
    run.tick();
    view.list(block, items, steps, (id) => { run.toggle(id); changed(); });
    if (!panel.open) panel.showModal();
    document.documentElement.classList.add("panel-open");
    changed();
    if (!steps.length) view.parts.name.textContent = nothingLeft();
    view.parts.main.focus();
    timer = setInterval(tick, TICK);
    TurnHelp.wake(true);
  };

  const closed = () => {
    clearInterval(timer);
    TurnHelp.wake(false);
    document.documentElement.classList.remove("panel-open");
    say("");
    const { opener } = turn || {};
    turn = null;
    states();
    if (opener) opener.focus();
  };

  const carryOn = () => {
    const resume = Player.hasFile && document.getElementById("video");
    if (resume) turn.opener = null;
    panel.close();
    Player.resume();
  };

  /* Buttons and keys */

  const main = () => {
    const step = turn.run.step();
    if (!step || step.why === "after") carryOn();
    else {
      turn.run.main();
      changed();
    }
  };

  const act = (name) => () => {
    turn.run[name]();
    changed();
  };

  const KEYS = { ArrowRight: act("skip"), ArrowLeft: act("back") };
  const ACTIONS = { main, back: act("back"), skip: act("skip"), pause: act("pause"), carry: carryOn, close: () => panel.close() };
  for (const [name, action] of Object.entries(ACTIONS)) {
    view.parts[name].addEventListener("click", action);
  }
  panel.addEventListener("keydown", (event) => {
    if (!KEYS[event.key] || event.altKey || event.ctrlKey || event.metaKey) return;
    event.preventDefault();
    KEYS[event.key]();
  });
  panel.addEventListener("close", closed);

  /* The page around it */

  const states = () => {
    for (const button of document.querySelectorAll("button[data-turn]")) {
      const kept = Progress.turn(data.slug, button.dataset.turn);
      const through = kept && Progress.through(kept);
      const begun = kept && kept.done.length;
      button.textContent = through ? words.again : begun ? words.resume_turn : words.start_turn;
      button.parentElement.querySelector(".turn-state").textContent = through
        ? words.done_today
        : begun ? fill(words.part_done, { n: kept.done.length, of: kept.need }) : "";
    }
  };

  document.addEventListener("click", (event) => {
    const button = event.target.closest("button[data-turn]");
    if (!button) return;
    const kept = Progress.turn(data.slug, button.dataset.turn);
    open(button.dataset.turn, button, Boolean(kept && Progress.through(kept)));
  });
  document.addEventListener("turn-reached", (event) => open(event.detail, document.getElementById("video"), false));
  const video = document.getElementById("video");
  if (video) video.addEventListener("ended", () => Progress.watched(data.slug, of));

  try {
    sound.checked = localStorage.getItem(Needs.key("sound")) === "yes";
  } catch {
    // storage is switched off: no sound to begin with
  }
  sound.addEventListener("change", () => {
    if (sound.checked) TurnHelp.tone(1);
    try {
      localStorage.setItem(Needs.key("sound"), sound.checked ? "yes" : "no");
    } catch {
      // the choice holds for this page
    }
  });
  states();
})();
