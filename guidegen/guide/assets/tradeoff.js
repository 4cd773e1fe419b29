// Draws what one quantity costs in another: a point a joint, each a link; those that none beats in both are joined.
(function () {
  "use strict";

  const typed = window.guideTyped;
  if (!typed) { return; }
  const SVG = "http://www.w3.org/2000/svg", WIDTH = 360, HEIGHT = 260;
  const LEFT = 58, RIGHT = 14, TOP = 30, BOTTOM = 44, TICKS = 4;

  function shape(tag, attributes, words) {
    const made = document.createElementNS(SVG, tag);
    Object.entries(attributes).forEach(function (pair) { made.setAttribute(pair[0], pair[1]); });
    if (words) { made.textContent = words; }
    return made;
  }

  // Joints that no other beats in one quantity without losing in the other, cheapest first.
  function unbeaten(points) {
    let best = Infinity;
    return points.slice().sort((a, b) => a.x - b.x || a.y - b.y).filter(function (point) {
      const better = point.y < best;
      best = Math.min(best, point.y);
      return better;
    });
  }

  function ticksOf(least, most) {
    const rough = (most - least) / TICKS || most || 1, ten = Math.pow(10, Math.floor(Math.log10(rough)));
    const step = [1, 2, 5, 10].find(times => times * ten >= rough) * ten;
    const ticks = [];
    for (let k = Math.floor(least / step); k * step < most + step; k += 1) { ticks.push(k * step); }
    return ticks;
  }

  // Ticks at round numbers of the unit shown first; values stay in the guide's own.
  function scaleOf(values, kind, length, flip) {
    const of = window.guideJoints.kinds[kind];
    const unit = typed.both(1, kind, 3)[0].split(" ")[1] || "";
    const factor = of.units[unit] || 1;
    const ticks = ticksOf(Math.min.apply(null, values) / factor, Math.max.apply(null, values) / factor);
    const low = ticks[0], span = ticks[ticks.length - 1] - low;
    return { unit: unit, ticks: ticks, at: function (value) {
      const share = (value / factor - low) / span;
      return (flip ? 1 - share : share) * length;
    }, tick: function (tick) { return this.at(tick * factor); } };
  }

  function axes(svg, across, up, how) {
    const width = WIDTH - LEFT - RIGHT, height = HEIGHT - TOP - BOTTOM;
    across.ticks.forEach(function (tick) {
      const x = LEFT + across.tick(tick);
      svg.append(shape("line", { x1: x, x2: x, y1: TOP, y2: TOP + height, class: "grid" }),
        shape("text", { x: x, y: TOP + height + 16, "text-anchor": "middle" }, typed.rounded(tick, 3)));
    });
    up.ticks.forEach(function (tick) {
      const y = TOP + up.tick(tick);
      svg.append(shape("line", { x1: LEFT, x2: LEFT + width, y1: y, y2: y, class: "grid" }),
        shape("text", { x: LEFT - 6, y: y + 4, "text-anchor": "end" }, typed.rounded(tick, 3)));
    });
    svg.append(shape("text", { x: LEFT + width / 2, y: HEIGHT - 6, "text-anchor": "middle" }, "cost, " + across.unit),
      shape("text", { x: 4, y: 14 }, how.name + ", " + how.upTo.trim() + ", " + up.unit));
  }

  function pointLink(point, across, up, how, led, best) {
    const words = typed.titleOf(point.n) + ": " + typed.say(point.x, "money") + ", " + how.name + " " + typed.say(point.y, how.kind, 2);
    const link = shape("a", { href: "joints/" + window.guideJoints.ids[point.n] + ".html" });
    if (led) { link.setAttribute("aria-label", words); } else { link.setAttribute("tabindex", "-1"); link.setAttribute("aria-hidden", "true"); }
    const x = LEFT + across.at(point.x), y = TOP + up.at(point.y);
    link.append(shape("title", {}, words), shape("circle", { cx: x, cy: y, r: 11, class: "reach" }),
      best ? shape("path", { d: "M" + x + " " + (y - 7) + "l7 7-7 7-7-7z", class: "best" })
        : shape("circle", { cx: x, cy: y, r: led ? 4.5 : 2.5, class: led ? "led" : "beaten" }));
    return link;
  }

  function sentence(line, how) {
    const cheap = line[0], fine = line[line.length - 1];
    const told = point => typed.say(point.x, "money") + ", " + how.name + " " + how.upTo + typed.say(point.y, how.kind, 2);
    if (line.length === 1) { return "One joint is best in both: " + told(cheap) + "."; }
    return "From the cheapest, " + told(cheap) + ", to the one with least " + how.name + ", " + told(fine)
      + ". Along the line, nothing gets better in one without getting worse in the other.";
  }

  // Fills `place` with the drawing and its words; hides it where there is nothing to weigh.
  window.guideTradeoff = function (place, joints, how) {
    const points = joints.map(function (n) { return { n: n, x: how.x(n), y: how.y(n) }; })
      .filter(point => point.x !== null && point.y !== null);
    place.hidden = points.length < 2;
    if (place.hidden) { return; }
    const across = scaleOf(points.map(p => p.x), "money", WIDTH - LEFT - RIGHT, false);
    const up = scaleOf(points.map(p => p.y), how.kind, HEIGHT - TOP - BOTTOM, true);
    const svg = shape("svg", { viewBox: "0 0 " + WIDTH + " " + HEIGHT, class: "tradeoff", role: "group",
      "aria-label": "Cost against " + how.name + " of the joints that fit" });
    axes(svg, across, up, how);
    const line = unbeaten(points), best = points[0];
    const marks = new Map();
    points.forEach(function (point) { // joints on the same spot share a point, the best of them
      const spot = Math.round(across.at(point.x)) + " " + Math.round(up.at(point.y));
      const before = marks.get(spot);
      if (!before || line.includes(point) && !line.includes(before) && before !== best) { marks.set(spot, point); }
    });
    svg.append(shape("path", { class: "line", d: line.map(function (point, k) {
      return (k ? "L" : "M") + (LEFT + across.at(point.x)).toFixed(1) + " " + (TOP + up.at(point.y)).toFixed(1);
    }).join("") }));
    const order = point => (point === best) * 2 + line.includes(point);
    Array.from(marks.values()).sort((a, b) => order(a) - order(b) || a.x - b.x).forEach(function (point) {
      svg.append(pointLink(point, across, up, how, line.includes(point) || point === best, point === best));
    });
    const bestX = LEFT + across.at(best.x), right = bestX > WIDTH * 0.55;
    svg.append(shape("text", { x: bestX + (right ? -12 : 12), y: TOP + up.at(best.y) - 6, class: "best-name",
      "text-anchor": right ? "end" : "start" }, "best: " + typed.both(best.x, "money")[0] + ", " + typed.both(best.y, how.kind, 2)[0]));
    place.querySelector("svg").replaceWith(svg);
    place.querySelector("figcaption").textContent = sentence(line, how);
  };
})();
