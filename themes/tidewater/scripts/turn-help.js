/* What a your turn asks of the device, where it can: tones, vibration, spoken words, a screen that stays on.
   Each does nothing where the device cannot do it.

   TurnHelp.unlock()        ready for sound: to be called in every press, for browsers allow sound only there
   TurnHelp.count(last)     one of the three tones before a change, or the last one, with vibration
   TurnHelp.speak(text)     say it instead of what is being said
   TurnHelp.can             {vibrate, speak}: true where the device may
   TurnHelp.wants           {sound, vibrate, speak}: what the viewer wants
   TurnHelp.wake(on)        keep the screen on, or let it go dark again */
(() => {
  "use strict";
  const SHORT = { pitch: 660, seconds: 0.14, buzz: 80 }; // Hz, seconds, milliseconds
  const LAST = { pitch: 990, seconds: 0.5, buzz: 400 };
  const can = { vibrate: "vibrate" in navigator, speak: "speechSynthesis" in window };
  const wants = { sound: true, vibrate: true, speak: false };
  let audio = null;
  let lock = null;
  let wanted = false;

  const unlock = () => {
    const Audio = window.AudioContext || window.webkitAudioContext;
    if (!Audio || !wants.sound) return;
    try {
      audio = audio || new Audio();
      if (audio.state !== "running") audio.resume(); // also after a call or a locked screen interrupted it
    } catch {
      audio = null; // no sound device
    }
  };

  const tone = ({ pitch, seconds }) => {
    unlock();
    if (!audio) return;
    const at = audio.currentTime;
    const voice = audio.createOscillator();
    const volume = audio.createGain();
    voice.frequency.value = pitch;
    volume.gain.setValueAtTime(0.0001, at);
    volume.gain.exponentialRampToValueAtTime(0.4, at + 0.02);
    volume.gain.exponentialRampToValueAtTime(0.0001, at + seconds);
    voice.connect(volume);
    volume.connect(audio.destination);
    voice.start(at);
    voice.stop(at + seconds);
  };

  const count = (last) => {
    const sign = last ? LAST : SHORT;
    if (wants.sound) tone(sign);
    if (wants.vibrate && can.vibrate) navigator.vibrate(sign.buzz);
  };

  const speak = (text) => {
    if (!can.speak) return;
    speechSynthesis.cancel();
    if (!wants.speak || !text) return;
    const words = new SpeechSynthesisUtterance(text);
    words.lang = document.documentElement.lang;
    speechSynthesis.speak(words);
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

  window.TurnHelp = { unlock, count, speak, can, wants, wake };
})();
