// Filters, sorts and compares all worked joints; the address behind "#" holds everything that was asked.
(function () {
  "use strict";

  const data = window.guideJoints, typed = window.guideTyped, form = document.getElementById("filter");
  if (!data || !typed || !form) { return; }

  const ROWS = 25, MOST_COMPARED = 3, SLACK = 1e-6;
  const ENDS = ["least", "most", "near"];
  const ALWAYS = ["wobble-most", "start-most", "load", "apart", "cost"];
  const element = typed.element, say = typed.say;
  const part = id => document.getElementById(id);

  // The joints that remain, and how many would if one option more were ticked ---------------------------------

  // asked: {choices: {key: [place, ...]}, least, most, near: {key: number}, sort, down}. Gives {joints, counts, far}.
  function answer(asked) {
    const choices = data.choices, counts = choices.map(one => one.values.map(() => 0));
    const ticked = choices.map(function (one) {
      const places = asked.choices[one.key];
      return places && places.length ? one.values.map((_, k) => places.includes(k)) : null;
    });
    const bounds = data.numbers.filter(one => one.key in asked.least || one.key in asked.most);
    const joints = [];
    for (let n = 0; n < data.ids.length; n += 1) {
      if (!bounds.every(one => within(one, n, asked))) { continue; }
      let missed = -1, many = 0; // which of the choices leaves it out, and how many do
      for (let c = 0; c < choices.length; c += 1) {
        if (ticked[c] && !ticked[c][choices[c].of[n]]) { missed = c; many += 1; }
      }
      if (many === 0) {
        joints.push(n);
        for (let c = 0; c < choices.length; c += 1) { counts[c][choices[c].of[n]] += 1; }
      } else if (many === 1) {
        counts[missed][choices[missed].of[n]] += 1;
      }
    }
    const near = data.numbers.filter(one => one.key in asked.near);
    const far = new Map(joints.map(n => [n, distance(n, near, asked.near)]));
    return { joints: sorted(joints, asked, far), counts: counts, far: far };
  }

  function within(one, n, asked) {
    const value = one.of[n];
    if (value === null) { return false; }
    const least = asked.least[one.key], most = asked.most[one.key];
    return (least === undefined || value >= least - Math.abs(least) * SLACK)
      && (most === undefined || value <= most + Math.abs(most) * SLACK);
  }

  // How far a joint lies from the typed numbers, each measured in the spread of its column; null: it lacks one.
  function distance(n, near, wanted) {
    let sum = 0;
    for (const one of near) {
      if (one.of[n] === null) { return null; }
      sum += Math.pow((one.of[n] - wanted[one.key]) / (one.spread || 1), 2);
    }
    return Math.sqrt(sum);
  }

  function sorted(joints, asked, far) {
    const by = data.numbers.find(one => one.key === asked.sort);
    const value = by ? n => by.of[n] : asked.sort === "state" ? n => typed.choice("state").of[n]
      : n => far.get(n);
    const sense = asked.down ? -1 : 1;
    return joints.slice().sort(function (one, other) {
      const a = value(one), b = value(other);
      if (a === null || b === null) { return (a === null) - (b === null) || one - other; } // what has no such number last
      return sense * (a - b) || one - other;
    });
  }

  // Form and address ------------------------------------------------------------------------------------------

  let shown = ROWS, found = null, asked = null, compared = [];

  function askedOf() {
    const of = { choices: {}, least: {}, most: {}, near: {}, sort: form.elements.sort.value, down: form.elements.down.checked };
    data.choices.forEach(function (one) {
      of.choices[one.key] = boxes(one.key).map((box, k) => box.checked ? k : -1).filter(k => k >= 0);
    });
    numberFields().forEach(function (field) {
      const end = field.name.split(".")[0], key = field.name.split(".")[1], read = typed.valueIn(field, true);
      if (!read.wrong && read.value !== null) { of[end][key] = read.value; }
    });
    if (!of.sort) { of.sort = Object.keys(of.near).length ? "near" : "state"; }
    if (of.sort === "near" && !Object.keys(of.near).length) { of.sort = "state"; }
    return of;
  }

  function boxes(key) { return Array.from(form.querySelectorAll("input[name=" + key + "]")); }
  function numberFields() { return Array.from(form.querySelectorAll("input[data-kind]")); }

  function pairs() {
    const of = [];
    data.choices.forEach(function (one) {
      const ticked = boxes(one.key).filter(box => box.checked).map(box => box.value);
      if (ticked.length) { of.push([one.key, ticked.join(",")]); }
    });
    numberFields().forEach(function (field) { if (field.value.trim()) { of.push([field.name, field.value.trim()]); } });
    if (form.elements.sort.value) { of.push(["sort", form.elements.sort.value]); }
    if (form.elements.down.checked) { of.push(["down", "yes"]); }
    if (compared.length) { of.push(["compare", compared.map(n => data.ids[n]).join(",")]); }
    return of;
  }

  function fillIn(address) {
    const wrong = address.broken.slice();
    form.reset();
    compared = [];
    address.asked.forEach(function (pair) {
      const name = pair[0], text = pair[1], keys = text.split(",").filter(Boolean);
      if (data.choices.some(one => one.key === name)) {
        keys.forEach(function (key) {
          const box = boxes(name).find(one => one.value === key);
          if (box) { box.checked = true; } else { wrong.push(name + "=" + key); }
        });
      } else if (numberFields().some(field => field.name === name)) {
        form.elements[name].value = text;
      } else if (name === "sort") {
        form.elements.sort.value = text;
        if (form.elements.sort.selectedIndex < 0) { form.elements.sort.selectedIndex = 0; wrong.push(name + "=" + text); }
      } else if (name === "down" && text === "yes") {
        form.elements.down.checked = true;
      } else if (name === "compare") {
        keys.forEach(function (key) {
          const n = data.ids.indexOf(key);
          if (n >= 0 && compared.length < MOST_COMPARED && !compared.includes(n)) { compared.push(n); } else { wrong.push(name + "=" + key); }
        });
      } else { wrong.push(name + "=" + text); }
    });
    form.querySelectorAll("details").forEach(function (folded) {
      folded.open = folded.open || Array.from(folded.querySelectorAll("input")).some(function (field) {
        return field.type === "checkbox" ? field.checked : field.value !== "";
      });
    });
    typed.tellLeftOut(part("address-says"), wrong);
  }

  // How it is shown -------------------------------------------------------------------------------------------

  function update(keepAddress) {
    asked = askedOf();
    found = answer(asked);
    shown = ROWS;
    if (!keepAddress) { typed.writeAddress(pairs()); }
    draw();
  }

  function draw() {
    const wrong = form.querySelectorAll("[aria-invalid]").length, count = found.joints.length;
    part("found").textContent = (count ? count + " of " + data.ids.length + " joints remain."
      : "None of the " + data.ids.length + " joints remains: take something away.")
      + (wrong ? " " + wrong + (wrong === 1 ? " number is" : " numbers are") + " not understood and left out." : "");
    data.choices.forEach(function (one, c) {
      boxes(one.key).forEach(function (box, k) {
        const told = box.parentNode.querySelector(".count");
        told.textContent = found.counts[c][k];
        box.parentNode.classList.toggle("nothing", found.counts[c][k] === 0);
      });
    });
    drawTable();
    drawCompared();
  }

  function columnsShown() {
    const used = [asked.sort].concat(Object.keys(asked.near), Object.keys(asked.least), Object.keys(asked.most));
    return data.numbers.filter(one => ALWAYS.includes(one.key) || used.includes(one.key));
  }

  function cell(value, one, tag) {
    const made = element(tag || "td", "", { class: "n" });
    if (value === null) { made.textContent = "\u2013"; return made; }
    const texts = typed.both(value, one.kind, one.digits);
    made.textContent = texts[0];
    if (texts[1]) { made.append(" ", element("small", texts[1])); }
    return made;
  }

  function signedSay(value, one) {
    return (value > 0 ? "+" : "") + typed.both(value, one.kind, one.digits)[0];
  }

  function head(words, key) {
    const made = element("th", "", { scope: "col" });
    const press = element("button", words, { type: "button" });
    if (asked.sort === key) { made.setAttribute("aria-sort", asked.down ? "descending" : "ascending"); }
    press.addEventListener("click", function () {
      form.elements.down.checked = asked.sort === key && !form.elements.down.checked;
      form.elements.sort.value = key;
      update();
      part("rows").querySelector("th[aria-sort] button").focus();
    });
    made.append(press);
    return made;
  }

  function drawTable() {
    const columns = columnsShown(), table = part("rows"), heads = element("tr");
    heads.append(element("th", "Joint", { scope: "col" }), head("State", "state"));
    columns.forEach(function (one) {
      heads.append(head(one.name, one.key));
      if (one.key in asked.near) { heads.append(element("th", "differs by", { scope: "col" })); }
    });
    heads.append(element("th", "Built as", { scope: "col" }), element("th", "Side by side", { scope: "col" }));
    const body = element("tbody");
    found.joints.slice(0, shown).forEach(function (n) { body.append(rowOf(n, columns)); });
    const top = element("thead");
    top.append(heads);
    table.tHead.replaceWith(top);
    table.tBodies[0].replaceWith(body);
    const left = found.joints.length - shown, more = part("more-rows");
    more.hidden = left <= 0;
    more.textContent = "Show " + Math.min(ROWS, left) + " more of " + left;
  }

  function rowOf(n, columns) {
    const row = element("tr"), name = element("th", "", { scope: "row" }), state = element("td");
    name.append(typed.link(n));
    state.append(typed.state(n));
    row.append(name, state);
    columns.forEach(function (one) {
      row.append(cell(one.of[n], one));
      if (one.key in asked.near) {
        row.append(element("td", one.of[n] === null ? "\u2013" : signedSay(one.of[n] - asked.near[one.key], one), { class: "n" }));
      }
    });
    row.append(element("td", "Layout " + typed.word("layout", n).split(":")[0] + " on " + typed.word("screw", n) + ", "
      + typed.word("stock", n) + ", " + typed.word("fit", n)));
    const pick = element("td"), press = element("button", "Compare", { type: "button", class: "pick",
      "aria-pressed": String(compared.includes(n)), "aria-label": "Compare " + typed.titleOf(n) + ", " + data.ids[n] });
    press.addEventListener("click", function () { toggle(n, press); });
    pick.append(press);
    row.append(pick);
    return row;
  }

  function toggle(n, press) {
    const told = part("compare-says");
    if (compared.includes(n)) {
      compared = compared.filter(other => other !== n);
      told.textContent = compared.length + " chosen to compare.";
    } else if (compared.length === MOST_COMPARED) {
      told.textContent = "Three at most: take one away first.";
      return;
    } else {
      compared = compared.concat(n);
      told.textContent = compared.length === 1 ? "1 chosen; choose another to compare." : compared.length + " chosen; see them side by side below the table.";
    }
    if (press) { press.setAttribute("aria-pressed", String(compared.includes(n))); }
    typed.writeAddress(pairs());
    drawCompared();
  }

  const LETTERS = ["A", "B", "C"];

  // What a number does from one joint to another, in words; "" where it stays about the same.
  function differs(one, here, there) {
    const a = one.of[here], b = one.of[there];
    if (a === null || b === null || Math.abs(b - a) <= 0.02 * Math.max(Math.abs(a), Math.abs(b))) { return ""; }
    if (one.kind === "hours" && Math.min(a, b) > 1e5) { return ""; }
    return say(Math.abs(b - a), one.kind, 2) + " " + (b < a ? one.less : one.more);
  }

  function inWords(here, there) {
    const numbers = data.numbers.map(function (one) {
      const words = differs(one, here, there);
      return words && one.name.toLowerCase() + " " + words;
    });
    const choices = data.choices.map(function (one) {
      return one.of[here] === one.of[there] ? "" : one.values[one.of[there]][1] + " instead of " + one.values[one.of[here]][1];
    });
    return numbers.concat(choices).filter(Boolean).join("; ") || "the same in all that is listed here";
  }

  function drawCompared() {
    const place = part("compare"), table = part("compared");
    place.hidden = compared.length === 0;
    if (place.hidden) { return; }
    const heads = element("tr"), body = element("tbody"), top = element("thead"), first = compared[0];
    heads.append(element("td"));
    compared.forEach(function (n, k) {
      const made = element("th", LETTERS[k] + ": ", { scope: "col" }), away = element("button", "Take away " + LETTERS[k], { type: "button", class: "pick" });
      away.addEventListener("click", function () {
        toggle(n, null);
        drawTable();
        (part("compared").querySelector("button") || part("found")).focus();
      });
      made.append(typed.link(n), " ", typed.state(n), element("br"), away);
      heads.append(made);
    });
    data.choices.slice(1).forEach(function (one) {
      body.append(compareRow(one.name, function (n) {
        const made = element("td", one.values[one.of[n]][1]);
        if (one.of[n] !== one.of[first]) { made.append(" ", element("small", "differs")); }
        return made;
      }));
    });
    data.numbers.forEach(function (one) {
      body.append(compareRow(one.name, function (n) {
        const made = cell(one.of[n], one), words = n === first ? "" : differs(one, first, n);
        if (words) { made.append(element("small", words)); }
        return made;
      }));
    });
    top.append(heads);
    table.tHead.replaceWith(top);
    table.tBodies[0].replaceWith(body);
    part("in-words").replaceChildren(...compared.slice(1).map(function (n, k) {
      return element("li", LETTERS[k + 1] + " beside A: " + inWords(first, n) + ".");
    }));
  }

  function compareRow(name, of) {
    const row = element("tr");
    row.append(element("th", name, { scope: "row" }));
    compared.forEach(function (n) { row.append(of(n)); });
    return row;
  }

  form.addEventListener("change", function () { update(); });
  form.addEventListener("submit", function (event) {
    event.preventDefault();
    update();
    (form.querySelector("[aria-invalid]") || part("found")).focus();
  });
  part("start-again").addEventListener("click", function () {
    form.reset();
    compared = [];
    part("address-says").hidden = true;
    update();
    part("found").focus();
  });
  part("more-rows").addEventListener("click", function () {
    const before = shown;
    shown += ROWS;
    drawTable();
    part("rows").tBodies[0].rows[before].querySelector("a").focus();
  });
  document.addEventListener("guide:units", draw);
  window.addEventListener("hashchange", function () {
    const address = typed.readAddress(window.location.hash);
    if (address.asked.length || address.broken.length) { fillIn(address); update(true); }
  });

  window.guideFinder = { answer: answer };
  document.querySelectorAll("[data-with-script]").forEach(function (hidden) { hidden.hidden = false; });
  window.guideCopyButton(part("send"), () => window.location.href);
  fillIn(typed.readAddress(window.location.hash));
  update(true);
})();
