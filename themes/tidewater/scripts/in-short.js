/* On a phone the exercises of a part are folded away (scripts/folded.js): the line that opens them names each with its
   dose and load, in the version that is shown. What is for no version of this viewer says so. */
(() => {
  "use strict";
  if (!matchMedia("(max-width: 47.99rem)").matches) return;

  const line = (...content) => {
    const made = document.createElement("span");
    made.className = "in-short";
    made.append(...content);
    return made;
  };

  const lineOf = (item) => {
    const gap = item.querySelector(".gap");
    if (gap) return line(`${item.querySelector(".filmed h4 a").textContent}: ${gap.textContent}`);
    const shown = item.querySelector(".for-you") || item.querySelector(".filmed");
    const name = document.createElement("bdi");
    name.textContent = shown.querySelector("h4 a").textContent;
    const facts = [shown.querySelector(".dose"), shown.querySelector(".holding")].map((one) => one && one.textContent.trim());
    return line(name, ` ${facts.filter(Boolean).join(" · ")}`);
  };

  const show = () => {
    for (const part of document.querySelectorAll(".block-more")) {
      const opens = part.querySelector("summary");
      opens.querySelectorAll(".in-short").forEach((one) => one.remove());
      opens.prepend(...[...part.querySelectorAll(".item")].map(lineOf));
    }
  };

  show();
  Needs.onChange(show);
})();
