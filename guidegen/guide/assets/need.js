// Finds the worked joints that do what a reader's joint must do, and tells what stands in the way of the others.
(function () {
  "use strict";

  const data = window.guideJoints, typed = window.guideTyped, form = document.getElementById("need");
  if (!data || !typed || !form) { return; }

  const FIRST = 5, MORE = 10, NEAREST = 3, COMPARED = 3;
  const SLACK = 1e-6; // share by which a number may pass its limit: the columns are rounded
  const PLACED = 0.5; // mm, within which a load plane lies where it is asked for
  const CARE = 0.5; // how much a check that asks for care counts against one that fails
  const TEXTS = ["load", "beyond", "arm", "wobble", "start", "push", "budget"];
  const SELECTS = ["place", "motion", "kit", "bearings", "sure", "by"];
  const SETS = ["stock", "tools"];
  const column = {};
  data.numbers.forEach(function (one) { column[one.key] = one.of; });
  const held = { stock: data.stocks, tools: data.tools };

  // What a need asks ---------------------------------------------------------------------------------------

  // From [[name, text], ...]: numbers in mm, N and money; null where nothing is asked. Leaves out what it cannot read.
  function needOf(asked) {
    const need = { arm: null, wanted: {} };
    const given = {};
    asked.forEach(function (pair) { given[pair[0]] = pair[1]; });
    TEXTS.forEach(function (name) {
      const found = typed.read(given[name] || "", form.elements[name].dataset.kind);
      need[name] = found.wrong ? null : found.value;
    });
    SELECTS.forEach(function (name) { need[name] = given[name] || ""; });
    SETS.forEach(function (name) {
      const keys = (given[name] || "").split(",").filter(Boolean);
      need[name] = keys.length ? bitsOf(held[name], keys) : null;
    });
    if (need.arm === null) { need.arm = data.arm; }
    if (need.place !== "beyond") { need.beyond = null; }
    return need;
  }

  function bitsOf(set, keys) {
    return set.values.reduce((bits, pair, n) => keys.includes(pair[0]) ? bits | 1 << n : bits, 0);
  }

  function careTaken(need) { return need.sure === "care"; }

  // What a reader sees of a joint at the end of the reader's own arm, mm and N: the tilt stays, the arm changes.
  function wobbleAt(n, need) {
    return column[careTaken(need) ? "wobble" : "wobble-most"][n] * need.arm / column.arm[n];
  }

  function startAt(n, need) {
    const force = column[careTaken(need) ? "start" : "start-most"][n];
    return force === null ? null : force * column.arm[n] / need.arm;
  }

  // The force along the screw at the end of the reader's arm that bends and pushes no more than the worked one.
  function pushAt(n, need) { return column.push[n] * Math.min(1, column.arm[n] / need.arm); }

  function missing(bits, n, name) { return held[name].of[n] & ~bits; }

  function over(value, limit) { return value > limit * (1 + SLACK) ? value / limit - 1 : 0; }

  // By what a joint misses each need: {name: how much}, a share of the limit, 1 for what is simply otherwise.
  function missesOf(n, need) {
    const misses = {};
    const put = function (name, much) { if (much) { misses[name] = much; } };
    if (need.load !== null) { put("load", over(need.load, column.load[n])); }
    if (need.push !== null) { put("push", pushAt(n, need) ? over(need.push, pushAt(n, need)) : 1); }
    const place = typed.keyOf("place", n);
    if (need.place === "between") { put("place", +(place !== "between")); }
    if (need.place === "beyond") {
      put("place", +(place === "between"));
      if (need.beyond !== null && place !== "between") {
        const reach = column.beyond[n] === null ? 0 : column.beyond[n];
        put("beyond", reach < need.beyond - PLACED ? 1 - reach / need.beyond : 0);
      }
    }
    if (need.wobble !== null) { put("wobble", over(wobbleAt(n, need), need.wobble)); }
    if (need.start !== null) { put("start", startAt(n, need) === null ? 1 : over(startAt(n, need), need.start)); }
    if (need.budget !== null) { put("budget", column.cost[n] === null ? 1 : over(column.cost[n], need.budget)); }
    const moves = data.moves.values[data.moves.of[n]][0];
    if (need.motion === "swing" || need.motion === "turn") { put("motion", +(moves !== need.motion)); }
    if (need.kit) { put("kit", +(typed.keyOf("kit", n) !== need.kit)); }
    if (need.bearings) { put("bearings", +(typed.keyOf("bearings", n) !== need.bearings)); }
    SETS.forEach(function (name) { if (need[name] !== null) { put(name, +(missing(need[name], n, name) !== 0)); } });
    const state = typed.keyOf("state", n);
    if (state === "does-not-hold") { misses.sure = 1; }
    if (state === "take-care" && !careTaken(need)) { misses.sure = CARE; }
    return misses;
  }

  const RANKED = {
    cost: n => column.cost[n],
    wobble: wobbleAt,
    start: startAt,
    mass: n => column.mass[n],
    apart: n => column.apart[n]
  };

  // By one quantity, then by wobble, then by cost; what has no such quantity last.
  function ranked(joints, need) {
    const by = RANKED[need.by] || RANKED.cost;
    const keys = new Map(joints.map(function (n) {
      return [n, [by(n, need), wobbleAt(n, need), column.cost[n], n].map(x => x === null ? Infinity : x)];
    }));
    return joints.slice().sort(function (one, other) {
      const a = keys.get(one), b = keys.get(other), at = a.findIndex((x, place) => x !== b[place]);
      return at < 0 ? 0 : a[at] - b[at];
    });
  }

  // {fitting, nearest, without}: joints that meet everything, best first; those that miss least, with what they
  // miss; how many would fit if one need alone were left out.
  function answer(need) {
    const fitting = [], short = [], without = {};
    for (let n = 0; n < data.ids.length; n += 1) {
      const misses = missesOf(n, need), names = Object.keys(misses);
      if (!names.length) { fitting.push(n); continue; }
      if (names.length === 1 && !(names[0] === "sure" && misses.sure === 1)) {
        without[names[0]] = (without[names[0]] || 0) + 1;
      }
      short.push({ joint: n, misses: misses, far: names.reduce(function (sum, name) {
        return sum + misses[name] / (1 + misses[name]);
      }, 0) });
    }
    short.sort((a, b) => a.far - b.far || a.joint - b.joint);
    return { fitting: ranked(fitting, need), nearest: short.slice(0, NEAREST), without: without };
  }

  // How it is told --------------------------------------------------------------------------------------------

  const say = typed.say, element = typed.element;
  const upTo = need => careTaken(need) ? "typically " : "at most ";

  const TOLD = {
    load: (n, need) => "it carries " + say(column.load[n], "force", 3) + ", you need " + say(need.load, "force", 3),
    push: function (n, need) {
      return "along the screw it takes " + say(pushAt(n, need), "force", 2) + " at your arm, you need " + say(need.push, "force", 2);
    },
    place: n => "its load acts " + typed.word("place", n),
    beyond: function (n, need) {
      return "its load acts " + say(column.beyond[n] || 0, "length", 3) + " beyond the last bearing, yours "
        + say(need.beyond, "length", 3);
    },
    wobble: function (n, need) {
      return "it wobbles " + upTo(need) + say(wobbleAt(n, need), "length", 2) + " at your arm, "
        + say(wobbleAt(n, need) - need.wobble, "length", 2) + " more than you allow";
    },
    start: function (n, need) {
      const force = startAt(n, need);
      return force === null ? "what starts it is not known" : "it starts with " + upTo(need) + say(force, "force", 2)
        + ", " + say(force - need.start, "force", 2) + " more than you allow";
    },
    budget: function (n, need) {
      return column.cost[n] === null ? "its cost is not known" : "it costs " + say(column.cost[n], "money") + ", "
        + say(column.cost[n] - need.budget, "money") + " more than you have";
    },
    motion: n => "it is worked out for another motion: " + typed.word("motion", n),
    kit: n => "its parts are in the " + typed.word("kit", n),
    bearings: n => "it has " + typed.word("bearings", n),
    stock: n => "it sits in " + typed.word("stock", n),
    tools: function (n, need) {
      const bits = missing(need.tools, n, "tools");
      return "you lack for it: " + data.tools.values.filter((_, k) => bits >> k & 1)
        .map(pair => pair[1]).join(", ");
    },
    sure: function (n) {
      const troubles = data.troubles[data.trouble[n]];
      const named = places => places.map(k => data.checks[k]).join(", ");
      return troubles[0].length ? "it does not hold: " + named(troubles[0]) : "it needs care: " + named(troubles[1]);
    }
  };

  const LEAVE_OUT = {
    load: "without the load", push: "without the load along the screw", place: "with the load anywhere",
    beyond: "with the load nearer the bearing", wobble: "with any wobble", start: "with any starting force",
    motion: "with any motion", kit: "from any kit", bearings: "with any bearings", budget: "at any cost",
    stock: "in any stock", tools: "with every tool", sure: "with those that need care"
  };

  function facts(n, need) {
    const start = startAt(n, need);
    return [
      "wobbles " + upTo(need) + say(wobbleAt(n, need), "length", 2),
      start === null ? "" : "starts with " + upTo(need) + say(start, "force", 2),
      "carries " + say(column.load[n], "force", 3),
      column.cost[n] === null ? "" : "costs " + say(column.cost[n], "money")
    ].filter(Boolean).join("; ");
  }

  function entry(n, need, more) {
    const item = element("li"), head = element("p", "", { class: "found-joint" });
    head.append(typed.link(n), " ", typed.state(n));
    item.append(head, element("p", upperFirst(facts(n, need)) + "."));
    item.append(element("p", typed.word("layout", n) + "; load " + typed.word("place", n) + "; on " + typed.word("screw", n)
      + ", in " + typed.word("stock", n) + ", " + typed.word("fit", n) + ".", { class: "where" }));
    if (more) { item.append(element("p", "In the way: " + more + ".")); }
    const own = element("p", "");
    own.append(element("a", "Compute it with your numbers", { href: "calculator.html#" + ownNumbers(n, need) }));
    if (data.starts[n]) { item.append(own); }
    return item;
  }

  // The address of the calculator with what the need says, as far as the joint lets it be said.
  function ownNumbers(n, need) {
    const asked = [["from", data.ids[n]]], text = name => form.elements[name].value.trim();
    ["load", "arm", "push"].forEach(name => { if (need[name] !== null && text(name)) { asked.push([name, text(name)]); } });
    if (need.beyond !== null && typed.word("layout", n).charAt(0) !== "A") { asked.push(["beyond", text("beyond")]); }
    return typed.inAddress(asked);
  }

  function upperFirst(text) { return text.charAt(0).toUpperCase() + text.slice(1); }

  const part = id => document.getElementById(id);
  let shown = FIRST, found = null, need = null;

  function drawList() {
    const list = part("fitting"), more = part("more-fitting");
    list.replaceChildren(...found.fitting.slice(0, shown).map(n => entry(n, need)));
    const left = found.fitting.length - shown;
    more.hidden = left <= 0;
    more.textContent = "Show " + Math.min(MORE, left) + " more of " + left;
  }

  function drawNone() {
    const none = found.fitting.length === 0;
    part("none").hidden = !none;
    if (!none) { return; }
    part("nearest").replaceChildren(...found.nearest.map(function (near) {
      const told = Object.keys(near.misses).map(name => TOLD[name](near.joint, need));
      return entry(near.joint, need, told.join("; "));
    }));
    const buttons = Object.keys(found.without).sort((a, b) => found.without[b] - found.without[a])
      .map(function (name) {
        const item = element("li"), count = found.without[name];
        const press = element("button", count + (count === 1 ? " fits " : " fit ") + LEAVE_OUT[name], { type: "button" });
        press.addEventListener("click", function () { leaveOut(name); });
        item.append(press);
        return item;
      });
    part("ways").replaceChildren(...buttons);
    part("ways-say").textContent = buttons.length ? "One thing given up, and then:"
      : "No single thing given up is enough: each joint misses two or more.";
  }

  function leaveOut(name) {
    if (SETS.includes(name)) {
      form.querySelectorAll("input[name=" + name + "]").forEach(function (box) { box.checked = false; });
    } else {
      form.elements[name].value = name === "sure" ? "care" : "";
    }
    update();
    part("results").focus();
  }

  function status() {
    const count = found.fitting.length;
    const wrong = TEXTS.filter(name => form.elements[name].getAttribute("aria-invalid"));
    const left = wrong.length ? " Left out, as it is not understood: " + wrong.map(function (name) {
      return form.querySelector("label[for=need-" + name + "]").textContent.trim().toLowerCase();
    }).join(", ") + "." : "";
    const best = count ? " Best by " + form.elements.by.selectedOptions[0].textContent + ": "
      + typed.titleOf(found.fitting[0]) + "." : "";
    return (count === 0 ? "No worked joint does all of it." : count === 1 ? "1 worked joint does it."
      : count + " worked joints do it.") + best + left;
  }

  // Form, address and answer kept as one ------------------------------------------------------------------------

  function askedOf() {
    const asked = [];
    TEXTS.forEach(function (name) { if (form.elements[name].value.trim()) { asked.push([name, form.elements[name].value.trim()]); } });
    SELECTS.forEach(function (name) {
      if (form.elements[name].selectedIndex > 0) { asked.push([name, form.elements[name].value]); }
    });
    SETS.forEach(function (name) {
      const ticked = Array.from(form.querySelectorAll("input[name=" + name + "]:checked"), box => box.value);
      if (ticked.length) { asked.push([name, ticked.join(",")]); }
    });
    return asked;
  }

  function fillIn(address) {
    const wrong = address.broken.slice();
    form.reset();
    address.asked.forEach(function (pair) {
      const name = pair[0], text = pair[1], field = form.elements[name];
      if (TEXTS.includes(name)) {
        field.value = text;
      } else if (SELECTS.includes(name)) {
        field.value = text;
        if (field.selectedIndex < 0) { field.selectedIndex = 0; wrong.push(name + "=" + text); }
      } else if (SETS.includes(name)) {
        text.split(",").forEach(function (key) {
          const box = Array.from(form.querySelectorAll("input[name=" + name + "]")).find(one => one.value === key);
          if (box) { box.checked = true; } else { wrong.push(name + "=" + key); }
        });
      } else {
        wrong.push(name + "=" + text);
      }
    });
    form.querySelectorAll("details").forEach(function (more) {
      more.open = more.open || Array.from(more.querySelectorAll("input, select")).some(function (field) {
        return field.type === "checkbox" ? field.checked : field.value !== "" && field.selectedIndex !== 0;
      });
    });
    typed.tellLeftOut(part("address-says"), wrong);
  }

  function update(keepAddress) {
    TEXTS.forEach(function (name) { typed.valueIn(form.elements[name], true); });
    part("need-beyond-line").hidden = form.elements.place.value !== "beyond";
    const asked = askedOf();
    need = needOf(asked);
    found = answer(need);
    shown = FIRST;
    if (!keepAddress) { typed.writeAddress(asked); }
    draw();
  }

  function draw() {
    part("found").textContent = status();
    drawList();
    drawNone();
    const first = found.fitting.slice(0, COMPARED), compare = part("compare-first");
    compare.hidden = first.length < 2;
    compare.href = "finder.html#compare=" + first.map(n => data.ids[n]).join(",");
    compare.textContent = "The first " + (first.length === 2 ? "two" : "three") + " side by side";
    const start = need.by === "start";
    window.guideTradeoff(part("tradeoff"), found.fitting, {
      x: n => column.cost[n],
      y: n => start ? startAt(n, need) : wobbleAt(n, need),
      kind: start ? "force" : "length",
      name: start ? "starting force" : "wobble",
      upTo: upTo(need)
    });
  }

  form.addEventListener("change", function () { update(); });
  form.addEventListener("submit", function (event) {
    event.preventDefault();
    update();
    const wrong = form.querySelector("[aria-invalid]");
    (wrong || part("results")).focus();
  });
  part("start-again").addEventListener("click", function () {
    form.reset();
    part("address-says").hidden = true;
    update();
    form.elements.load.focus();
  });
  part("more-fitting").addEventListener("click", function () {
    const before = shown;
    shown += MORE;
    drawList();
    part("fitting").children[before].querySelector("a").focus();
  });
  document.addEventListener("guide:units", draw);
  window.addEventListener("hashchange", function () {
    const address = typed.readAddress(window.location.hash);
    if (address.asked.length || address.broken.length) { fillIn(address); update(true); }
  });

  window.guideNeed = { needOf: needOf, answer: answer };
  document.querySelectorAll("[data-with-script]").forEach(function (hidden) { hidden.hidden = false; });
  window.guideCopyButton(part("send"), () => window.location.href);
  fillIn(typed.readAddress(window.location.hash));
  update(true);
})();
