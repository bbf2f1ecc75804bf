/* On a phone the exercises of each block are folded away below its name, so that the session can be looked over;
   a link to one of them, and printing, opens them. Without scripts, and on wide screens, all are open. */
(() => {
  "use strict";
  if (!matchMedia("(max-width: 47.99rem)").matches) return;
  const folded = [...document.querySelectorAll(".block-more")];
  const open = (one) => { one.open = true; };
  const openTarget = () => {
    const target = document.querySelector(":target");
    const box = target && target.closest(".block-more");
    if (!box || box.open) return;
    open(box);
    target.scrollIntoView();
  };

  for (const one of folded) one.open = false;
  openTarget();
  addEventListener("hashchange", openTarget);
  addEventListener("beforeprint", () => folded.forEach(open));
})();
