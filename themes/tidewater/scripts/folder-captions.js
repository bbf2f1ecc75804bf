/* Captions where the site is opened from a folder: browsers load no track file from there, but a script.
   The build writes the captions as captions.js beside captions.vtt; it is asked for there only. */
(() => {
  "use strict";
  const video = document.getElementById("video");
  const track = video && video.querySelector("track[kind=captions]");
  if (!track || location.protocol !== "file:") return;

  window.captionsFromFolder = (cues) => {
    const shown = video.addTextTrack("captions", track.label, track.srclang);
    for (const [start, end, text] of cues) shown.addCue(new VTTCue(start, end, text));
    // it could be chosen and would show nothing
    track.remove();
  };
  const script = document.createElement("script");
  script.src = track.getAttribute("src").replace(/\.vtt$/, ".js");
  document.head.append(script);
})();
