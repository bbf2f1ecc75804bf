/* What the viewer wants of the panel, kept in this browser: tones, voice, vibration, seconds to get ready.

   TurnWishes.wire(parts)   the panel's checkboxes follow what is kept and change it
   TurnWishes.getReady()    seconds before timed work, 0 for none

   Storage: "<prefix>sound", "<prefix>speak", "<prefix>vibrate" and "<prefix>getready" hold "yes" or "no". */
(() => {
  "use strict";
  const SECONDS = 5;
  const { can, wants } = window.TurnHelp;
  wants.getready = true;

  const wireOne = (name, box) => {
    if (name in can && !can[name]) {
      box.closest("p").hidden = true;
      return;
    }
    const kept = Needs.kept(name);
    if (kept === "yes" || kept === "no") wants[name] = kept === "yes";
    box.checked = wants[name];
    box.addEventListener("change", () => {
      wants[name] = box.checked;
      Needs.keep(name, box.checked ? "yes" : "no");
      // Heard at once, and in a press: only then do some browsers allow it later.
      if (box.checked && name === "speak") window.TurnHelp.speak(box.closest("label").textContent);
      if (box.checked && (name === "sound" || name === "vibrate")) window.TurnHelp.count(false);
    });
  };

  const wire = (parts) => Object.keys(wants).forEach((name) => wireOne(name, parts[name]));

  window.TurnWishes = { wire, getReady: () => (wants.getready ? SECONDS : 0) };
})();
