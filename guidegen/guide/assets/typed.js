// Numbers as people type and read them: text with a unit into the guide's own units, and back into both; and
// what a reader has asked for, as the part of an address behind "#".
(function () {
  "use strict";

  const data = window.guideJoints;
  if (!data) { return; }
  const SHAPE = /^([-+\u2212]?)\s*(?:(\d+)[- ](\d+)\/(\d+)|(\d+)\/(\d+)|(\d+\.?\d*(?:[eE][-+]?\d+)?|\.\d+))\s*(.*)$/;
  const MOST_HOURS = 1e5; // beyond it nobody asks
  const ADDRESS = /^#?[^=#]+=/;

  // {value} in the guide's own unit, null for an empty text; or {wrong}: a sentence. `least`: "any", "zero", or
  // a number of that kind; nothing: more than zero. `most`: a number.
  function read(text, kind, least, most) {
    const of = data.kinds[kind], example = "Write for example " + of.example + ".";
    const found = SHAPE.exec(text.trim());
    if (text.trim() === "") { return { value: null }; }
    if (/\d,\d/.test(text)) { return { wrong: "A decimal comma is not read: write a decimal point. " + example }; }
    if (!found) { return { wrong: "\u201c" + clipped(text) + "\u201d is not a number with a unit. " + example }; }
    if (+found[4] === 0 && found[4] || +found[6] === 0 && found[6]) {
      return { wrong: "A fraction over zero is no number. " + example };
    }
    let number = found[2] ? +found[2] + found[3] / found[4] : found[5] ? found[5] / found[6] : +found[7];
    if (found[1] && found[1] !== "+") { number = -number; }
    const factor = factorOf(found[8], of.units);
    if (factor === undefined && found[8] === "") { return { wrong: "A unit is missing. " + example }; }
    if (factor === undefined) {
      return { wrong: "\u201c" + clipped(found[8]) + "\u201d is no unit that fits here. " + example };
    }
    const value = number * factor;
    if (!isFinite(value)) { return { wrong: "That number is too large. " + example }; }
    if (!least && value <= 0) { return { wrong: "It must be more than zero. " + example }; }
    if (least === "zero" && value < 0) { return { wrong: "It must not be less than zero. " + example }; }
    if (most !== undefined && Math.abs(value) > most) {
      return { wrong: "It must be at most " + say(most, kind, 4) + ". " + example };
    }
    if (isFinite(least) && value < least) { return { wrong: "It must be at least " + say(+least, kind, 4) + ". " + example }; }
    return { value: value };
  }

  function factorOf(unit, units) {
    if (Object.hasOwn(units, unit)) { return units[unit]; }
    const name = Object.keys(units).find(known => known.toLowerCase() === unit.toLowerCase());
    return name === undefined ? undefined : units[name];
  }

  function clipped(text) { return text.trim().slice(0, 40); }

  function rounded(x, digits) {
    const size = Math.abs(x);
    if (size < 1e-9) { return "0"; }
    const short = size >= Math.pow(10, digits) ? Math.round(size) : Number(size.toPrecision(digits));
    const text = short >= 1e-6 ? String(short) : short.toFixed(9).replace(/0+$/, "");
    const parts = text.split(".");
    if (parts[0].length > 4) { parts[0] = parts[0].replace(/\B(?=(\d{3})+$)/g, "\u2009"); }
    return (x < 0 ? "\u2212" : "") + parts.join(".");
  }

  // [first, second] of a value in both units, the reader's own first; second is "" where there is but one.
  function both(value, kind, digits) {
    const of = data.kinds[kind];
    if (kind === "money") { return [value.toFixed(2) + " " + data.currency, ""]; }
    if (kind === "hours" && value > MOST_HOURS) { return ["over " + rounded(MOST_HOURS, 3) + " h", ""]; }
    const texts = of.shown.map(function (unit) {
      return (rounded(value / of.units[unit], digits) + " " + unit).trim();
    });
    if (texts.length === 1) { return [texts[0], ""]; }
    return window.guideUnits.first(data.first) === "in" ? [texts[1], texts[0]] : texts;
  }

  function say(value, kind, digits) {
    const texts = both(value, kind, digits);
    return texts[1] ? texts[0] + " (" + texts[1] + ")" : texts[0];
  }

  // {asked: [[name, text], ...], broken: [piece, ...]} of the address; a mere place on the page asks nothing.
  function readAddress(hash) {
    const asked = [], broken = [];
    if (!ADDRESS.test(hash)) { return { asked: asked, broken: broken }; }
    hash.replace(/^#/, "").split("&").filter(Boolean).forEach(function (piece) {
      const at = piece.indexOf("=");
      try {
        const name = decodeURIComponent(at < 0 ? piece : piece.slice(0, at));
        const text = decodeURIComponent(at < 0 ? "" : piece.slice(at + 1).replace(/\+/g, " "));
        if (at < 1) { broken.push(name); } else { asked.push([name, text]); }
      } catch (unreadable) { broken.push(piece); }
    });
    return { asked: asked, broken: broken };
  }

  function inAddress(asked) {
    return asked.map(pair => encodeURIComponent(pair[0]) + "=" + encodeURIComponent(pair[1])).join("&");
  }

  function writeAddress(asked) {
    const text = inAddress(asked);
    const here = window.location.href.split("#")[0];
    try { window.history.replaceState(null, "", here + "#" + text); } catch (refused) { window.location.hash = text; }
  }

  // Tells what an address asked for in vain.
  function tellLeftOut(place, wrong) {
    place.hidden = wrong.length === 0;
    place.textContent = wrong.length
      ? "This link asks for something that this page does not know; it is left out: \u201c"
        + wrong.join("\u201d, \u201c") + "\u201d. All else is as the link asks."
      : "";
  }

  // Tells beside a field what is wrong with what was typed; gives the value, null where nothing can be used.
  function valueIn(field, told) {
    const most = field.dataset.most === undefined ? undefined : +field.dataset.most;
    const found = read(field.value, field.dataset.kind, field.dataset.least, most);
    if (told) { tellWrong(field, found.wrong); }
    return found;
  }

  function tellWrong(field, wrong) {
    const place = document.getElementById(field.id + "-wrong");
    place.textContent = wrong || "";
    place.hidden = !wrong;
    if (wrong) { field.setAttribute("aria-invalid", "true"); } else { field.removeAttribute("aria-invalid"); }
  }

  function element(tag, words, attributes) {
    const made = document.createElement(tag);
    if (words) { made.textContent = words; }
    Object.entries(attributes || {}).forEach(function (pair) { made.setAttribute(pair[0], pair[1]); });
    return made;
  }

  // A joint in words; `units` may have changed since the last time.
  function titleOf(n) {
    if (data.named[n]) { return data.named[n]; }
    const apart = number("apart").of[n];
    const between = apart === null ? "" : ", " + both(apart, "length", 3)[0] + " apart";
    return word("pair", n) + between;
  }

  function number(key) { return data.numbers.find(one => one.key === key); }
  function choice(key) { return data.choices.find(one => one.key === key); }
  function word(key, n) { const of = choice(key); return of.values[of.of[n]][1]; }
  function keyOf(key, n) { const of = choice(key); return of.values[of.of[n]][0]; }

  function link(n) {
    return element("a", titleOf(n), { href: "joints/" + data.ids[n] + ".html" });
  }

  const STATES = { "holds": "holds", "take-care": "care", "does-not-hold": "fails" };
  function state(n) { return element("b", word("state", n), { class: "state " + STATES[keyOf("state", n)] }); }

  window.guideTyped = {
    read: read, both: both, say: say, rounded: rounded, readAddress: readAddress, inAddress: inAddress,
    writeAddress: writeAddress, tellLeftOut: tellLeftOut, valueIn: valueIn, tellWrong: tellWrong, element: element, link: link, state: state, titleOf: titleOf,
    number: number, choice: choice, word: word, keyOf: keyOf
  };
})();
