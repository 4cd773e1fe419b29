// The page that computes a joint of the reader's own: form and address in, checks, numbers, section and joint file out.
(function () {
  "use strict";

  const G = window.guideGrounds, data = window.guideJoints, typed = window.guideTyped, told = window.guideTold;
  const reckoned = window.guideReckon, form = document.getElementById("numbers");
  if (!G || !data || !typed || !told || !reckoned || !form) { return; }

  const part = id => document.getElementById(id), element = typed.element;
  const PLAIN = { load: "radial", push: "axial", arm: "arm", apart: "separation", beyond: "overhang", shock: "shock" };
  const MOTION = ["angle", "rate", "hours"], LISTS = ["before", "after"], SELECTS = ["moves", "direction", "with"];
  const SIZES = ["shaft"].concat(...[1, 2].map(n => ["free_bore_", "bore_", "outside_diameter_", "hole_"].map(size => size + n)));
  const TEXTS = Object.keys(PLAIN).concat(MOTION, SIZES);
  const SENSE = { least: "at least", most: "at most" };
  const STATES = { "holds": "holds", "take care": "care", "does not hold": "fails" };
  const MOVES = { swing: "swings to and fro", turn: "turns round and round", hand: "moved by hand" };
  const LEAST = 0, TYPICAL = 1, MOST = 2;
  let from = null, ground = null, last = null;

  // What the fields say -------------------------------------------------------------------------------------

  function wrongIn(name, wrong) { typed.tellWrong(form.elements[name], wrong); }

  // {changed, wrong} of the form: what differs from the worked joint; wrong: how many entries cannot be used.
  function read() {
    const changed = { measured: {} }, given = {};
    TEXTS.forEach(function (name) {
      const field = form.elements[name], found = typed.valueIn(field, true);
      if (!found.wrong && found.value !== null && !field.disabled) { given[name] = found.value; }
    });
    Object.keys(PLAIN).forEach(name => { if (name in given) { changed[PLAIN[name]] = given[name]; } });
    if (form.elements.direction.value) { changed.direction = form.elements.direction.value; }
    changed.motion = motionOf(given);
    if (given.apart !== undefined && given.apart < G.bodies[ground.body].least) {
      wrongIn("apart", "Nearer than " + say(G.bodies[ground.body].least, "length") + " they meet.");
      delete changed.separation;
    }
    readSizes(given, changed);
    readLists(changed);
    return { changed: changed, wrong: form.querySelectorAll("[aria-invalid]").length };
  }

  function motionOf(given) {
    const worked = ground.motion, kind = form.elements.moves.value || worked[0], own = kind === worked[0];
    const needs = { swing: ["angle", "rate"], turn: ["rate"], hand: [] }[kind];
    ["angle", "rate", "hours"].forEach(function (name) {
      part("own-" + name + "-line").hidden = kind === "hand" || name === "angle" && kind !== "swing";
    });
    needs.forEach(function (name) {
      if (!own && given[name] === undefined && !form.elements[name].getAttribute("aria-invalid")) {
        wrongIn(name, "The worked joint does not move so: say it. Write for example " + data.kinds[name].example + ".");
      }
    });
    const pick = (name, k) => given[name] !== undefined ? given[name] : own ? worked[k] : 0;
    if (kind === "hand") { return ["hand", 0, 0, 0]; }
    return [kind, kind === "swing" ? pick("angle", 1) : 0, pick("rate", 2), given.hours !== undefined ? given.hours : worked[3]];
  }

  // Measured sizes with the error of the instrument; far from the part's own, they are of another part.
  function readSizes(given, changed) {
    const error = G.instruments[form.elements.with.value], seats = ground.seats.map(k => G.seats[k]);
    SIZES.forEach(function (name) {
      if (given[name] === undefined) { return; }
      const n = name.slice(-1) - 1, seat = seats[n], size = given[name];
      const own = name === "shaft" ? G.screws[ground.screw].diameter : /^outside/.test(name) ? seat.outside
        : /^hole/.test(name) ? seat.hole : seat.bores;
      if (Math.abs(size - own[TYPICAL]) > G.constants.mismeasured) {
        wrongIn(name, "That is more than " + say(G.constants.mismeasured, "length") + " from its own " + say(own[TYPICAL], "length", 4) + ": another part, or a slip.");
      } else if (/^outside/.test(name) && given["hole_" + (n + 1)] === undefined) {
        wrongIn(name, "Measure its hole too: the hole to draw would change with it.");
      } else {
        changed.measured[name] = [size - error, size, size + error];
      }
    });
  }

  function readLists(changed) {
    const kit = G.kits[ground.kit], used = {};
    const lists = LISTS.map(name => form.elements[name].value.trim().split(/[\s,]+/).filter(Boolean));
    lists.forEach(function (ids, k) {
      const name = LISTS[k];
      let wrong = "";
      ids.forEach(function (id) {
        const of = G.parts[id], slides = of && (id === ground.cheek || (of[2] === "Washer" || of[2] === "Spacer"));
        used[id] = (used[id] || 0) + 1;
        if (!Object.hasOwn(G.parts, id) || !slides) { wrong = "\u201c" + id.slice(0, 40) + "\u201d is no washer or spacer."; }
        else if (id !== ground.cheek && !(id in kit)) { wrong = id + " is not in this kit."; }
        else if (id !== ground.cheek && of[3] < G.screws[ground.screw].diameter[LEAST]) { wrong = id + " does not pass over the shoulder."; }
        else if (id !== ground.cheek && used[id] > kit[id]) { wrong = "The kit has only " + kit[id] + " of " + id + "."; }
      });
      const cheek = k ? ids[ids.length - 1] : ids[0];
      if (ground.cheek && cheek !== ground.cheek) { wrong = "The cheek " + ground.cheek + " must stand " + (k ? "last." : "first."); }
      wrongIn(name, wrong);
      if (!wrong) { changed[name] = ids; }
    });
  }

  // The worked joint in the fields ----------------------------------------------------------------------------

  function start(id) {
    const n = data.ids.indexOf(id);
    from = id;
    ground = G.joints[n];
    let option = Array.from(form.elements.from.options).find(one => one.value === id);
    if (!option) {
      option = element("option", typed.titleOf(n), { value: id });
      form.elements.from.append(option);
    }
    form.elements.from.value = id;
    hints(n);
    LISTS.forEach(name => { form.elements[name].value = ground[name].join(" "); });
  }

  // Beside each field the number of the worked joint; what its parts decide cannot be typed.
  function hints(n) {
    const own = {
      load: say(ground.radial, "force"), push: say(ground.axial, "force"), arm: say(ground.arm, "length"),
      apart: ground.separation === null ? "" : say(ground.separation, "length"),
      beyond: ground.overhang === null ? "" : say(ground.overhang, "length"),
      angle: say(ground.motion[1], "angle"), rate: say(ground.motion[2], "rate"), hours: say(ground.motion[3], "hours"),
      shock: String(ground.shock)
    };
    Object.keys(own).forEach(name => { part("own-" + name + "-says").textContent = "Worked: " + (own[name] || "\u2013"); });
    part("own-moves-says").textContent = "Worked: " + MOVES[ground.motion[0]];
    const from_ = part("own-from-says");
    from_.replaceChildren(typed.link(n), ", ", typed.state(n));
    able("apart", !ground.clamped && ground.separation !== null,
      ground.separation === null ? "It has but one bearing" : "Its clamped rings decide it: " + own.apart);
    const decided = ground.layout === "A";
    const at = decided ? reckoned.reckon(ground, {}).lies.overhang : 0;
    able("beyond", !decided, "The parts on the screw decide it: " + say(at, "length"));
    SIZES.forEach(function (name) {
      const seat = name === "shaft" ? null : G.seats[ground.seats[name.slice(-1) - 1]];
      const there = name === "shaft" || seat && !(seat.ball && /^free/.test(name));
      part("own-" + name + "-line").hidden = !there;
      if (!there) { form.elements[name].value = ""; return; }
      const band = !seat ? G.screws[ground.screw].diameter : /^outside/.test(name) ? seat.outside : /^hole/.test(name) ? seat.hole : seat.bores;
      part("own-" + name + "-says").textContent = name.startsWith("bore") && !seat.ball ? "Sets the clearance, whatever the press does"
        : "Limits: " + say(band[LEAST], "length", 5) + " to " + say(band[MOST], "length", 5);
    });
    part("own-before-says").textContent = "Worked: " + (ground.before.join(" ") || "none");
    part("own-after-says").textContent = "Worked: " + (ground.after.join(" ") || "none");
  }

  function able(name, may, why) {
    const field = form.elements[name];
    field.disabled = !may;
    if (!may) { field.value = ""; part("own-" + name + "-says").textContent = why; }
  }

  // Numbers out -------------------------------------------------------------------------------------------------

  function say(value, kind, digits) { return typed.say(value, kind, digits || 3); }

  const ANGLES = "rad", NOTHING = 1e-9;

  // A result in its unit, in both unit systems, as the pages have it.
  function number(value, unit, digits) {
    if (Math.abs(value) < NOTHING) { return "0" + (unit === "-" ? "" : " " + unit); }
    if (unit === "-") { return Math.abs(value) > 1e15 ? "endless" : typed.rounded(value, digits); }
    if (unit === ANGLES) {
      return typed.rounded(1000 * value, digits) + " mrad (" + typed.rounded(value * 180 / Math.PI, digits) + "\u00b0)";
    }
    const metric = typed.rounded(value, digits) + " " + unit, other = told.inch[unit];
    if (!other) { return metric; }
    const inch = typed.rounded(value * other[1], digits) + " " + other[0];
    return window.guideUnits.first(data.first) === "in" ? inch + " (" + metric + ")" : metric + " (" + inch + ")";
  }

  function unitOf(name) {
    for (const chapter of told.chapters) {
      const row = chapter[1].find(one => one[0] === name);
      if (row) { return row; }
    }
    return [name, name, "-"];
  }

  function show(found) {
    const states = found.states, worst = states.filter(one => one.state !== "holds");
    const fails = worst.filter(one => one.state === "does not hold").length;
    part("out-says").textContent = fails ? "It does not hold: " + fails + (fails === 1 ? " check says no." : " checks say no.")
      : worst.length ? "It holds at typical sizes; " + worst.length + (worst.length === 1 ? " check asks" : " checks ask") + " for care."
        : "It holds: all " + states.length + " checks made here.";
    const travel = found.told.seen_tilt.map(theta => 2 * found.joint.arm * theta);
    part("out-more").textContent = "Wobble at the arm, total travel: " + number(travel[TYPICAL], "mm", 2) + ", at most " + number(travel[MOST], "mm", 2)
      + ". Starts with " + number(found.told.start_force[TYPICAL], "N", 2) + " at the arm, at most " + number(found.told.start_force[MOST], "N", 2) + ".";
    part("out-checks").replaceChildren(...worst.map(function (one) {
      const row = unitOf(one.name), value = found.told[one.name], item = element("li");
      item.append(element("b", one.state, { class: "state " + STATES[one.state] }), " " + one.about + ": " + lowerFirst(row[1]) + ": "
        + valueWords(value, row[2]) + "; wanted: " + wanted(one, row[2]) + ".");
      return item;
    }));
    part("out-tables").replaceChildren(...told.chapters.map(chapter => table(chapter, found, states)).filter(Boolean));
    const place = part("section"), said = mm => number(mm, "mm", 3).split(" (")[0];
    const svg = window.guideSection(found, { apart: said(found.joint.separation || 0), beyond: said(Math.abs(found.lies.overhang)) });
    const title = "Section to scale" + (found.joint.single ? "" : ", bearings " + said(found.joint.separation) + " apart")
      + ", load " + said(Math.abs(found.lies.overhang)) + (found.lies.overhang < 0 ? " before" : " beyond") + " the last bearing";
    svg.setAttribute("aria-label", title);
    place.querySelector("svg").replaceWith(svg);
    place.querySelector("figcaption").textContent = title + ".";
    place.hidden = false;
  }

  function lowerFirst(text) { return text.charAt(0).toLowerCase() + text.slice(1); }

  function wanted(check, unit) {
    if (check.sense === "between") { return number(check.limit[0], unit, 2) + " to " + number(check.limit[1], unit, 2); }
    if (check.sense === "ceiling") { return "below " + number(check.limit[0], unit, 3) + ", never above " + number(check.limit[1], unit, 3); }
    return SENSE[check.sense] + " " + number(check.limit, unit, 3);
  }

  function valueWords(value, unit) {
    if (!Array.isArray(value)) { return number(value, unit, 3); }
    if (value[LEAST] === value[MOST]) { return number(value[TYPICAL], unit, 3); }
    return number(value[TYPICAL], unit, 3) + ", between " + number(value[LEAST], unit, 3) + " and " + number(value[MOST], unit, 3);
  }

  function table(chapter, found, states) {
    const rows = chapter[1].filter(row => row[0] in found.told);
    if (!rows.length) { return null; }
    const made = element("table", "", { class: "data" }), body = element("tbody"), heads = element("tr");
    ["", "least", "typical", "most", "check"].forEach(words => heads.append(words ? element("th", words, { scope: "col" }) : element("td")));
    rows.forEach(function (row) {
      const line = element("tr"), value = found.told[row[0]], band = Array.isArray(value);
      line.append(element("th", row[1], { scope: "row" }));
      [LEAST, TYPICAL, MOST].forEach(function (end) {
        line.append(cellOf(band ? number(value[end], row[2], 3) : end === TYPICAL ? number(value, row[2], 3) : ""));
      });
      const cell = element("td"), mine = states.filter(one => one.name === row[0]);
      if (mine.length) { cell.append(element("b", mine[0].state, { class: "state " + STATES[mine[0].state] })); }
      line.append(cell);
      body.append(line);
    });
    const top = element("thead"), scroll = element("div", "", { class: "scroll", role: "region", tabindex: "0", "aria-label": chapter[0] });
    top.append(heads);
    made.append(element("caption", chapter[0]), top, body);
    scroll.append(made);
    return scroll;
  }

  // "8 mm (0.315 in)" with the second unit small below the first.
  function cellOf(words) {
    const cell = element("td", "", { class: "n" }), pair = /^(.*) \((.*)\)$/.exec(words);
    cell.append(pair ? pair[1] : words);
    if (pair) { cell.append(" ", element("small", pair[2])); }
    return cell;
  }

  // From what was measured ---------------------------------------------------------------------------------------

  const backward = part("measured"), BACK = ["travel", "error", "endplay"], READING = 0.1; // mm; a ruler held by hand

  function fromMeasured(changed) {
    const given = {};
    BACK.forEach(function (name) {
      const found = typed.valueIn(backward.elements[name], true);
      if (!found.wrong && found.value !== null) { given[name] = found.value; }
    });
    const place = part("back-says"), error = given.error === undefined ? READING : given.error;
    place.replaceChildren();
    if (!last) { return; }
    const mm = (x, digits) => number(x, "mm", digits || 3);
    if (given.travel !== undefined) {
      const seen = last.told.seen_tilt.map(theta => 2 * last.joint.arm * theta), y = given.travel;
      const where = y + error < seen[LEAST] ? "less than any parts within their limits leave: something pinches, rubs or is tighter than drawn"
        : y - error > seen[MOST] ? "more than any parts within their limits give: a hole is too large, something has worn, or a nut or screw is loose"
          : Math.abs(y - seen[TYPICAL]) <= error ? "what parts of typical size give, as near as the reading tells"
            : "within what parts within their limits give";
      place.append(element("p", "Reckoned: " + mm(seen[TYPICAL], 2) + ", between " + mm(seen[LEAST], 2) + " and " + mm(seen[MOST], 2)
        + ". Seen: " + mm(y, 2) + ", give or take " + mm(error, 2) + ". That is " + where + "."));
      place.append(blamed(reckoned.blame(ground, changed, y, error), mm));
    }
    if (given.endplay !== undefined && last.told.end_play) {
      const off = last.told.end_play[TYPICAL] - given.endplay, band = last.told.end_play;
      const may = given.endplay + error < band[LEAST] || given.endplay - error > band[MOST] ? "more than their limits allow: count them again"
        : "within their limits";
      place.append(element("p", Math.abs(off) <= error ? "The end play is that of parts of typical size, as near as the reading tells."
        : "All that stands on the shoulder is together " + mm(Math.abs(off), 2) + (off > 0 ? " longer" : " shorter") + " than at typical sizes, " + may
          + ". Wanted: " + mm(ground.window[0], 2) + " to " + mm(ground.window[1], 2) + " of end play: "
          + (given.endplay > ground.window[1] ? "add about " + mm(given.endplay - (ground.window[0] + ground.window[1]) / 2, 2) + "."
            : given.endplay < ground.window[0] ? "take away about " + mm((ground.window[0] + ground.window[1]) / 2 - given.endplay, 2) + "." : "leave it.")));
    }
  }

  function sizeWords(names) {
    const words = told.sizes[names[0]] || names[0];
    return names.length > 1 ? words.replace(/, bearing 1$/, "") + ", both bearings" : words;
  }

  // Which size would alone explain it: what a caliper would have to find.
  function blamed(rows, mm) {
    const made = element("table", "", { class: "data" }), body = element("tbody"), heads = element("tr"), top = element("thead");
    ["If it were this alone", "it would measure", "give or take the reading", "its limits", "so"].forEach(words => heads.append(element("th", words, { scope: "col" })));
    rows.forEach(function (one) {
      const line = element("tr"), within = one.most >= one.band[LEAST] && one.least <= one.band[MOST];
      line.append(element("th", sizeWords(one.names), { scope: "row" }), cellOf(mm(one.size, 5)));
      line.append(element("td", mm(one.least, 5).split(" ")[0] + " to " + mm(one.most, 5).split(" (")[0], { class: "n" }));
      line.append(element("td", mm(one.band[LEAST], 5).split(" ")[0] + " to " + mm(one.band[MOST], 5).split(" (")[0], { class: "n" }));
      line.append(element("td", within ? "it may be: measure it" : "not within its limits"));
      body.append(line);
    });
    top.append(heads);
    made.append(element("caption", rows.length ? "Which size alone would explain it, all others typical" : "No one size alone explains it: look for what is loose, worn or rubbing"), top, body);
    const scroll = element("div", "", { class: "scroll", role: "region", tabindex: "0", "aria-label": "Which size explains it" });
    scroll.append(made);
    return scroll;
  }

  // The joint file -------------------------------------------------------------------------------------------------

  function yaml(value) {
    if (Array.isArray(value)) { return "[" + value.map(yaml).join(", ") + "]"; }
    if (value !== null && typeof value === "object") {
      return "{" + Object.keys(value).map(key => key + ": " + yaml(value[key])).join(", ") + "}";
    }
    return typeof value === "string" && !/^[a-z][\w -]*$|^-?[\d.]+ [\w\/]+$/.test(value) ? JSON.stringify(value) : String(value);
  }

  // Plain digits, six decimals, never with an exponent: as exact as a joint file is read.
  function digits(x) { return String(Number(x.toFixed(6))); }

  function few(x) { return String(Number(x.toPrecision(10))); }

  function fileOf(changed) {
    const joint = Object.assign({}, ground, changed), file = G.files[ground.file], motion = joint.motion;
    const seats = ground.seats.map(k => G.seats[k].bearing);
    const lines = { title: "Own numbers, from " + from, shaft: file.shaft, bearings: file.bearings };
    if (joint.separation !== null) { lines.separation = digits(joint.separation) + " mm"; }
    if (joint.overhang !== null) { lines.overhang = digits(joint.overhang) + " mm"; }
    lines.load = { radial: digits(joint.radial) + " N", axial: digits(joint.axial) + " N", shock: +joint.shock, direction: G.directions[joint.direction] };
    lines.arm = digits(joint.arm) + " mm";
    lines.motion = { kind: motion[0] };
    if (motion[0] === "swing") { Object.assign(lines.motion, { angle: few(motion[1] * 180 / Math.PI) + " deg", rate: few(60 * motion[2]) + " /min" }); }
    if (motion[0] === "turn") { lines.motion.speed = few(60 * motion[2]) + " rpm"; }
    if (motion[0] !== "hand" && motion[3]) { lines.motion.hours = motion[3]; }
    Object.keys(file).forEach(function (key) { if (!(key in lines)) { lines[key] = file[key]; } });
    lines.stack = joint.before.concat(seats[0], joint.inside, seats.slice(1), joint.after, joint.thread);
    const sizes = Object.keys(changed.measured);
    if (sizes.length) {
      lines.measured = {};
      sizes.forEach(name => { lines.measured[name] = digits(changed.measured[name][TYPICAL]) + " mm"; });
      lines.measured.with = form.elements.with.value;
    }
    return "# From the calculator of " + G.course.title.replace(/\s+/g, " ") + "\n"
      + Object.keys(lines).map(key => key + ": " + yaml(lines[key])).join("\n") + "\n";
  }

  // All kept as one ---------------------------------------------------------------------------------------------------

  function asked() {
    const of = [["from", from]];
    TEXTS.forEach(function (name) { const text = form.elements[name].value.trim(); if (text) { of.push([name, text]); } });
    SELECTS.forEach(function (name) { if (form.elements[name].selectedIndex > 0) { of.push([name, form.elements[name].value]); } });
    BACK.forEach(function (name) { const text = backward.elements[name].value.trim(); if (text) { of.push([name, text]); } });
    LISTS.forEach(function (name) {
      const text = form.elements[name].value.trim().split(/[\s,]+/).filter(Boolean).join(" ");
      if (text !== ground[name].join(" ")) { of.push([name, text]); }
    });
    return of;
  }

  function fillIn(address) {
    const wrong = address.broken.slice(), given = {};
    form.reset();
    backward.reset();
    address.asked.forEach(pair => { given[pair[0]] = pair[1]; });
    const wantedId = given.from, able_ = wantedId !== undefined && G.joints[data.ids.indexOf(wantedId)];
    if (wantedId !== undefined && !able_) { wrong.push("from=" + wantedId); }
    start(able_ ? wantedId : form.elements.from.options[0].value);
    Object.keys(given).forEach(function (name) {
      const text = given[name], field = form.elements[name];
      if (name === "from") { return; }
      if (BACK.includes(name)) { backward.elements[name].value = text; return; }
      if (TEXTS.includes(name) && !field.disabled && !part("own-" + name + "-line").hidden || LISTS.includes(name)) {
        field.value = text;
      } else if (SELECTS.includes(name) && Array.from(field.options).some(one => one.value === text)) {
        field.value = text;
      } else { wrong.push(name + "=" + text); }
    });
    form.querySelectorAll("details").forEach(function (more) {
      more.open = more.open || Array.from(more.querySelectorAll("input, select")).some(field => field.name in given);
    });
    typed.tellLeftOut(part("address-says"), wrong);
  }

  const REFUSED = {
    longer: by => "It cannot be put together: all that stands on the shoulder is " + number(by, "mm", 2)
      + " longer than the shoulder. Bring the bearings nearer to each other, or take a washer or spacer away.",
    gap: by => "It cannot be put together: what stands between the bearings is " + number(by, "mm", 2) + " longer than the gap between them."
  };

  function update(keepAddress) {
    const entries = read();
    if (!keepAddress) { typed.writeAddress(asked()); }
    const found = entries.wrong ? null : reckoned.reckon(ground, entries.changed);
    last = found && !found.wrong ? found : null;
    part("file-text").textContent = last ? fileOf(entries.changed) : "";
    part("file-save").href = last ? URL.createObjectURL(new Blob([part("file-text").textContent], { type: "text/yaml" })) : "#joint-file";
    draw(entries, found);
    fromMeasured(entries.changed);
  }

  function draw(entries, found) {
    if (last) { show(last); return; }
    part("out-says").textContent = entries.wrong ? (entries.wrong === 1 ? "One entry is" : entries.wrong + " entries are")
      + " not understood: see what is said beside it. No number is shown meanwhile." : REFUSED[found.wrong](found.by);
    part("out-more").textContent = "";
    part("section").hidden = true;
    ["out-checks", "out-tables"].forEach(id => part(id).replaceChildren());
  }

  form.addEventListener("change", function (event) {
    if (event.target.name === "from") {
      const chosen = form.elements.from.value;
      form.reset();
      start(chosen);
    }
    update();
  });
  backward.addEventListener("change", () => update());
  backward.addEventListener("submit", function (event) {
    event.preventDefault();
    update();
    (backward.querySelector("[aria-invalid]") || part("back-says")).focus();
  });
  form.addEventListener("submit", function (event) {
    event.preventDefault();
    update();
    (form.querySelector("[aria-invalid]") || part("comes-out")).focus();
  });
  part("start-again").addEventListener("click", function () {
    const kept = from;
    form.reset();
    part("address-says").hidden = true;
    start(kept);
    update();
    form.elements.from.focus();
  });
  document.addEventListener("guide:units", function () {
    hints(data.ids.indexOf(from));
    update(true);
  });
  window.addEventListener("hashchange", function () {
    const address = typed.readAddress(window.location.hash);
    if (address.asked.length || address.broken.length) { fillIn(address); update(true); }
  });

  // It shows no number unless it finds what the program of this guide found.
  const failed = reckoned.failures();
  window.guideCalculator = { failed: failed, result: () => last };
  if (failed.length) {
    const told_ = part("not-proved");
    told_.hidden = false;
    told_.textContent = "This browser does not come to the numbers of this guide (" + failed.length + " differ, first " + failed[0][1]
      + "). So that nobody builds by wrong numbers, none is shown. The worked joints and the program itself are not touched by this.";
    return;
  }
  document.querySelectorAll("[data-with-script]").forEach(hidden => { hidden.hidden = false; });
  window.guideCopyButton(part("send"), () => window.location.href);
  fillIn(typed.readAddress(window.location.hash));
  update(true);
})();
