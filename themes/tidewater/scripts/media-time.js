/* Times in an address, after the W3C Recommendation Media Fragments URI 1.0 (temporal dimension, npt).

   MediaTime.fragment("#t=10,20")  {start: 10, end: 20}; end null where there is none; null for no valid time
   MediaTime.seconds("1:02:05.5")  3725.5; null for anything else
   MediaTime.decode("a%20b")       "a b"; empty where a percent sign is damaged

   Of several t= the last valid one counts. Minutes may have one digit, as people write them. */
(() => {
  "use strict";
  const SECONDS = /^\d+(?:\.\d*)?$/;
  const CLOCK = /^(?:(\d+):(?=\d\d:))?(\d{1,2}):(\d\d(?:\.\d*)?)$/;

  const seconds = (text) => {
    if (SECONDS.test(text)) return Number(text);
    const match = CLOCK.exec(text);
    if (!match || Number(match[2]) > 59 || Number(match[3]) >= 60) return null;
    return Number(match[1] || 0) * 3600 + Number(match[2]) * 60 + Number(match[3]);
  };

  const range = (text) => {
    const match = /^(?:npt:)?([^,]*)(,)?([^,]*)$/.exec(text);
    if (!match || (!match[1] && !match[3]) || (match[2] && !match[3])) return null;
    const start = match[1] ? seconds(match[1]) : 0;
    const end = match[3] ? seconds(match[3]) : null;
    if (start === null || (match[3] && (end === null || start >= end))) return null;
    return { start, end };
  };

  const decode = (text) => {
    try {
      return decodeURIComponent(text);
    } catch {
      return "";
    }
  };

  const fragment = (hash) => hash.replace(/^#/, "").split("&")
    .filter((pair) => pair.startsWith("t="))
    // a damaged percent sign makes the pair invalid
    .map((pair) => range(decode(pair.slice(2))))
    .filter(Boolean)
    .pop() || null;

  window.MediaTime = { decode, fragment, seconds };
})();
