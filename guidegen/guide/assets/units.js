// Lets a reader choose which units stand first. Numbers in both units are found by how they are printed:
// "24 mm (0.945 in)", or the second in small type behind the first. Print and page keep both.
(function () {
  "use strict";

  const NAME = "guide-units-first";
  const NUMBER = "[\u2212-]?(?:\\d+[- ]\\d+/\\d+|\\d+/\\d+|\\d[\\d\u2009]*(?:\\.\\d+)?)";
  const SYSTEMS = {
    mm: ["mm\u00b2/N", "mm\u00b2", "N\u00b7mm", "N\u00b7m", "MPa\u00b7m/s", "MPa", "m/s", "mm", "N", "g"],
    in: ["in\u00b2/lbf", "in\u00b2", "lbf\u00b7in", "lbf", "psi\u00b7ft/min", "ksi", "psi", "ft/min", "in", "oz"]
  };
  const VALUES = {};
  Object.keys(SYSTEMS).forEach(function (system) {
    const unit = "(?:" + SYSTEMS[system].join("|") + ")";
    VALUES[system] = "(?:under |over )?" + NUMBER + "(?:(?: " + unit + ")? to " + NUMBER + ")? " + unit;
  });

  function other(system) { return system === "mm" ? "in" : "mm"; }

  function remembered() { // storage may be refused, as some browsers do for pages opened from a folder
    try { return window.localStorage.getItem(NAME); } catch (refused) { return null; }
  }

  function remember(system) {
    try { window.localStorage.setItem(NAME, system); } catch (refused) { /* then for this page only */ }
  }

  // The first unit of every pair becomes that of `system`; pairs that stand so already are left alone.
  function order(article, system) {
    const first = VALUES[other(system)], second = VALUES[system];
    const within = new RegExp("(" + first + ") \\((" + second + ")\\)", "g");
    const behind = new RegExp(first + "\\s*$"), whole = new RegExp("^" + second + "$");
    const walker = document.createTreeWalker(article, NodeFilter.SHOW_TEXT);
    while (walker.nextNode()) {
      const text = walker.currentNode;
      if (text.data.indexOf("(") >= 0 && !text.parentNode.closest("svg, math, code, script, [data-own-units]")) {
        const swapped = text.data.replace(within, "$2 ($1)");
        if (swapped !== text.data) { text.data = swapped; }
      }
    }
    article.querySelectorAll("small").forEach(function (small) {
      const before = small.previousSibling, said = small.textContent.trim();
      if (!before || before.nodeType !== Node.TEXT_NODE || small.children.length || !whole.test(said)) { return; }
      const found = behind.exec(before.data);
      if (!found) { return; }
      small.textContent = found[0].trim();
      before.data = before.data.slice(0, found.index) + said + " ";
    });
  }

  function bothUnits(article) {
    const both = Object.keys(SYSTEMS).map(system => new RegExp(VALUES[system] + "\\b"));
    return both.every(unit => unit.test(article.textContent));
  }

  const units = window.guideUnits = {
    preferred: remembered(),
    first: ofCourse => units.preferred === "mm" || units.preferred === "in" ? units.preferred : ofCourse
  };

  // Which system stands first as the page comes: that of the first pair on it.
  function asPrinted(article) {
    const pair = new RegExp("(" + VALUES.mm + ") \\(?" + VALUES.in + "|(" + VALUES.in + ") \\(?" + VALUES.mm);
    const found = pair.exec(article.textContent);
    return found && found[2] ? "in" : "mm";
  }

  function start() {
    const article = document.querySelector("article");
    if (!article || article.querySelector(".reader-units")) { return; }
    const searching = article.querySelector("[data-own-units]");
    if (!searching && !bothUnits(article)) { return; }
    let system = units.first(searching && window.guideJoints ? window.guideJoints.first : asPrinted(article));
    const button = document.createElement("button");
    button.type = "button";
    button.className = "reader-units";
    const label = function () {
      button.textContent = system === "mm" ? "Show inches first" : "Show millimetres first";
    };
    button.addEventListener("click", function () {
      system = units.preferred = other(system);
      remember(system);
      order(article, system);
      label();
      document.dispatchEvent(new CustomEvent("guide:units"));
    });
    label();
    window.guideReading(article).appendChild(button);
    if (units.preferred) { order(article, system); }
  }

  // The row of buttons on top of a page; made when the first button needs it.
  window.guideReading = function (article) {
    let row = article.querySelector(".reading-tools");
    if (!row) {
      row = document.createElement("div");
      row.className = "reading-tools";
      row.setAttribute("role", "group");
      row.setAttribute("aria-label", "This page");
      article.insertBefore(row, article.firstChild);
    }
    return row;
  };

  if (typeof document$ !== "undefined") { document$.subscribe(start); } else { start(); }
})();
