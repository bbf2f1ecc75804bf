/* What a your turn asks of the device, where it can: a tone, and a screen that stays on.

   TurnHelp.tone(times)   short tones, one or several
   TurnHelp.wake(on)      keep the screen on, or let it go dark again */
(() => {
  "use strict";
  const PITCH = 660; // Hz
  const LENGTH = 0.16; // seconds
  let audio = null;
  let lock = null;
  let wanted = false;

  const tone = (times) => {
    const Audio = window.AudioContext || window.webkitAudioContext;
    if (!Audio) return;
    audio ||= new Audio();
    audio.resume();
    for (let n = 0; n < times; n++) {
      const at = audio.currentTime + n * LENGTH * 2;
      const voice = audio.createOscillator();
      const volume = audio.createGain();
      voice.frequency.value = PITCH;
      volume.gain.setValueAtTime(0.0001, at);
      volume.gain.exponentialRampToValueAtTime(0.4, at + 0.02);
      volume.gain.exponentialRampToValueAtTime(0.0001, at + LENGTH);
      voice.connect(volume).connect(audio.destination);
      voice.start(at);
      voice.stop(at + LENGTH);
    }
  };

  const hold = async () => {
    if (!wanted || document.visibilityState !== "visible" || !navigator.wakeLock) return;
    try {
      const granted = await navigator.wakeLock.request("screen");
      release(); // an earlier wish that was granted meanwhile
      lock = granted;
      if (!wanted) release();
    } catch {
      lock = null; // a low battery, or a page opened as a file
    }
  };

  const release = () => {
    if (lock) lock.release();
    lock = null;
  };

  const wake = (on) => {
    if (on === wanted) return;
    wanted = on;
    if (on) hold();
    else release();
  };

  // The browser lets go of the screen when the page is hidden.
  document.addEventListener("visibilitychange", hold);

  window.TurnHelp = { tone, wake };
})();
