// Works a joint out, as the program that made this guide does: formulas are its own, printed as a script; the order
// of the steps, the stations of free play, the bent screw and the look-ups in tables stand here.
(function () {
  "use strict";

  const F = window.guideFormulas, G = window.guideGrounds;
  if (!F || !G) { return; }
  const LEAST = 0, TYPICAL = 1, MOST = 2, SENSES = [1, -1], K = G.constants;
  const sum = list => list.reduce((a, b) => a + b, 0);
  const exactly = x => [x, x, x];

  // Sizes with limits ------------------------------------------------------------------------------------------

  // Runs `of` at typical values and at every corner of the box; gives {name: [least, typical, most]}.
  function over(bands, of) {
    const names = Object.keys(bands).filter(name => bands[name][MOST] > bands[name][LEAST]);
    const at = {};
    Object.keys(bands).forEach(name => { at[name] = bands[name][TYPICAL]; });
    const found = {}, typical = of(at);
    Object.keys(typical).forEach(name => { found[name] = exactly(typical[name]); });
    for (let corner = 0; corner < Math.pow(2, names.length); corner += 1) {
      names.forEach((name, k) => { at[name] = bands[name][corner >> k & 1 ? MOST : LEAST]; });
      const values = of(at);
      Object.keys(found).forEach(name => {
        const band = found[name], x = values[name];
        if (x < band[LEAST]) { band[LEAST] = x; }
        if (x > band[MOST]) { band[MOST] = x; }
      });
    }
    return found;
  }

  // The joint as asked: the ground of a worked joint with what the reader changed ----------------------------------

  // changed: {separation, overhang, radial, ..., motion, measured: {name: [least, typical, most]}, before, after}.
  function jointOf(ground, changed) {
    const joint = Object.assign({}, ground, changed), body = G.bodies[ground.body];
    joint.measured = changed.measured || {};
    joint.shaft = G.screws[ground.screw];
    joint.diameter = joint.measured.shaft || joint.shaft.diameter;
    joint.single = ground.seats.length === 1;
    joint.straddle = !joint.single && joint.overhang !== null && joint.overhang >= -joint.separation && joint.overhang < 0;
    joint.seats = ground.seats.map(function (k, i) {
      const n = i + 1, seat = Object.assign({}, G.seats[k]), measured = joint.measured;
      seat.bores = measured["free_bore_" + n] || seat.bores;
      seat.pressed = measured["bore_" + n] || null;
      if (seat.ball && seat.pressed) { seat.bores = seat.pressed; seat.pressed = null; }
      seat.outside = measured["outside_diameter_" + n] || seat.outside;
      seat.hole = measured["hole_" + n] || seat.hole;
      return seat;
    });
    const farther = joint.single ? 0 : joint.separation - body.apart;
    joint.body = Object.assign({}, body, {
      faces: [body.faces[0], body.faces[1] + farther, body.faces[2], body.faces[3] + farther],
      length: body.length.map(x => x + farther),
      inner: body.inner.map(x => x + farther)
    });
    return joint;
  }

  const thick = id => G.parts[id][0];
  const longAs = (ids, end) => sum(ids.map(id => thick(id)[end]));

  // Where everything lies on the screw, from the head; {wrong} where it does not go on.
  function placed(joint) {
    const body = joint.body, shoulder = joint.shaft.length[TYPICAL];
    const length = body.length[TYPICAL];
    const loose = shoulder - longAs(joint.before, TYPICAL) - longAs(joint.after, TYPICAL) - length;
    if (loose < 0 && !joint.clamped) { return { wrong: "longer", by: -loose }; }
    const start = joint.clamped ? 0 : loose, atBody = start + longAs(joint.before, TYPICAL);
    const first = atBody - body.faces[0];
    const bearings = joint.single ? [first] : [first, first + joint.separation];
    const last = bearings[bearings.length - 1], end = atBody + length;
    const face = joint.clamped ? end + longAs(joint.after, TYPICAL) : shoulder;
    const edge = joint.clamped ? last - joint.seats[joint.seats.length - 1].width / 2
      : atBody + body.faces[3] - body.faces[0];
    const rows = run(joint.before, start).concat(
      run(joint.inside, edge - longAs(joint.inside, TYPICAL)), run(joint.after, end), run(joint.thread, face));
    const arm = rows.find(row => row.part === joint.between || joint.layout === "A" && row.part === joint.on_thread);
    const load = arm ? (arm.from + arm.to) / 2 : last + (joint.overhang || 0);
    const taken = longAs(joint.inside, TYPICAL), gap = body.faces[3] - body.faces[2];
    if (!joint.clamped && joint.inside.length && taken > gap) { return { wrong: "gap", by: taken - gap }; }
    const cheeks = joint.layout === "C" ? rows.filter(row => row.part === joint.cheek).map(row => (row.from + row.to) / 2) : [];
    return { rows: rows, bearings: bearings, face: face, load: load, cheeks: cheeks, body: [atBody, end], overhang: load - last };
  }

  function run(ids, from) {
    return ids.map(function (id) {
      const row = { part: id, from: from, to: from + thick(id)[TYPICAL] };
      from = row.to;
      return row;
    });
  }

  // Free play ----------------------------------------------------------------------------------------------------

  // One bearing in its hole at one row of sizes.
  function guide(n, seat, at, clamped) {
    const d_s = at.shaft_diameter, D = at["outside_diameter_" + n], D_h = at["hole_" + n];
    const one = { interference: F.interference({ D: D, D_h: D_h }) };
    const g_h = seat.fit === "bonded" ? 0 : F.housing_gap({ D_h: D_h, D: D });
    const k_h = F.hub_ratio({ D_o: seat.hub, D: D });
    const inside = seat.ball ? seat.d_m + seat.D_w : at["free_bore_" + n];
    const k_b = F.bush_ratio({ D: D, d_f: inside });
    one.press_pressure = F.press_pressure({ i: one.interference, D: D, k_h: k_h, nu_h: seat.nu_h,
      E_h: at["housing_modulus_" + n], k_b: k_b, nu_b: seat.nu_b, E_b: seat.E_b });
    one.hub_stress = F.hub_stress({ p: one.press_pressure, k_h: k_h });
    one.closure = F.bore_closure({ p: one.press_pressure, D: D, d_f: inside, E_b: seat.E_b });
    if (seat.ball) { return ball(one, n, seat, at, clamped, g_h); }
    const d_b = seat.pressed ? at["bore_" + n] : F.bore_after_pressing({ d_f: inside, delta: one.closure });
    one.length = at["length_" + n];
    one.fit = F.shaft_fit({ d_b: d_b, d_s: d_s });
    one.clearance = F.bush_clearance({ d_b: d_b, d_s: d_s, g_h: g_h });
    one.free_tilt = Infinity;
    return one;
  }

  function ball(one, n, seat, at, clamped, g_h) {
    const d_s = at.shaft_diameter, d_b = at["bore_" + n], d_r = seat.d_m - seat.D_w;
    const k_i = F.inner_ring_ratio({ d_r: d_r, d_b: d_b });
    const p_i = F.ring_pressure({ d_s: d_s, d_b: d_b, k_i: k_i, nu_b: seat.nu_b, E_b: seat.E_b, nu_s: seat.nu_b, E_s: seat.E_b });
    const growth = F.raceway_growth({ p_i: p_i, d_b: d_b, d_r: d_r, E_b: seat.E_b });
    const G_0 = at["internal_clearance_" + n];
    const G_m = F.mounted_clearance({ G: G_0, delta_i: growth, delta_o: one.closure });
    const P_e = F.axial_play({ A: F.groove_excess({ f_g: K.groove, D_w: seat.D_w }), G_m: G_m });
    one.fit = F.shaft_fit({ d_b: d_b, d_s: d_s });
    one.preload_margin = G_0 - growth - one.closure;
    one.length = 0;
    if (clamped) {
      one.clearance = F.clamped_ball_clearance({ G_m: G_m, g_h: g_h });
      one.free_tilt = F.clamped_ball_tilt({ P_e: P_e, d_m: seat.d_m });
    } else {
      one.clearance = F.loose_ball_clearance({ G_m: G_m, d_b: d_b, d_s: d_s, g_h: g_h });
      one.free_tilt = F.loose_ball_tilt({ P_e: P_e, d_m: seat.d_m, d_b: d_b, d_s: d_s, w: seat.width });
    }
    return one;
  }

  // Tilt each way, bores in line, by the closed form that suits the bearings.
  function tiltOf(guided, seats, S) {
    const a = guided[0], b = guided[1];
    if (!b) { return seats[0].ball ? a.free_tilt : F.bush_tilt({ c: a.clearance, L: a.length }); }
    const clearances = { c_1: a.clearance, c_2: b.clearance };
    if (seats[0].ball && seats[1].ball) {
      return F.ball_pair_tilt(Object.assign(clearances, { S: S, theta_1: a.free_tilt, theta_2: b.free_tilt }));
    }
    const B = F.outer_span({ S: S, L_1: a.length, L_2: b.length });
    if (!seats[0].ball && !seats[1].ball) {
      return F.bush_pair_tilt(Object.assign(clearances, { B: B, L_1: a.length, L_2: b.length }));
    }
    const bush = seats[0].ball ? b : a, rolling = seats[0].ball ? a : b;
    return F.mixed_pair_tilt(Object.assign(clearances, { B: B, c: bush.clearance, L: bush.length, theta_b: rolling.free_tilt }));
  }

  // Every bearing is one or two stations, each with the band of positions that it leaves the axis.
  function stations(guided, S) {
    const of = [];
    guided.forEach(function (one, k) {
      const middle = k ? S : 0, half = one.length / 2;
      (half === 0 ? [middle] : [middle - half, middle + half]).forEach(function (z) {
        of.push({ z: z, W: -one.clearance / 2, U: one.clearance / 2 });
      });
    });
    return of;
  }

  // Highest position of the axis at plane x; `steep` bounds the tilt either way.
  function highest(x, of, steep) {
    let best = Infinity;
    of.forEach(function (k) {
      const away = x - k.z;
      best = Math.min(best, k.U + (away === 0 ? 0 : (away >= 0 ? steep : -steep) * away));
      of.forEach(function (j) {
        if (j === k) { return; }
        const between = away * (x - j.z) < 0, beyond = away * (k.z - j.z) > 0;
        if (between) { best = Math.min(best, F.station_between({ U_j: j.U, U_k: k.U, x: x, z_j: j.z, z_k: k.z })); }
        if (beyond) { best = Math.min(best, F.station_reach({ U_k: k.U, W_j: j.W, x: x, z_k: k.z, z_j: j.z })); }
      });
    });
    return best;
  }

  function loadPlay(guided, S, x) {
    const of = stations(guided, S), steep = Math.min.apply(null, guided.map(one => one.free_tilt));
    const turned = of.map(one => ({ z: one.z, W: -one.U, U: -one.W }));
    return F.total_travel({ y_u: highest(x, of, steep), y_l: -highest(x, turned, steep) });
  }

  function sizes(joint) {
    const bands = { shaft_diameter: joint.diameter };
    joint.seats.forEach(function (seat, i) {
      const n = i + 1;
      bands[(seat.ball ? "bore_" : "free_bore_") + n] = seat.bores;
      if (seat.pressed) { bands["bore_" + n] = seat.pressed; }
      bands["outside_diameter_" + n] = seat.outside;
      bands["hole_" + n] = seat.hole;
      bands["housing_modulus_" + n] = seat.modulus;
      if (seat.ball) { bands["internal_clearance_" + n] = seat.internal; } else { bands["length_" + n] = seat.length; }
    });
    if (joint.cheek_hole) { bands.cheek_hole_1 = bands.cheek_hole_2 = joint.cheek_hole; }
    if (joint.arm_hole) { bands.arm_hole = joint.arm_hole; }
    if (joint.arm_faces) {
      const gap = joint.body.inner;
      bands.arm_room = gap.map((x, end) => x - longAs(joint.inside, 2 - end));
    }
    return bands;
  }

  function free(joint, lies) {
    const bands = sizes(joint), S = joint.separation || 0;
    const typical = [];
    const found = over(bands, function (at) {
      const guided = joint.seats.map((seat, i) => guide(i + 1, seat, at, joint.clamped));
      if (!typical.length) { typical.push(guided); }
      const theta = tiltOf(guided, joint.seats, S), row = { tilt: theta };
      row.arm_play = F.arm_travel({ r: joint.arm, theta: theta });
      row.load_play = loadPlay(guided, S, S + lies.overhang);
      row.seen_tilt = theta;
      if (joint.cheek_hole) { row.cheek_tilt = cheekTilt(joint, lies, at); }
      if (joint.arm_hole) { row.arm_tilt = armTilt(joint, at); }
      if (joint.cheek_hole || joint.arm_hole) {
        row.seen_tilt = F.seen_tilt({ theta: theta, theta_c: joint.cheek_hole ? row.cheek_tilt : row.arm_tilt });
      }
      guided.forEach(function (one, i) {
        Object.keys(one).forEach(name => { row[name + "_" + (i + 1)] = one[name]; });
      });
      return row;
    });
    return { found: found, guided: typical[0] };
  }

  function cheekTilt(joint, lies, at) {
    const L = thick(joint.cheek)[TYPICAL], room = n => Math.max(0, at["cheek_hole_" + n] - at.shaft_diameter);
    const B = F.outer_span({ S: lies.cheeks[lies.cheeks.length - 1] - lies.cheeks[0], L_1: L, L_2: L });
    return F.bush_pair_tilt({ c_1: room(1), c_2: room(2), B: B, L_1: L, L_2: L });
  }

  function armTilt(joint, at) {
    const L = thick(joint.between)[TYPICAL], c = Math.max(0, at.arm_hole - at.shaft_diameter);
    if (!joint.arm_faces) { return F.bush_tilt({ c: c, L: L }); }
    const faces = F.face_tilt({ j: Math.max(0, at.arm_room), D_1: joint.arm_faces[0], D_2: joint.arm_faces[1] });
    return F.arm_tilt({ c: c, L: L, theta_f: faces });
  }

  // Loads and the bent screw ---------------------------------------------------------------------------------------

  function carried(joint, a) {
    const F_r = joint.radial, k_s = joint.shock, S = joint.separation, M_a = F.axial_couple({ F_a: joint.axial, r: joint.arm });
    const load = { couple: M_a, thrust: F.thrust({ k_s: k_s, F_a: joint.axial }), moment: 0 };
    if (joint.single) {
      load.reactions = [F.single_reaction({ k_s: k_s, F: F_r })];
      load.moment = F.single_moment({ k_s: k_s, F: F_r, a: a, M_a: M_a });
      load.worst = [F.bearing_load({ R: load.reactions[0], R_a: 0 })];
      load.senses = [[F_r]];
      return load;
    }
    load.reactions = [F.reaction_1({ k_s: k_s, F: F_r, a: a, S: S }), F.reaction_2({ k_s: k_s, F: F_r, a: a, S: S })];
    load.force = F.couple_force({ k_s: k_s, M_a: M_a, S: S });
    load.worst = load.reactions.map(R => F.bearing_load({ R: R, R_a: load.force }));
    load.senses = SENSES.map(sense => onShaft(F_r, a, S, sense * M_a).map(Math.abs));
    return load;
  }

  function onShaft(F_r, a, S, couple) { return [-F_r * a / S - couple / S, F_r * (1 + a / S) + couple / S]; }

  // Forces and couples with the reactions of the supports; `held` is one built-in plane, or two.
  function balanced(held, forces, couples) {
    const total = sum(forces.map(one => one[1]));
    const about = sum(forces.map(one => one[1] * (one[0] - held[0]))) + sum(couples.map(one => one[1]));
    if (held.length === 1) { return [forces.concat([[held[0], -total]]), couples.concat([[held[0], -about]])]; }
    const far = about / (held[1] - held[0]);
    return [forces.concat([[held[0], far - total], [held[1], -far]]), couples];
  }

  // Deflection and slope at planes x, greatest moment and shear, of a screw held so.
  function beam(x, stiffness, held, forces, couples) {
    const all = balanced(held, forces, couples), arm = (point, at) => Math.max(point - at, 0);
    const integrals = point => [
      sum(all[0].map(one => one[1] * Math.pow(arm(point, one[0]), 2) / 2)) - sum(all[1].map(one => one[1] * arm(point, one[0]))),
      sum(all[0].map(one => one[1] * Math.pow(arm(point, one[0]), 3) / 6))
        - sum(all[1].map(one => one[1] * Math.pow(arm(point, one[0]), 2) / 2))];
    const at = held.map(integrals);
    const turn = held.length === 1 ? -at[0][0] : -(at[1][1] - at[0][1]) / (held[1] - held[0]);
    const lift = -at[0][1] - turn * held[0];
    const planes = all[0].concat(all[1]).map(one => one[0]);
    const moments = [];
    planes.forEach(function (plane) {
      const straight = sum(all[0].map(one => one[1] * arm(plane, one[0])));
      moments.push(straight - sum(all[1].filter(one => plane > one[0]).map(one => one[1])),
        straight - sum(all[1].filter(one => plane >= one[0]).map(one => one[1])));
    });
    return {
      y: x.map(point => (integrals(point)[1] + turn * point + lift) / stiffness),
      slope: x.map(point => (integrals(point)[0] + turn) / stiffness),
      moment: Math.max.apply(null, moments.map(Math.abs))
    };
  }

  function bent(joint, lies, load) {
    const d_s = joint.diameter[TYPICAL], a = lies.overhang, S = joint.separation, F_r = joint.radial;
    const stiffness = joint.shaft.E * F.second_moment({ d_s: d_s });
    const cases = SENSES.map(function (sense) {
      const couple = sense * load.couple;
      if (joint.layout === "A") {
        const held = joint.single ? [0] : [0, S], at = joint.single ? a : S + a;
        const of = beam([0].concat(held.slice(1), at), stiffness, held, [[at, F_r]], [[at, couple]]);
        return { y: of.y[of.y.length - 1], slopes: of.slope.slice(0, held.length), moment: of.moment };
      }
      const clampedAt = joint.layout === "B", sign = clampedAt ? -1 : 1;
      const held = clampedAt ? [0] : lies.cheeks;
      const planes = clampedAt ? lies.bearings.map(z => lies.face - z) : lies.bearings;
      if (joint.single) {
        const of = beam(planes, stiffness, held, [[planes[0], F_r]], [[planes[0], sign * F_r * a + couple]]);
        return { y: of.y[0] + sign * of.slope[0] * a, slopes: of.slope, moment: of.moment };
      }
      const forces = onShaft(F_r, a, S, couple), of = beam(planes, stiffness, held, planes.map((z, k) => [z, forces[k]]), []);
      return { y: F.hub_deflection({ y_1: of.y[0], y_2: of.y[1], a: a, S: S }), slopes: of.slope, moment: of.moment };
    });
    const worst = pick => Math.max.apply(null, cases.map(one => Math.abs(pick(one))));
    const slopes = joint.layout === "A" && joint.single ? [] : cases[0].slopes.map((_, k) => worst(one => one.slopes[k]));
    const moment = joint.shock * Math.max.apply(null, cases.map(one => one.moment));
    return { moment: moment, deflection: worst(one => one.y), slopes: slopes, stress: F.bending_stress({ M: moment, d_s: d_s }) };
  }

  // Bushes ---------------------------------------------------------------------------------------------------------

  function slidingSpeed(joint) {
    const motion = joint.motion, d_s = joint.diameter[TYPICAL];
    if (motion[0] === "hand" || joint.seats.every(seat => seat.ball)) { return 0; }
    return motion[0] === "turn" ? F.turning_speed({ d_s: d_s, n: motion[2] })
      : F.swing_speed({ phi_pp: motion[1], d_s: d_s, f_s: motion[2] });
  }

  const bothEnds = (radial, moment, L) => moment > 0.4 * radial * L;

  function slide(joint, load, told, limits) {
    const bushes = {}, d_s = joint.diameter[TYPICAL], v = slidingSpeed(joint), k_s = joint.shock;
    joint.seats.forEach(function (seat, i) {
      if (seat.ball) { return; }
      const n = i + 1, L = seat.length[TYPICAL], R_w = load.worst[i], material = G.sliding[seat.material];
      const F_r = F.steady_load({ R_w: R_w, k_s: k_s }), p_b = F.bush_pressure({ F_r: F_r, d_s: d_s, L: L });
      const p_k = F.shock_pressure({ k_s: k_s, p_b: p_b });
      let pressure = p_k;
      if (joint.single && load.moment && R_w > 0) {
        const k_o = F.edge_factor({ epsilon: F.edge_offset({ M_b: load.moment, R_w: R_w, L: L }) });
        told["edge_factor_" + n] = k_o;
        pressure = F.edge_pressure({ k_o: k_o, p_k: p_k });
      } else if (joint.single && load.moment) {
        pressure = F.end_pressure({ R_n: F.near_end_force({ M_b: load.moment, R_w: R_w, L: L }), d_s: d_s, L: L });
      }
      told["pressure_" + n] = pressure;
      const moment = load.moment / k_s, bush = bushes[n] = { radial: F_r, moment: moment, material: material, L: L, pressure: p_b };
      if (v) {
        const running = !bothEnds(F_r, moment, L) ? p_b
          : F.end_mean_pressure({ R_n: F.near_end_force({ M_b: moment, R_w: F_r, L: L }), d_s: d_s, L: L });
        told["pv_" + n] = F.pressure_speed({ p_b: running, v: v }) / 1000;
      }
      ["pressure", "pv"].forEach(name => { limits[name + "_" + n] = material[name]; });
      const before = limits.sliding_speed || [Infinity, Infinity];
      limits.sliding_speed = before.map((x, end) => Math.min(x, material.sliding_speed[end]));
      return bush;
    });
    if (v && Object.keys(bushes).length) { told.sliding_speed = v / 1000; }
    return bushes;
  }

  function pressedOn(bush, radial) {
    if (!bothEnds(radial, bush.moment, bush.L)) { return radial; }
    const of = { M_b: bush.moment, R_w: radial, L: bush.L };
    return F.both_ends_force({ R_n: F.near_end_force(of), R_f: F.far_end_force(of) });
  }

  // Ball bearings ----------------------------------------------------------------------------------------------------

  function between(x, xs, ys) {
    if (x <= xs[0]) { return ys[0]; }
    for (let k = 1; k < xs.length; k += 1) {
      if (x <= xs[k]) { return ys[k - 1] + (ys[k] - ys[k - 1]) * (x - xs[k - 1]) / (xs[k] - xs[k - 1]); }
    }
    return ys[ys.length - 1];
  }

  function roll(joint, load, told, limits) {
    const balls = {}, motion = joint.motion, lives = [], thrusts = [];
    joint.seats.forEach(function (seat, i) {
      if (!seat.ball) { return; }
      const n = i + 1, entry = F.thrust_entry({ f_0: seat.f_0, F_a: joint.axial, C_0: seat.C_0 }), table = G.thrust;
      balls[n] = { seat: seat, e: between(entry, table.entry, table.e), Y: between(entry, table.entry, table.Y),
        reached: entry <= table.entry[table.entry.length - 1] };
      balls[n].carries = F_r => F.equivalent_load({ F_r: F_r, F_a: joint.axial, e: balls[n].e, Y: balls[n].Y });
      const P_0 = F.equivalent_static_load({ R_w: load.worst[i], F_t: load.thrust });
      if (P_0 > 0) { told["static_factor_" + n] = F.static_factor({ C_0: seat.C_0, P_0: P_0 }); }
      thrusts.push(F.thrust_limit({ x_t: seat.x_t, C_0: seat.C_0 }));
    });
    const numbers = Object.keys(balls);
    if (!numbers.length) { return balls; }
    limits.thrust = Math.min.apply(null, thrusts);
    let rate = motion[0] === "hand" ? 0 : motion[2];
    if (motion[0] === "swing") { rate = F.swing_turn_rate({ N_s: F.swing_turns({ phi_pp: motion[1] }), f_s: motion[2] }); }
    let all = true;
    numbers.forEach(function (n) {
      const one = balls[n], seat = one.seat, P = one.carries(F.steady_load({ R_w: load.worst[n - 1], k_s: joint.shock }));
      const far = motion[0] !== "swing" || motion[1] >= F.outer_overlap({ Z: seat.Z, gamma: F.ball_ratio({ D_w: seat.D_w, d_m: seat.d_m }) });
      if (one.reached && P > 0 && P <= 0.5 * seat.C && far) {
        told["rating_life_" + n] = F.rating_life({ C: seat.C, P: P });
        lives.push(told["rating_life_" + n]);
      } else if (P > 0) { all = false; }
    });
    if (lives.length && all && rate >= K.slowest) {
      told.life_hours = F.life_hours({ L_10: Math.min.apply(null, lives), n: rate, t_h: K.hour });
      if (motion[3]) { limits.life_hours = motion[3]; }
    }
    return balls;
  }

  // Wear ---------------------------------------------------------------------------------------------------------------

  function turnsRound(joint) {
    if (joint.motion[0] === "swing" && joint.motion[1] < K.half_turn) { return false; }
    return joint.direction !== (joint.layout === "A" ? "fixed" : "turning");
  }

  function wear(joint, play, bushes, told, limits) {
    const motion = joint.motion, d_s = joint.diameter[TYPICAL], numbers = Object.keys(bushes);
    if (motion[0] === "hand" || !numbers.length) { return; }
    if (motion[3]) {
      limits.wear_cycles = told.cycles_wanted = F.cycles_wanted({ n_w: motion[2], t_w: 3600 * motion[3] });
    }
    const bands = {};
    joint.seats.forEach(function (seat, i) {
      const n = i + 1;
      bands["clearance_" + n] = play.found["clearance_" + n];
      if (seat.ball) { bands["free_tilt_" + n] = play.found["free_tilt_" + n]; } else { bands["length_" + n] = play.found["length_" + n]; }
      if (bushes[n]) { bands["wear_rate_" + n] = bushes[n].material.wear_rate; }
    });
    const round = turnsRound(joint);
    const slid = motion[0] === "swing" ? F.swing_distance({ phi_pp: motion[1], d_s: d_s }) : F.turn_distance({ d_s: d_s });
    const grows = function (n, at) {
      const p_b = F.bush_pressure({ F_r: bushes[n].radial, d_s: d_s, L: at["length_" + n] });
      const of = { k_w: at["wear_rate_" + n], p_b: p_b, s_c: slid };
      return round ? F.all_round_growth({ h_w: F.turning_wear(of) }) : F.one_sided_growth({ h_w: F.fixed_wear(of) });
    };
    const roomOf = (n, at) => F.wear_room({ c: at["clearance_" + n], d_f: joint.seats[n - 1].bores[TYPICAL], d_s: d_s });
    const typical = {};
    Object.keys(bands).forEach(name => { typical[name] = bands[name][TYPICAL]; });
    const lasting = numbers.filter(n => grows(n, typical) > 0 && roomOf(n, typical) > 0);
    if (!lasting.length) { return; }
    told.wear_cycles = over(bands, at => ({ N: Math.min.apply(null,
      lasting.map(n => F.wear_cycles({ a_worn: roomOf(n, at), g_w: grows(n, at) }))) })).N;
    K.decades.every(function (power) {
      const N_c = Math.pow(10, power);
      const through = numbers.some(n => N_c * grows(n, typical) > (joint.seats[n - 1].outside[TYPICAL] - joint.seats[n - 1].bores[TYPICAL]) / 2);
      if (through) { return false; }
      told["arm_play_1e" + power] = over(bands, function (at) {
        const worn = joint.seats.map(function (seat, i) {
          const n = i + 1, c = at["clearance_" + n];
          return { clearance: bushes[n] ? F.worn_clearance({ c: c, N_c: N_c, g_w: grows(n, at) }) : c,
            length: seat.ball ? 0 : at["length_" + n], free_tilt: seat.ball ? at["free_tilt_" + n] : Infinity };
        });
        return { y: F.arm_travel({ r: joint.arm, theta: tiltOf(worn, joint.seats, joint.separation || 0) }) };
      }).y;
      return true;
    });
  }

  // What it takes to turn it -----------------------------------------------------------------------------------------

  function torque(joint, state, load, bushes, balls) {
    const bands = {};
    joint.seats.forEach(function (seat, i) {
      const n = i + 1;
      if (bushes[n]) { bands["friction_" + n] = bushes[n].material["friction_" + state]; return; }
      ["friction", "drag", "seal"].forEach(name => { bands[name + "_" + n] = seat[name + "_" + state]; });
    });
    const d_s = joint.diameter[TYPICAL];
    const parts = (radials, at) => radials.map(function (F_r, i) {
      const n = i + 1, seat = joint.seats[i];
      if (bushes[n]) { return F.bush_torque({ mu: at["friction_" + n], F_r: pressedOn(bushes[n], F_r), d_s: d_s }); }
      const T_0 = F.drag_torque({ tau_0: at["drag_" + n], d_m: seat.d_m });
      return F.ball_torque({ mu: at["friction_" + n], P: balls[n].carries(F_r), d_b: seat.bores[TYPICAL], T_0: T_0, T_l: at["seal_" + n] });
    });
    const typical = {};
    Object.keys(bands).forEach(name => { typical[name] = bands[name][TYPICAL]; });
    const worse = load.senses.reduce((one, other) => sum(parts(other, typical)) > sum(parts(one, typical)) ? other : one);
    const face = faceRadii(joint, bushes);
    return over(bands, function (at) {
      const both = parts(worse, at).concat(0);
      const T_f = joint.axial ? Math.max.apply(null, [0].concat(Object.keys(face).map(
        n => F.face_torque({ mu_f: at["friction_" + n], F_a: joint.axial, r_m: face[n] })))) : 0;
      return { T: F.joint_torque({ T_1: both[0], T_2: both[1], T_f: T_f }) };
    }).T;
  }

  function faceRadii(joint, bushes) {
    const radii = {}, outsideOf = ids => ids.filter(id => G.parts[id][2] !== "Stock").map(id => G.parts[id][1]);
    const across = joint.body.across;
    const meet = joint.clamped ? null : [Math.min.apply(null, [joint.shaft.head[0], across[0]].concat(outsideOf(joint.before))),
      Math.min.apply(null, [across[1]].concat(outsideOf(joint.after)))];
    Object.keys(bushes).forEach(function (n) {
      const seat = joint.seats[n - 1];
      radii[n] = F.face_radius({ D_f: meet ? meet[Math.min(n, 2) - 1] : seat.outside[TYPICAL], d_g: seat.bores[TYPICAL] });
    });
    return radii;
  }

  // Presses, fatigue ---------------------------------------------------------------------------------------------------

  function press(seat, n, told) {
    const bands = { outside: seat.outside, hole: seat.hole, modulus: seat.modulus, friction: seat.friction,
      inside: seat.ball ? exactly(seat.d_m + seat.D_w) : seat.bores, length: seat.ball ? exactly(seat.width) : seat.wide };
    if (seat.plate) { bands.plate = seat.plate; }
    const found = over(bands, function (at) {
      const D = at.outside, k_h = F.hub_ratio({ D_o: seat.hub, D: D }), k_b = F.bush_ratio({ D: D, d_f: at.inside });
      const p = F.press_pressure({ i: D - at.hole, D: D, k_h: k_h, nu_h: seat.nu_h, E_h: at.modulus, k_b: k_b, nu_b: seat.nu_b, E_b: seat.E_b });
      const l = seat.plate ? F.engaged_length({ l_bearing: at.length, t_sheet: at.plate }) : at.length;
      const force = F.push_force({ mu_press: at.friction, D: D, l_fit: l, p: p });
      return { push_force: force, holding_torque: F.holding_torque({ F_push: force, D: D }) };
    });
    Object.keys(found).forEach(name => { told[name + "_" + n] = found[name]; });
  }

  function tires(joint) {
    return joint.motion[0] !== "hand" && joint.direction === (joint.layout === "A" ? "fixed" : "turning");
  }

  function fatigue(joint, stress) {
    const screw = joint.shaft;
    const k_a = F.surface_factor({ a_s: screw.a_s, S_u: screw.S_u, S_1: K.megapascal, b_s: screw.b_s });
    const k_z = F.size_factor({ d_e: joint.diameter[TYPICAL], d_0: K.specimen });
    const S_n = F.specimen_limit({ u_e: K.of_tensile, S_u: screw.S_u, S_c: K.greatest_limit });
    const S_e = F.endurance_limit({ k_a: k_a, k_z: k_z, k_e: screw.k_e, S_n: S_n });
    return F.endurance_factor({ S_e: S_e, K_f: 1, sigma_b: stress });
  }

  // All of it ------------------------------------------------------------------------------------------------------------

  // {told: {name: number or [least, typical, most]}, states: [...], lies} of a joint; {wrong, by} where it cannot be built.
  function reckon(ground, changed) {
    const joint = jointOf(ground, changed || {}), lies = placed(joint);
    if (lies.wrong) { return lies; }
    const told = {}, limits = { seen_tilt: G.course.tilt, start_force: G.course.start / joint.arm };
    const play = free(joint, lies);
    Object.assign(told, play.found);
    joint.seats.forEach(function (seat, i) {
      const n = i + 1;
      if (!joint.measured["outside_diameter_" + n]) { told["drawn_hole_" + n] = seat.drawn; } // else it is another
      ["length_", "free_tilt_"].forEach(name => { if (!seat.ball || name === "length_") { delete told[name + n]; } });
      if (joint.clamped && seat.ball) { delete told["fit_" + n]; }
    });
    if (!joint.clamped) {
      const ids = joint.before.concat(joint.after), length = joint.shaft.length;
      told.end_play = [LEAST, TYPICAL, MOST].map(end => length[end] - longAs(ids, 2 - end) - joint.body.length[2 - end]);
    }
    const load = carried(joint, lies.overhang), shaft = bent(joint, lies, load);
    told.thrust = load.thrust;
    if (!joint.single) { told.couple_force = load.force; }
    load.reactions.forEach((R, i) => { told["reaction_" + (i + 1)] = R; told["bearing_load_" + (i + 1)] = load.worst[i]; });
    Object.assign(told, { shaft_moment: shaft.moment, bending_stress: shaft.stress, deflection: shaft.deflection });
    shaft.slopes.forEach((slope, i) => { told["slope_" + (i + 1)] = slope; });
    if (!joint.single) { lean(joint, play, shaft, told, limits); }
    const bushes = slide(joint, load, told, limits), balls = roll(joint, load, told, limits);
    wear(joint, play, bushes, told, limits);
    told.start_torque = torque(joint, "start", load, bushes, balls);
    told.run_torque = torque(joint, "run", load, bushes, balls);
    told.start_force = told.start_torque.map(T => F.arm_force({ T: T, r: joint.arm }));
    if (shaft.stress > 0 && tires(joint)) { told.endurance_factor = fatigue(joint, shaft.stress); }
    joint.seats.forEach(function (seat, i) {
      if (seat.fit !== "press") { return; }
      press(seat, i + 1, told);
      limits["interference_" + (i + 1)] = K.tight;
      limits["hoop_short_" + (i + 1)] = seat.hoop[0];
      if (seat.hoop[1] < seat.hoop[0]) { limits["hoop_long_" + (i + 1)] = seat.hoop[1]; }
    });
    return { told: told, states: judged(told, limits, joint), lies: lies, joint: joint };
  }

  function lean(joint, play, shaft, told, limits) {
    const a = play.guided[0], b = play.guided[1], theta = play.found.tilt[TYPICAL], S = joint.separation;
    const clearances = { c_1: a.clearance, c_2: b.clearance, theta: theta };
    const rest = joint.straddle ? F.settled_tilt_straddle(Object.assign(clearances, { S: S }))
      : F.settled_tilt_overhung(Object.assign(clearances, { B: F.outer_span({ S: S, L_1: a.length, L_2: b.length }) }));
    joint.seats.forEach(function (seat, i) {
      const n = i + 1, one = play.guided[i];
      told["lean_under_load_" + n] = shaft.slopes[i] + rest;
      limits["lean_under_load_" + n] = !seat.ball ? F.bush_tilt({ c: one.clearance, L: one.length })
        : joint.clamped ? K.permissible
          : F.ring_lean({ theta_p: K.permissible, d_b: seat.bores[TYPICAL], d_s: joint.diameter[TYPICAL], w: seat.width });
    });
  }

  // What the table of checks says of each quantity: [{about, name, state, limit}], the worst first.
  function judged(told, limits, joint) {
    const found = [], order = ["holds", "take care", "does not hold"];
    G.checks.forEach(function (check) {
      Object.keys(told).forEach(function (name) {
        const numbered = /^(.*)_([12])$/.exec(name), n = numbered ? "_" + numbered[2] : "";
        if (name !== check.quantity && !(numbered && numbered[1] === check.quantity)) { return; }
        const limit = limitOf(check, name, n, limits), value = told[name];
        if (limit === undefined) { return; }
        const state = check.sense === "ceiling" ? ceiling(value, limit) : against(value, check.sense, limit);
        found.push({ about: check.about, name: name, state: state, limit: limit, sense: check.sense });
      });
    });
    if (told.end_play) {
      const [low, high] = joint.window, play = told.end_play[TYPICAL];
      const state = low - 1e-9 <= play && play <= high + 1e-9 ? "holds" : "does not hold";
      found.push({ about: G.listed, name: "end_play", state: state, limit: joint.window, sense: "between" });
    }
    return found.sort((a, b) => order.indexOf(b.state) - order.indexOf(a.state));
  }

  function limitOf(check, name, n, limits) {
    const number = Number(check.limit);
    if (check.limit !== "" && !Number.isNaN(number)) { return number; }
    if (/^hoop_/.test(check.limit)) { return limits[check.limit + n]; }
    return limits[name];
  }

  function against(value, sense, limit) {
    const sign = sense === "least" ? 1 : -1, band = Array.isArray(value);
    if (sign * ((band ? value[TYPICAL] : value) - limit) < 0) { return "does not hold"; }
    if (!band) { return sign * (value - limit) >= K.spare * Math.abs(limit) ? "holds" : "take care"; }
    return sign * (value[sense === "least" ? LEAST : MOST] - limit) >= 0 ? "holds" : "take care";
  }

  function ceiling(value, ends) { return value <= ends[0] ? "holds" : value <= ends[1] ? "take care" : "does not hold"; }

  // Before a number is shown: what this guide's own program found for a few unlike joints must come out here too.
  const NEAR = 1e-6;
  function alike(a, b) {
    if (Array.isArray(a) !== Array.isArray(b) && !(Array.isArray(b) && b[LEAST] === b[MOST])) { return false; }
    const ends = x => Array.isArray(x) ? x : exactly(x);
    return ends(a).every((x, k) => Math.abs(x - ends(b)[k]) <= NEAR * Math.max(1e-9, Math.abs(x)));
  }

  function failures() {
    const failed = [];
    G.proofs.forEach(function (proof) {
      const found = reckon(G.joints[proof.joint]).told || {};
      Object.keys(proof.quantities).forEach(function (name) {
        if (proof.quantities[name] !== null && name in found && alike(proof.quantities[name], found[name])) { return; }
        failed.push([proof.joint, name, proof.quantities[name], found[name]]);
      });
    });
    return failed;
  }

  // Backwards ---------------------------------------------------------------------------------------------------------

  const FARTHEST = 1, HALVINGS = 60, BLAMED = /^(shaft_diameter|bore|free_bore|outside_diameter|hole|internal_clearance)/;

  // Which size would alone explain a travel seen at the arm, mm, all others typical, or that of both bearings together:
  // [{names, size, band, least, most}]; `error`: of the reading, to either side. What cannot explain it is left out.
  function blame(ground, changed, travel, error) {
    const joint = jointOf(ground, changed || {}), lies = placed(joint), bands = sizes(joint), typical = {};
    if (lies.wrong) { return []; }
    Object.keys(bands).forEach(name => { typical[name] = bands[name][TYPICAL]; });
    const travelAt = function (names, by) {
      const at = Object.assign({}, typical);
      names.forEach(name => { at[name] += by; });
      const guided = joint.seats.map((seat, i) => guide(i + 1, seat, at, joint.clamped));
      let theta = tiltOf(guided, joint.seats, joint.separation || 0);
      if (joint.cheek_hole) { theta = F.seen_tilt({ theta: theta, theta_c: cheekTilt(joint, lies, at) }); }
      if (joint.arm_hole) { theta = F.seen_tilt({ theta: theta, theta_c: armTilt(joint, at) }); }
      return F.arm_travel({ r: joint.arm, theta: theta });
    };
    const sizeFor = function (names, wanted) {
      const by = wanted > 0 ? met(x => travelAt(names, x) - wanted) : null;
      return by === null ? null : typical[names[0]] + by;
    };
    const single = Object.keys(bands).filter(name => BLAMED.test(name));
    const pairs = single.filter(name => /_1$/.test(name)).map(name => [name, name.replace(/1$/, "2")])
      .filter(pair => pair[1] in bands && bands[pair[0]].every((x, k) => x === bands[pair[1]][k]));
    return pairs.concat(single.map(name => [name])).map(function (names) {
      const ends = [travel, travel - error, travel + error].map(y => sizeFor(names, y));
      const known = ends.filter(x => x !== null);
      return { names: names, size: ends[0], band: bands[names[0]], least: Math.min(...known), most: Math.max(...known) };
    }).filter(one => one.size !== null);
  }

  // By how much a size must change for a function of the change to cross nought, within a millimetre either way; null for never.
  function met(of) {
    const here = Math.sign(of(0));
    const sides = [-FARTHEST, FARTHEST].map(function (far) {
      let near = 0, beyond = far;
      if (here === 0) { return 0; }
      if (Math.sign(of(far)) === here) { return null; }
      for (let k = 0; k < HALVINGS; k += 1) {
        const middle = (near + beyond) / 2;
        if (Math.sign(of(middle)) === here) { near = middle; } else { beyond = middle; }
      }
      return (near + beyond) / 2;
    }).filter(x => x !== null);
    return sides.length ? sides.reduce((a, b) => Math.abs(a) <= Math.abs(b) ? a : b) : null;
  }

  window.guideReckon = { reckon: reckon, blame: blame, failures: failures };
})();
