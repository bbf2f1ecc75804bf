/* On a phone the exercises of a part are folded away (scripts/folded.js): the line that opens them names each with its
   dose, load, cautions and who does it in another form, in the version that is shown. What is for no version of this viewer says so. */
(() => {
  "use strict";
  if (!matchMedia("(max-width: 47.99rem)").matches) return;

  const { blocks, items } = JSON.parse(document.getElementById("episode-data").textContent);

  const line = (...content) => {
    const made = document.createElement("span");
    made.className = "in-short";
    made.append(...content);
    return made;
  };

  /* Nobody shall start a turn past a folded caution: the short forms stand in the open. */
  const careOf = (item, { form, filmed }) => {
    const made = document.createElement("small");
    made.textContent = Needs.care(form, filmed && item.querySelector(".others"));
    return made.textContent ? [made] : [];
  };

  const lineOf = (item, choice) => {
    const gap = item.querySelector(".gap");
    if (gap) return line(`${item.querySelector(".filmed h4 a").textContent}: ${gap.textContent}`);
    const shown = item.querySelector(".for-you") || item.querySelector(".filmed");
    const name = document.createElement("bdi");
    name.textContent = shown.querySelector("h4 a").textContent;
    const facts = [shown.querySelector(".dose"), shown.querySelector(".holding")].map((one) => one && one.textContent.trim());
    return line(name, ` ${facts.filter(Boolean).join(" · ")}`, ...careOf(item, choice));
  };

  const show = () => {
    for (const part of document.querySelectorAll(".block-more")) {
      const opens = part.querySelector("summary");
      opens.querySelectorAll(".in-short").forEach((one) => one.remove());
      const choices = Needs.choose(blocks[part.closest(".block").id].items.map((anchor) => items[anchor]));
      opens.prepend(...[...part.querySelectorAll(".item")].map((item, index) => lineOf(item, choices[index])));
    }
  };

  show();
  Needs.onChange(show);
})();
