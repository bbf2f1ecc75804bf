/* The print button of a sheet, and a second look at whether the sheet fits its page.

   The build has chosen a step (see styles/sheet.css) from the widths of the sheet's own font. Where
   that font did not arrive, or the words have changed for somebody's needs, Sheet.fit() has steps measured
   and the roomiest taken that fits, for either paper: at once where the screen shows the sheet as on paper,
   on a phone, which shows it as a list and takes long to lay it out, when it is printed. */
(() => {
  "use strict";
  const sheet = document.querySelector(".sheet");
  const button = document.getElementById("print-sheet");
  // Drawings for somebody's needs are files of their own: one that has not come yet would be missing on paper.
  const print = async () => {
    await Promise.allSettled([...document.images].map((one) => one.decode()));
    window.print();
  };
  if (button) button.addEventListener("click", print);

  const PX_PER_MM = 96 / 25.4;
  const one = Boolean(sheet && sheet.dataset.steps);

  const setStep = (letter, a4) => {
    const others = [...sheet.classList].filter((name) => !/^(a4-)?step-\d+$/.test(name));
    sheet.className = [...others, `step-${letter}`, `a4-step-${a4}`].join(" ");
  };

  /* The height of the sheet at a step, for each step asked for once: a layout takes long on a phone. */
  const measured = () => {
    const heights = new Map();
    return (step) => {
      if (!heights.has(step)) {
        setStep(step, step);
        heights.set(step, sheet.getBoundingClientRect().height);
      }
      return heights.get(step);
    };
  };

  /* Every step is lower than the one before it, so the roomiest that fits is found by halving; 0 where none does. */
  const roomiest = (steps, heightAt, millimetres) => {
    const room = millimetres * PX_PER_MM;
    if (heightAt(steps) > room) return 0;
    let [from, to] = [1, steps];
    while (from < to) {
      const middle = Math.floor((from + to) / 2);
      if (heightAt(middle) <= room) to = middle;
      else from = middle + 1;
    }
    return to;
  };

  const NARROW = matchMedia("(max-width: 52rem)"); // as in styles/sheet.css
  let due = false;

  const fitNow = () => {
    if (!one || !due) return;
    due = false;
    const steps = Number(sheet.dataset.steps);
    sheet.classList.remove("sheet-many");
    sheet.classList.add("sheet-one", "measured"); // as on paper, however narrow the screen is
    const heightAt = measured();
    const letter = roomiest(steps, heightAt, Number(sheet.dataset.letter));
    const a4 = roomiest(steps, heightAt, Number(sheet.dataset.a4));
    sheet.classList.remove("measured");
    if (letter && a4) {
      setStep(letter, a4);
      return;
    }
    const comfortable = Number(sheet.dataset.comfortable); // it takes several pages
    sheet.classList.replace("sheet-one", "sheet-many");
    setStep(comfortable, comfortable);
  };

  const fit = () => {
    due = true;
    if (!NARROW.matches) document.fonts.ready.then(fitNow);
  };

  addEventListener("beforeprint", fitNow);
  NARROW.addEventListener("change", fitNow);
  window.Sheet = { fit };
  if (one) {
    document.fonts.ready.then(() => {
      if (!document.fonts.check("12px Sheet") || !document.fonts.check("bold 12px Sheet")) fit();
    });
  }
})();
