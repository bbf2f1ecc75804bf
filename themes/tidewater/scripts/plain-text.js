/* What a client writes, as it is kept: short, and without characters that would steer a terminal or turn the
   direction of writing round. Such come in with pasted text; `sitegen client --log` refuses a file with them.

   PlainText.short(value, most)   the text, cut after so many units of UTF-16; "" for anything else */
(() => {
  "use strict";
  const STEERING = /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069\ufeff\ufffe\uffff]/g;
  // of a character that was cut
  const HALF = /[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g;
  const short = (value, most) => (typeof value === "string"
    ? value.slice(0, most).replace(STEERING, "").replace(HALF, "") : "");
  window.PlainText = { short };
})();
