/* On a phone what makes a page long is folded away below its name, so that the page can be looked over; a link to
   something in it, and printing, open it. Without scripts, and on wide screens, all of it is open. */
(() => {
  "use strict";
  if (!matchMedia("(max-width: 47.99rem)").matches) return;
  const folded = [...document.querySelectorAll(".folds")];
  const open = (one) => { one.open = true; };
  const openTarget = () => {
    // Ids of a site are plain letters: nothing has to be decoded, which a damaged percent sign would break off.
    const target = document.getElementById(location.hash.slice(1));
    const around = folded.filter((one) => target && !one.open && (one.contains(target) || target.contains(one)));
    if (!around.length) return;
    around.forEach(open);
    target.scrollIntoView();
  };

  for (const one of folded) one.open = false;
  openTarget();
  addEventListener("hashchange", openTarget);
  addEventListener("beforeprint", () => folded.forEach(open));
})();
