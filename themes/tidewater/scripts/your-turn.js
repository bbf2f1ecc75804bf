/* The panel of your turn, which leads through the steps; turn-start.js asks for it and opens it.

   Keys in the panel: space or enter press the button that has the focus (the large one at first),
   right arrow skips, left arrow goes back, escape returns to the page.

   TurnPanel.open(anchor, opener, again)   opens it at a block; opener gets the focus when it closes, and with
                                           again the block is begun anew
   TurnPanel.anchor()                      the block that is open, or null
   TurnPanel.unlock()                      ready for sound: to be called in a press
   Fires on document: "turn-changed" after every step, and when the panel opens and closes. */
(() => {
  "use strict";
  const TICK = 200; // milliseconds
  const SOON = 10; // seconds left when the countdown is announced once more
  const TONES = 3; // seconds with a tone each, before the last one
  const ONE_TAP = 500; // milliseconds: a wet thumb or a knuckle bounces
  const data = JSON.parse(document.getElementById("episode-data").textContent);
  const words = JSON.parse(document.getElementById("turn-words").textContent);
  const panel = document.getElementById("turn-panel");
  const view = TurnView.create(panel, words);
  const fit = TurnFit.of(panel, view.parts);
  const { says } = view.parts;
  const { fill } = TurnWords;
  const carryWords = Player.hasFile ? words.carry_on : words.no_video;
  const blocks = Object.entries(data.blocks);
  const of = blocks.filter(([, block]) => block.stop !== null).length;
  let turn = null; // {anchor, day, block, items, steps, run, opener}
  let timer = 0;
  let pressed = -Infinity; // when a button was pressed last
  let toggled = { id: "", at: 0 }; // the mark that was tapped last, and when
  let shown = ""; // the sign of what is shown
  let sounded = 0; // the whole second that was last counted aloud
  let spoken = ""; // what was said aloud last
  let warned = null; // the step whose last seconds were announced
  let swapped = null; // the step whose change of hands was announced

  /* A part that is driven by the clock, at one's own pace for somebody who does nothing against it. */
  const courseOf = (block) => (block.paced && Needs.unhurried() ? { ...block, ...block.paced, calm: true } : block);

  const needed = (steps) => steps.filter((step) => step.id && !step.maybe).length;

  /* Keeping and showing */

  const keep = () => {
    const { anchor, day, steps, run } = turn;
    Progress.keep(data.slug, of, anchor, { ...run.state(), need: needed(steps) }, day);
    document.dispatchEvent(new CustomEvent("turn-changed"));
  };

  const say = (text) => { says.textContent = text; };
  const nothingLeft = () => fill(words.nothing_left, { trainer: panel.dataset.trainer });

  const refresh = (fresh) => {
    view.show(turn, carryWords);
    if (!turn.steps.length) view.parts.name.textContent = nothingLeft();
    const focused = panel.contains(document.activeElement) ? document.activeElement : null;
    if (!focused || focused.hidden || focused.disabled) view.parts.main.focus({ preventScroll: true });
    fit(fresh);
  };

  const changed = () => {
    const before = shown;
    shown = turn.run.sign();
    sounded = 0;
    keep();
    refresh(shown !== before);
    say(turn.steps.length ? view.sentence(turn) : nothingLeft());
    speak(turn.steps.length ? view.spoken(turn) : "");
  };

  /* Once: getting ready for a set and beginning it are said in the same words. */
  const speak = (text) => {
    if (text !== spoken) TurnHelp.speak(text);
    spoken = text;
  };

  /* The countdown */

  const countAloud = () => {
    const { run } = turn;
    const second = Math.ceil(run.left());
    if (!run.running() || second > TONES || second < 1 || second === sounded) return;
    sounded = second;
    TurnHelp.count(false);
  };

  const announceSoon = () => {
    const { run } = turn;
    const step = run.step();
    if (!step || !run.running() || run.ready()) return;
    const whole = step.work && !run.resting() ? step.work : step.seconds;
    if (warned !== step && whole > SOON * 1.5 && run.left() <= SOON) {
      warned = step;
      say(fill(words.seconds_left, { n: SOON }));
      TurnHelp.speak(words.spoken_ten);
    }
    if (swapped !== step && run.swapped()) {
      swapped = step;
      refresh(false);
      say(words.change_hands);
      TurnHelp.speak(words.change_hands);
      TurnHelp.count(true);
    }
  };

  const tick = () => {
    if (!turn) return;
    turn.run.tick();
    if (turn.run.sign() !== shown) {
      if (!turn.run.away()) TurnHelp.count(true);
      changed();
      return;
    }
    if (view.clock(turn.run)) fit(false);
    countAloud();
    announceSoon();
  };

  /* Opening and closing; a browser without modal dialogs shows the panel over the page all the same. */

  const showPanel = () => {
    if (panel.open || panel.hasAttribute("open")) return;
    if (panel.showModal) panel.showModal();
    else panel.setAttribute("open", "");
  };

  const closePanel = () => {
    if (panel.close) {
      panel.close();
      return;
    }
    panel.removeAttribute("open");
    closed();
  };

  const open = (anchor, opener, again) => {
    const block = courseOf(data.blocks[anchor]);
    const items = TurnItems.of(data, block, words);
    const steps = TurnSteps.build(block, items);
    const saved = again ? {} : Progress.turn(data.slug, anchor) || {};
    const run = TurnRun.create(steps, saved, Date.now, TurnWishes.getReady);
    turn = { anchor, day: Progress.today(), block, items, steps, run, opener };
    view.stops(false);
    const rows = view.list(turn, toggle);
    TurnNotes.add(data.slug, items, rows, words);
    showPanel();
    shown = "";
    spoken = "";
    document.documentElement.classList.add("panel-open");
    changed();
    view.parts.main.focus({ preventScroll: true });
    clearInterval(timer);
    timer = setInterval(tick, TICK);
    TurnHelp.wake(true);
  };

  const closed = () => {
    if (!turn) return;
    clearInterval(timer);
    TurnHelp.wake(false);
    TurnHelp.speak("");
    document.documentElement.classList.remove("panel-open");
    say("");
    turn.run.tick();
    turn.run.halt();
    const { opener } = turn;
    keep();
    turn = null;
    document.dispatchEvent(new CustomEvent("turn-changed"));
    if (opener) opener.focus();
  };

  const carryOn = () => {
    if (Player.hasFile) turn.opener = null;
    closePanel();
    Player.resume();
  };

  /* Buttons and keys. Two presses within half a second are one. */

  const once = (action) => (event) => {
    const now = Date.now();
    const bounced = now - pressed < ONE_TAP && now >= pressed;
    if (bounced || event.repeat) return;
    pressed = now;
    TurnHelp.unlock();
    action();
  };

  const main = () => {
    const step = turn.run.step();
    if (!turn.run.away() && (!step || step.why === "after")) carryOn();
    else {
      turn.run.main();
      changed();
    }
  };

  /* Marks may be tapped one after the other, but none of them twice at once. */
  const toggle = (id) => {
    const now = Date.now();
    const bounced = toggled.id === id && now - toggled.at < ONE_TAP && now >= toggled.at;
    toggled = { id, at: now };
    if (bounced) return;
    turn.run.toggle(id);
    changed();
  };

  const act = (name) => () => {
    turn.run[name]();
    changed();
  };

  /* Whoever looks up when to stop has stopped. */
  const stop = () => {
    turn.run.tick();
    turn.run.halt();
    keep();
    refresh(false);
    view.stops(true);
  };
  const goBack = () => {
    view.stops(false);
    fit(false);
    view.parts.main.focus({ preventScroll: true });
  };

  const KEYS = { ArrowRight: once(act("skip")), ArrowLeft: once(act("back")) };
  const STOPS = view.parts.stop ? { stop, unstop: goBack } : {};
  const ACTIONS = { main, back: act("back"), skip: act("skip"), pause: act("pause"), carry: carryOn, ...STOPS };
  for (const [name, action] of Object.entries(ACTIONS)) view.parts[name].addEventListener("click", once(action));
  for (const name of ["close", "end"]) view.parts[name].addEventListener("click", closePanel);
  view.parts.moment.addEventListener("click", () => {
    turn.opener = null;
    closePanel(); // the player follows the link
  });
  panel.addEventListener("keydown", (event) => {
    if (event.repeat && event.key === "Enter") event.preventDefault(); // a key held down is one press
    if (!KEYS[event.key] || event.altKey || event.ctrlKey || event.metaKey || event.target.matches("input")) return;
    event.preventDefault();
    KEYS[event.key](event);
  });
  panel.addEventListener("close", closed);
  TurnWishes.wire(view.parts);
  window.addEventListener("resize", () => { if (turn) fit(false); });

  /* A page that is not seen counts nothing. */

  document.addEventListener("visibilitychange", () => {
    if (!turn) return;
    if (document.visibilityState === "hidden") {
      turn.run.hide();
      keep();
    } else {
      turn.run.show();
      tick();
    }
  });
  window.addEventListener("pagehide", () => { if (turn) keep(); });

  window.TurnPanel = { open, anchor: () => (turn ? turn.anchor : null), unlock: TurnHelp.unlock };
})();
