// A plain section of the joint as it stands: screw, plates, bearings, washers, load; to scale, the axis lying.
(function () {
  "use strict";

  const G = window.guideGrounds;
  if (!G) { return; }
  const SVG = "http://www.w3.org/2000/svg", MARGIN = 9, TEXT = 3.4;

  function shape(tag, attributes, words) {
    const made = document.createElementNS(SVG, tag);
    Object.entries(attributes).forEach(pair => { made.setAttribute(pair[0], pair[1]); });
    if (words) { made.textContent = words; }
    return made;
  }

  // Both halves of a ring between two planes.
  function ring(from, to, inner, outer, kind) {
    return [-outer / 2, inner / 2].map(y => shape("rect", { x: from, y: y, width: to - from, height: (outer - inner) / 2, class: kind }));
  }

  function arrow(x, y, length) {
    return shape("path", { d: "M" + x + " " + (y - length) + "V" + y + "m-1.2 -2.4l1.2 2.4 1.2 -2.4", class: "load" });
  }

  function dimension(from, to, y, words) {
    const ends = "M" + from + " " + (y - 1.2) + "v2.4M" + to + " " + (y - 1.2) + "v2.4M" + from + " " + y + "H" + to;
    return [shape("path", { d: ends, class: "dimension" }),
      shape("text", { x: (from + to) / 2, y: y + TEXT + 0.6, "text-anchor": "middle", "font-size": TEXT }, words)];
  }

  // An svg of a joint that reckon.js has worked out; `words`: {apart, beyond} of its two distances.
  window.guideSection = function (found, words) {
    const joint = found.joint, lies = found.lies, d = joint.diameter[1], screw = joint.shaft, thread = screw.thread;
    const length = screw.length[1], threadEnd = length + thread[0];
    const hub = Math.max.apply(null, joint.seats.map(seat => seat.hub)), tall = Math.max(hub, screw.head[0]) / 2;
    const svg = shape("svg", { class: "own-section", role: "img" }), first = lies.bearings[0];
    const bearing = (seat, z) => ring(z - seat.width / 2, z + seat.width / 2, seat.ball ? seat.bores[1] : d, seat.outside[1], seat.ball ? "ball" : "bush");
    const add = shapes => svg.append(...shapes);
    joint.body.plates.forEach(function (plate, k) {
      const farther = k || joint.body.plates.length === 1 ? (joint.separation || 0) - (joint.body.apart || 0) : 0;
      const from = first + plate[0] + (k ? farther : 0), to = first + plate[1] + farther;
      add(ring(from, to, joint.seats[Math.min(k, joint.seats.length - 1)].outside[1], hub, "plate"));
    });
    lies.rows.forEach(function (row) {
      const part = G.parts[row.part], plate = part[2] === "Stock", inner = row.from >= length - 1e-9 ? thread[1] : d;
      add(ring(row.from, row.to, inner, plate ? hub : part[1], plate ? "plate" : "between"));
    });
    lies.bearings.forEach((z, k) => add(bearing(joint.seats[k], z)));
    add([shape("rect", { x: -screw.head[1], y: -screw.head[0] / 2, width: screw.head[1], height: screw.head[0], class: "screw" }),
      shape("rect", { x: 0, y: -d / 2, width: length, height: d, class: "screw" }),
      shape("rect", { x: length, y: -thread[1] / 2, width: thread[0], height: thread[1], class: "screw" }),
      shape("path", { d: "M" + -MARGIN + " 0H" + (threadEnd + MARGIN), class: "axis" })]);
    svg.append(arrow(lies.load, -tall - 1, 7));
    const last = lies.bearings[lies.bearings.length - 1];
    let y = tall + 4;
    if (!joint.single) { add(dimension(first, last, y, words.apart)); y += 7; }
    if (Math.abs(lies.overhang) > 0.05) { add(dimension(Math.min(last, lies.load), Math.max(last, lies.load), y, words.beyond)); }
    const left = Math.min(-screw.head[1], lies.load - 8) - MARGIN, top = -tall - 11;
    const right = Math.max(threadEnd, lies.load + 8) + MARGIN;
    svg.setAttribute("viewBox", [left, top, right - left, y + 8 - top].join(" "));
    return svg;
  };
})();
