/* Sets a drawn movement going: the first picture of a row becomes each of the others in turn and goes back.
   Pictures of one movement have the same shapes in the same order, so their numbers can be mixed. */
(function () {
  "use strict";

  const SECONDS_EACH_WAY = 1.6;
  const TIMES = 3;
  const NUMBER = /-?\d+(?:\.\d+)?/g;
  const still = window.matchMedia("(prefers-reduced-motion: reduce)");

  function shapesOf(svg) {
    return Array.from(svg.querySelectorAll("path, circle")).filter((shape) => !shape.matches(".d-arrow, .d-mark"));
  }

  function textOf(shape) {
    return shape.tagName === "circle" ? `${shape.getAttribute("cx")} ${shape.getAttribute("cy")}` : shape.getAttribute("d");
  }

  function write(shape, text) {
    if (shape.tagName === "path") {
      shape.setAttribute("d", text);
      return;
    }
    const [x, y] = text.split(" ");
    shape.setAttribute("cx", x);
    shape.setAttribute("cy", y);
  }

  /* The poses as lists of texts; null where they cannot be mixed. */
  function posesOf(row) {
    const poses = Array.from(row.querySelectorAll("svg.drawing"), (svg) => shapesOf(svg).map(textOf));
    const form = (pose) => pose.map((text) => text.replace(NUMBER, "#")).join();
    return poses.length > 1 && poses.every((pose) => form(pose) === form(poses[0])) ? poses : null;
  }

  function mixed(from, to, share) {
    const ends = to.match(NUMBER);
    let next = 0;
    return from.replace(NUMBER, (start) => (+start + (ends[next++] - start) * share).toFixed(1));
  }

  function play(row, poses, button) {
    const svg = row.querySelector("svg.drawing");
    const shapes = shapesOf(svg);
    const way = poses.length - 1;
    const started = performance.now();
    const own = svg.getAttribute("viewBox");
    const height = svg.getAttribute("height");
    // The room that the other poses need, at the same scale.
    const tall = (box) => Number(box.split(" ")[3]);
    svg.setAttribute("viewBox", svg.dataset.box);
    svg.setAttribute("height", Math.round((height * tall(svg.dataset.box)) / tall(own)));
    const show = (place) => {
      const from = Math.min(Math.floor(place), way - 1);
      shapes.forEach((shape, i) => write(shape, mixed(poses[from][i], poses[from + 1][i], place - from)));
    };
    button.disabled = true;
    row.classList.add("moving");
    (function frame(now) {
      const turns = Math.max(0, now - started) / 1000 / SECONDS_EACH_WAY;
      if (turns >= 2 * TIMES) {
        show(0);
        row.classList.remove("moving");
        svg.setAttribute("viewBox", own);
        svg.setAttribute("height", height);
        button.disabled = false;
        return;
      }
      const there = turns % 2 < 1 ? turns % 1 : 1 - (turns % 1);
      // Slow at both ends, as bodies move; without motion only the two ends are shown.
      const eased = still.matches ? Math.round(there) : (1 - Math.cos(there * Math.PI)) / 2;
      show(eased * way);
      requestAnimationFrame(frame);
    })(started);
  }

  document.querySelectorAll("ol.movement[data-play]").forEach((row) => {
    const poses = posesOf(row);
    if (!poses) return;
    const button = document.createElement("button");
    button.type = "button";
    button.className = "button movement-play";
    button.textContent = row.dataset.play;
    button.addEventListener("click", () => play(row, poses, button));
    row.after(button);
  });
})();
