/* A drawn cover over the video until it is first played: figures of the session and one large button.
   It hides the poster, which is asked for only where the video cannot be played.
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
  video.controls = false; // a screen reader would read the controls below the cover as well
  document.getElementById("cover-play").addEventListener("click", () => {
    open();
    video.focus();
    video.play();
  });
  Player.whenUnplayable(() => {
    if (cover.dataset.poster) video.poster = cover.dataset.poster;
    open();
  });
  for (const event of ["play", "seeking"]) video.addEventListener(event, open, { once: true });
})();
