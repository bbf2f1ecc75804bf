/* A cover over the video until it is first played: one large button, and figures of the session where it has no
   poster.
   Without scripts the video shows its own controls; with a time in the address it shows that time. */
(() => {
  "use strict";
  const video = document.getElementById("video");
  const cover = document.getElementById("cover");
  if (!video || !cover || location.hash.startsWith("#t=")) return;

  const open = () => {
    cover.hidden = true;
    video.controls = true;
  };

  const begun = () => video.currentTime > 0 || !video.paused;
  if (begun()) return;
  cover.hidden = false;
  // a screen reader would read the controls below the cover as well
  video.controls = false;
  document.getElementById("cover-play").addEventListener("click", () => {
    open();
    video.focus();
    video.play();
  });
  Player.whenUnplayable(open);
  for (const event of ["play", "seeking"]) video.addEventListener(event, open, { once: true });
})();
