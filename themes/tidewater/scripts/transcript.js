/* The transcript follows the video, inside its own box; on a phone it starts closed. */
(() => {
  "use strict";
  const details = document.getElementById("transcript");
  const video = document.getElementById("video");
  if (!details) return;
  if (matchMedia("(max-width: 48rem)").matches) details.open = false;
  if (!video) return;
  const box = details.querySelector(".transcript-text");
  const said = [...box.querySelectorAll("p")].map((place) => ({ place, at: Number(place.firstElementChild.dataset.start) }));
  const calm = matchMedia("(prefers-reduced-motion: reduce)");
  let current = null;

  const follow = () => {
    const now = said.filter((one) => one.at <= video.currentTime).pop();
    if (now === current) return;
    if (current) current.place.removeAttribute("aria-current");
    current = now;
    if (!now) return;
    now.place.setAttribute("aria-current", "true");
    // A reader who is inside the box decides what is shown there.
    if (!details.open || box.matches(":focus-within, :hover")) return;
    const top = now.place.offsetTop - box.clientHeight / 3;
    box.scrollTo({ top, behavior: calm.matches ? "instant" : "smooth" });
  };

  video.addEventListener("timeupdate", follow);
  video.addEventListener("seeked", follow);
})();
